// The main job by taps only: sign in, log a drain, see the level change, undo, read it back.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  api, containerChoice, launch, openTablet, personOf, signIn, tapNumber,
} from './tablet.mjs';

const kTaps = 4; // besides the digits

const yesterday = () => new Date(Date.now() - 86400000).toISOString().slice(0, 10);

/** The drains of the last two days, oldest first. */
async function drains(tablet) {
  const found = [];
  let cursor = '';
  do {
    const path = `/entries?kind=oil-drained&from=${yesterday()}&limit=200${cursor}`;
    const page = await api(tablet, path);
    found.push(...page.entries);
    cursor = page.next_cursor ? `&cursor=${encodeURIComponent(page.next_cursor)}` : '';
  } while (cursor);
  return found;
}

async function volumeOf(tablet, container) {
  const { levels } = await api(tablet, '/levels');
  return levels.find((level) => level.container === container).volume_ml;
}

const inThousandths = (number) => Math.round(number * 1000);
const choice = (page, field, label) =>
  page.locator(`[data-field="${field}"] .choice`, { hasText: label });

/** Opens the form; one that was left half-way is begun anew. */
async function open(tablet) {
  const { page } = tablet;
  await tablet.tap(page.getByRole('button', { name: 'Oil drained' }));
  await page.locator('.form, .ask').first().waitFor();
  const anew = page.getByRole('button', { name: 'Begin anew' });
  if (await anew.count()) await anew.tap();
}

const save = (tablet) => tablet.tap(tablet.page.locator('.save'));

/** Taps every choice of the first page but the volume; returns the id of the container. */
async function choose(tablet) {
  const { page } = tablet;
  const container = containerChoice(page, 0);
  await container.tap();
  await choice(page, 'fluid', 'Mineral oil').tap();
  await choice(page, 'measured_by', 'Measuring jug').tap();
  await choice(page, 'contamination', 'None suspected').tap();
  return container.locator('input').getAttribute('value');
}

/** The number in the book that the bar shows. */
async function bookNumber(page) {
  const bar = page.locator('.saved', { hasText: 'In the book, no.' });
  await bar.waitFor();
  return Number(/no\. (\d+)/.exec(await bar.textContent())[1]);
}

