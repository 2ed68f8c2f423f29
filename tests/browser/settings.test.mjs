// The settings of a tablet: light or dark whatever the tablet is set to, and the forms mirrored for the
// left hand. They stay when the page is opened again.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import {
  button, demo, launch, openTablet, personOf, screenFaults, signIn, splitWords,
} from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const kPaper = { light: 'rgb(244, 244, 240)', dark: 'rgb(18, 22, 26)' };
const paper = (page) => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
const option = (page, setting, words) =>
  page.locator(`[data-setting="${setting}"] .choice`, { hasText: words });

for (const [system, other] of [['light', 'Dark'], ['dark', 'Light']]) {
  test(`${other} is chosen on a tablet that is ${system}, and stays`, async () => {
    const tablet = await openTablet(browser, { colorScheme: system });
    const { page } = tablet;
    await signIn(tablet, personOf('technician'));
    await page.getByRole('link', { name: 'Office and calculations' }).tap();
    await page.getByRole('link', { name: /^This tablet/ }).tap();
    await option(page, 'theme', 'As the tablet is set').waitFor();
    assert.equal(await paper(page), kPaper[system]);
    await option(page, 'theme', other).tap();
    assert.equal(await paper(page), kPaper[other.toLowerCase()]);
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await page.reload();
    await option(page, 'theme', other).waitFor();
    assert.equal(await paper(page), kPaper[other.toLowerCase()]);
    await page.goto(`${demo.address}/#/due`);
    await page.locator('.due').first().waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await page.goto(`${demo.address}/#/this-tablet`);
    await option(page, 'theme', 'As the tablet is set').tap();
    assert.equal(await paper(page), kPaper[system]);
    await tablet.context.close();
  });
}

/** The left edges of what the hand goes to, and of the choices. */
const edges = (page) => page.evaluate(() => {
  const left = (name) => document.querySelector(name)?.getBoundingClientRect().left;
  return { save: left('.form .save'), keypad: left('.form .keypad'),
    choices: left('.form [data-field="container"]') };
});

for (const [viewport, wide] of [[{ width: 1280, height: 800 }, true],
  [{ width: 800, height: 1280 }, true], [{ width: 390, height: 844 }, false]]) {
  test(`for the left hand a form is mirrored, ${viewport.width} px wide`, async () => {
    const tablet = await openTablet(browser, { viewport });
    const { page } = tablet;
    await signIn(tablet, personOf('technician'));
    const open = async () => {
      await page.goto(`${demo.address}/#/record/oil-drained`);
      await page.locator('.form .save').waitFor();
    };
    await open();
    const right = await edges(page);
    if (wide) assert.ok(right.keypad > right.choices && right.save > right.choices, 'right hand');
    await page.goto(`${demo.address}/#/this-tablet`);
    await option(page, 'hand', 'Left').tap();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await open();
    const left = await edges(page);
    if (wide) assert.ok(left.keypad < left.choices && left.save < left.choices, JSON.stringify(left));
    assert.ok(left.save < viewport.width / 2);
    assert.deepEqual(await screenFaults(tablet, { scrolls: !wide }), []);
    assert.deepEqual(await splitWords(page), []);
    await page.goto(`${demo.address}/#/record/rag-bin`);
    await page.locator('.form .primary').waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await page.reload();
    assert.equal(await page.evaluate(() => document.documentElement.dataset.hand), 'left');
    await tablet.context.close();
  });
}

test('on the PIN page the keypad moves to the left, too', async () => {
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await page.goto(`${demo.address}/#/`);
  await page.evaluate(() => localStorage.setItem('benchwarden-tablet', '{"hand":"left"}'));
  await page.reload();
  await page.locator('button.person').first().tap();
  const at = async (locator) => (await locator.boundingBox()).x;
  assert.ok(await at(page.locator('.keypad')) < await at(button(page, 'Sign in')));
  assert.deepEqual(await screenFaults(tablet), []);
  await tablet.context.close();
});

test('what stands in the storage and is no choice is taken as nothing', async () => {
  const tablet = await openTablet(browser, { colorScheme: 'light' });
  const { page } = tablet;
  for (const stored of ['{"theme":"loud","hand":7}', 'no JSON', 'null']) {
    await page.goto(demo.address);
    await page.evaluate((text) => localStorage.setItem('benchwarden-tablet', text), stored);
    await page.reload();
    await page.locator('button.person').first().waitFor();
    assert.equal(await paper(page), kPaper.light);
    assert.equal(await page.evaluate(() => document.documentElement.dataset.hand), 'right');
    assert.deepEqual(tablet.complaints, []);
  }
  await tablet.context.close();
});
