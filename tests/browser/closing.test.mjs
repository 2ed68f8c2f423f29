// The manager signs a month's figures on the page of its report; everybody else who sees that page
// only reads whether it is closed.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import {
  api, launch, openTablet, personOf, screenFaults, signIn,
} from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const kNames = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const named = (month) =>
  new RegExp(`${kNames[Number(month.slice(5)) - 1]}\\s${month.slice(0, 4)}`);

async function openReport(role) {
  const tablet = await openTablet(browser);
  await signIn(tablet, personOf(role));
  await tablet.page.getByRole('link', { name: 'Monthly waste report' }).tap();
  await tablet.page.getByText('The month is not over yet.').waitFor();
  return tablet;
}

/** The newest month that is over, not closed; in most demos it is, and its closing is struck out. */
async function openMonth(tablet) {
  const { months } = await api(tablet, '/months');
  const { month, closed } = months.find((one) => one.over);
  if (closed) {
    const { closed: { id } } = await api(tablet, `/months/${month}`);
    assert.equal(await tablet.page.evaluate(async (content) => (await fetch('/api/v1/entries', {
      method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(content),
    })).status, { id: crypto.randomUUID(), kind: 'correction', corrects: id, reason: 'Opened again',
      occurred_at: new Date().toISOString(), fields: { action: 'struck-out' } }), 201);
  }
  return month;
}

const pick = ({ page }, month) => page.locator('.choice', { hasText: named(month) }).tap();

test('a month is closed with a caution, once, and its report says so', async () => {
  const tablet = await openReport('manager');
  const { page } = tablet;
  const month = await openMonth(tablet);
  const reader = await openReport('inspector');
  await pick(reader, month);
  await reader.page.getByText('The month is not closed').waitFor();
  assert.equal(await reader.page.getByRole('button', { name: /^Close / }).count(), 0);

  assert.equal(await page.getByRole('button', { name: /^Close / }).count(), 0);
  await pick(tablet, month);
  const close = page.getByRole('button', { name: /^Close / });
  await close.waitFor();
  await page.getByText('The figures can be corrected later, but the closing stays').waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await page.getByLabel('Statement').fill('one jug estimated');
  await close.tap();
  await page.getByText(/^Closed by .*, no\. \d+ in the book\.$/).waitFor();
  assert.equal(await close.count(), 0);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  const { closed } = await api(tablet, `/months/${month}`);
  assert.equal(closed.statement, 'one jug estimated');
  const report = await api(tablet, `/reports/waste-month.json?month=${month}`);
  assert.equal(report.closing.entry, closed.entry);
  await tablet.context.close();

  await reader.page.reload();
  await reader.page.getByText('The month is not over yet.').waitFor();
  await pick(reader, month);
  await reader.page.getByText(/^Closed by /).waitFor();
  await reader.context.close();
});