describe('a technician at the tablet', () => {
  let browser;
  let tablet;
  let page;
  let container;

  before(async () => {
    browser = await launch();
    tablet = await openTablet(browser);
    page = tablet.page;
    await signIn(tablet, personOf('technician'));
  });
  after(() => browser?.close());

  test('logs a drain and sees the level of its container rise by it', async () => {
    await open(tablet);
    container = await choose(tablet);
    const before = await volumeOf(tablet, container);
    await tapNumber(tablet, '62.5');
    assert.match(await page.locator('.echo').textContent(), /^62\.5\s*mL = 0\.0625\s*L$/);
    await save(tablet);
    const seq = await bookNumber(page);
    const after = await volumeOf(tablet, container);
    assert.equal(inThousandths(after) - inThousandths(before), 62500);

    const shown = await page.locator(`[data-level="${container}"]`).textContent();
    const litres = Number(/^[\d.\s\u202f]+/.exec(shown)[0].replace(/[\s\u202f]/g, ''));
    assert.equal(Math.round(litres * 1e6), inThousandths(after));

    const entry = (await drains(tablet)).find((one) => one.seq === seq);
    assert.deepEqual(entry.fields, { container, volume_ml: 62.5, fluid: 'mineral-oil',
      measured_by: 'jug', contamination: 'none' });
    assert.equal(entry.person, personOf('technician').id);
    assert.match(entry.id, /^[0-9a-f]{8}-[0-9a-f]{4}-7/);
    assert.match(entry.occurred_at, /[+-]\d\d:\d\d$/);
  });

  test('logs the next one within four taps besides the digits', async () => {
    tablet.taps = 0;
    await open(tablet);
    await page.locator('.form').waitFor();
    assert.equal(await choice(page, 'contamination', '').locator('input:checked').count(), 0);
    await tapNumber(tablet, '110');
    await tablet.tap(choice(page, 'contamination', 'None suspected'));
    await save(tablet);
    const seq = await bookNumber(page);
    assert.ok(tablet.taps <= kTaps, `${tablet.taps} taps`);
    const entry = (await drains(tablet)).find((one) => one.seq === seq);
    assert.deepEqual(entry.fields, { container, volume_ml: 110, fluid: 'mineral-oil',
      measured_by: 'jug', contamination: 'none' });
  });

  test('is offered the last volume again as a plain button', async () => {
    await open(tablet);
    await page.getByRole('button', { name: /^110\s*mL again$/ }).tap();
    assert.equal(await page.locator('.number-value').textContent(), '110');
    await tapNumber(tablet, '7');
    assert.equal(await page.locator('.number-value').textContent(), '7');
    await page.getByRole('link', { name: 'Bench' }).tap();
  });

  test('undoes a drain: the level is as before and both entries stay in the book', async () => {
    const before = await volumeOf(tablet, container);
    await open(tablet);
    await choose(tablet);
    await tapNumber(tablet, '333');
    await save(tablet);
    const seq = await bookNumber(page);
    assert.notEqual(await volumeOf(tablet, container), before);
    await tablet.tap(page.getByRole('button', { name: 'Undo' }));
    await page.getByText(`No. ${seq} is struck out by no.`).waitFor();
    assert.equal(await volumeOf(tablet, container), before);

    const entry = (await drains(tablet)).find((one) => one.seq === seq);
    assert.equal(entry.fields.volume_ml, 333);
    assert.equal(entry.corrections.length, 1);
    const [strikeOut] = entry.corrections;
    assert.equal(strikeOut.corrects, entry.id);
    assert.equal(strikeOut.fields.action, 'struck-out');
    assert.equal(strikeOut.reason, 'undone at once');
    assert.equal((await api(tablet, `/entries/${strikeOut.id}`)).seq, strikeOut.seq);
  });

  test('does not record without a contamination finding', async () => {
    const before = (await drains(tablet)).length;
    await open(tablet);
    await tapNumber(tablet, '50');
    await save(tablet);
    await page.locator('[data-field="contamination"] .fault').waitFor();
    assert.equal((await drains(tablet)).length, before);
    await page.getByRole('link', { name: 'Bench' }).tap();
  });

  test('taps a second time for an unusual volume, which is said in words', async () => {
    const before = (await drains(tablet)).length;
    await open(tablet);
    await choose(tablet);
    await tapNumber(tablet, '6200');
    await save(tablet);
    await page.getByText('Six thousand two hundred millilitres').waitFor();
    assert.equal((await drains(tablet)).length, before);
    await save(tablet);
    const seq = await bookNumber(page);
    const entry = (await drains(tablet)).find((one) => one.seq === seq);
    assert.equal(entry.fields.volume_ml, 6200);
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByText('is struck out by').waitFor();
  });

  test('offers containers of oil first and taps a second time for another', async () => {
    const before = (await drains(tablet)).length;
    await open(tablet);
    await choose(tablet);
    await page.locator('[data-field="container"]')
      .getByRole('button', { name: /^Show \d+ others?$/ }).tap();
    await page.locator('[data-field="container"] .choice').last().filter({ hasText: 'Solvent' })
      .tap();
    await tapNumber(tablet, '50');
    await save(tablet);
    await page.locator('.asked', { hasText: 'Solvent' }).waitFor();
    assert.equal((await drains(tablet)).length, before);
    await save(tablet);
    const seq = await bookNumber(page);
    const entry = (await drains(tablet)).find((one) => one.seq === seq);
    assert.equal(entry.fields.container, 's1');
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByText('is struck out by').waitFor();
  });

  test('reads an impossible volume refused at its field in the words of the daemon', async () => {
    const before = (await drains(tablet)).length;
    await open(tablet);
    await choose(tablet);
    await tapNumber(tablet, '999999');
    const answer = page.waitForResponse((response) => response.url().endsWith('/entries'));
    await save(tablet);
    const { errors } = await (await answer).json();
    const { detail } = errors.find((error) => error.pointer === '/fields/volume_ml');
    await page.locator('.numbers .fault').waitFor();
    assert.equal(await page.locator('.numbers .fault').textContent(), detail);
    assert.equal((await drains(tablet)).length, before);
    await page.getByRole('link', { name: 'Bench' }).tap();
  });

  test('sends the same entry again when its answer was lost, and it is there once', async () => {
    const before = await volumeOf(tablet, container);
    const bodies = [];
    await page.route('**/api/v1/entries', async (route) => {
      bodies.push(route.request().postData());
      if (bodies.length > 1) return route.continue();
      await route.fetch(); // recorded, but the tablet never hears of it
      return route.abort('connectionreset');
    });
    await open(tablet);
    await choose(tablet);
    await tapNumber(tablet, '41');
    await save(tablet);
    await bookNumber(page); // sent again by itself
    await page.unroute('**/api/v1/entries');

    assert.equal(bodies.length, 2);
    assert.equal(bodies[0], bodies[1]);
    const { id } = JSON.parse(bodies[0]);
    assert.equal((await drains(tablet)).filter((entry) => entry.id === id).length, 1);
    const after = await volumeOf(tablet, container);
    assert.equal(inThousandths(after) - inThousandths(before), 41000);
  });

  test('has broken no content security policy on the way', async () => {
    assert.deepEqual(await page.evaluate(() => window.violations), []);
    assert.deepEqual(tablet.complaints, []);
  });
});
