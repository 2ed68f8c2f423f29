// A list filled in by taps, line by line: a collection is planned with two containers, and stands in
// the list of collections, from where the next stage is begun.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  api, button, launch, openTablet, personOf, screenFaults, signIn, tapNumber, turnTo,
} from './tablet.mjs';

const kId = `plan-${Date.now() % 1e7}`;
// Of the containers those for oil: what is counted by mass takes no volume.
const choice = (page, field, index) =>
  page.locator(`[data-field="${field}"] .choice`, { hasText: /oil/i }).nth(index);
const heading = (page, name) => page.getByRole('heading', { name }).waitFor();

async function planned(tablet) {
  const { collections } = await api(tablet, '/collections');
  return collections.find(({ collection }) => collection === kId);
}

describe('a list of a form', () => {
  let browser;
  let tablet;
  let page;
  before(async () => {
    browser = await launch();
    tablet = await openTablet(browser);
    page = tablet.page;
    await signIn(tablet, personOf('technician'));
    await page.getByRole('link', { name: 'Record something else' }).tap();
    await button(page, 'Collection').tap();
    await heading(page, 'Collection');
    await page.locator('[data-field="stage"] .choice', { hasText: 'Planned' }).tap();
    await page.locator('[data-field="collection"] input').fill(kId);
    const day = page.locator('[data-field="planned_date"] input');
    await turnTo(page, day);
    await day.fill('2031-05-06');
  });
  after(() => browser?.close());

  test('begins without a line', async () => {
    const opener = page.getByRole('button', { name: 'Containers no line' });
    await turnTo(page, opener);
    await opener.tap();
    await page.getByText('There is no line yet.').waitFor();
    assert.deepEqual(await screenFaults(tablet), []);
    await button(page, 'Add a line').tap();
    await heading(page, 'Containers, line 1');
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await button(page, 'Done with this line').tap();
    await page.getByText('There is no line yet.').waitFor();
  });

  test('takes lines by choices and keypad', async () => {
    await button(page, 'Add a line').tap();
    await choice(page, 'container', 0).tap();
    await tapNumber(tablet, '1500');
    await button(page, 'Done with this line').tap();
    assert.match(await page.locator('.row-line').textContent(), /1\s?500\smL/);
    await button(page, 'Add a line').tap();
    await choice(page, 'container', 1).tap();
    await button(page, 'Done with this line').tap();
    await page.getByText('This line is not complete yet.').waitFor();
    assert.equal(await page.locator('.row-line').count(), 2);
    assert.deepEqual(await screenFaults(tablet), []);
  });

  test('is not sent while a line is not complete', async () => {
    await button(page, 'Back to the main page').tap();
    await page.locator('.save').tap();
    await page.getByText('A line is not complete yet.').waitFor();
    assert.equal(await planned(tablet), undefined);
    await page.getByRole('button', { name: 'Containers 2 lines' }).tap();
    await page.locator('.row-line button').nth(1).tap();
    await heading(page, 'Containers, line 2');
    await tapNumber(tablet, '250');
    await button(page, 'Done with this line').tap();
    assert.equal(await page.getByText('not complete').count(), 0);
  });

  test('loses a line that is removed', async () => {
    await button(page, 'Add a line').tap();
    await choice(page, 'container', 0).tap();
    await button(page, 'Remove this line').tap();
    assert.equal(await page.locator('.row-line').count(), 2);
  });

  test('stands in the book as it was filled in', async () => {
    await button(page, 'Back to the main page').tap();
    await page.locator('.save').tap();
    await page.locator('.saved', { hasText: 'In the book, no.' }).waitFor();
    const { day, loads } = await planned(tablet);
    assert.equal(day, '2031-05-06');
    assert.deepEqual(loads.map((load) => load.volume_ml).sort((a, b) => a - b), [250, 1500]);
  });

  test('is filled in beforehand where the next stage is begun', async () => {
    await page.getByRole('link', { name: 'Collections' }).tap();
    const item = page.locator(`[data-collection="${kId}"]`);
    await item.waitFor();
    assert.match(await item.textContent(), /Planned/);
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await item.getByRole('button', { name: 'Record what was taken' }).tap();
    await heading(page, 'Collection');
    assert.equal(await page.locator('[data-field="collection"] input').inputValue(), kId);
    await page.getByRole('button', { name: 'Containers 2 lines' }).waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  });
});
