// What happened earlier than it is recorded: the form sends the chosen moment with the workshop's
// own offset, and never one that lies ahead.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import {
  api, button, containerChoice, launch, openTablet, personOf, recordDrain, screenFaults, signIn,
  tapNumber,
} from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const dayOf = (days) => new Date(Date.now() + days * 86400000).toISOString().slice(0, 10);

async function choose(page, day, time) {
  await page.locator('input[name="day"]').fill(day);
  await page.locator('input[name="time"]').fill(time);
  await button(page, 'Take this moment').tap();
}

/** "+01:00" of London on a day at noon: the demo's shop is there, the tablet is not. */
function offsetOn(day) {
  const hour = new Intl.DateTimeFormat('en-GB', { timeZone: 'Europe/London', hour: '2-digit',
    hourCycle: 'h23' }).format(new Date(`${day}T12:00:00Z`));
  return hour === '13' ? '+01:00' : '+00:00';
}

test('a drain of an earlier day is logged late, by the clock of the workshop', async () => {
  const tablet = await openTablet(browser, { timezoneId: 'America/New_York' });
  const { page } = tablet;
  await signIn(tablet, personOf('technician'));
  await page.getByRole('button', { name: 'Oil drained' }).tap();
  await containerChoice(page, 0).tap();
  for (const field of ['fluid', 'measured_by', 'contamination']) {
    await page.locator(`[data-field="${field}"] .choice`).first().tap();
  }
  await tapNumber(tablet, '51');
  const opener = page.locator('.earlier');
  assert.match(await opener.textContent(), /now/);
  await opener.tap();
  assert.deepEqual(await screenFaults(tablet), []);
  await button(page, 'Take this moment').tap();
  await page.getByText('Please fill in day and time.').waitFor();
  await choose(page, dayOf(2), '09:30');
  await page.getByText('That lies ahead.').waitFor();
  const day = dayOf(-3);
  await choose(page, day, '12:00');
  await page.locator('.form').waitFor();
  assert.match(await opener.textContent(), /\d+\s\w{3}\s\d{4}, 12:00/);
  assert.equal(await page.locator('.number-value').textContent(), '51');
  assert.deepEqual(await screenFaults(tablet), []);
  const sent = page.waitForRequest((request) => request.method() === 'POST');
  await page.locator('.save').tap();
  const { id, occurred_at: occurred } = JSON.parse((await sent).postData());
  assert.equal(occurred, `${day}T12:00:00${offsetOn(day)}`);
  const bar = page.locator('.saved', { hasText: 'In the book, no.' });
  await bar.waitFor();
  const { seq, fields } = await api(tablet, `/entries/${id}`);
  assert.equal(fields.volume_ml, 51);
  await bar.getByRole('link', { name: 'Show the entry' }).tap();
  await page.getByText(`No. ${seq} in the book`).waitFor();
  assert.match(await page.locator('.head-facts').innerText(), /12:00/);

  // What is recorded there at this moment has the hour of the workshop in the list as well.
  await page.getByRole('link', { name: 'Bench' }).tap();
  await recordDrain(tablet, 52);
  await bar.waitFor();
  await bar.getByRole('link', { name: 'Show the entry' }).tap();
  const happened = page.locator('.head-facts div', { hasText: 'Happened' }).locator('dd');
  const moment = (await happened.textContent()).trim();
  await page.getByRole('link', { name: 'What was recorded' }).tap();
  await page.locator('a.recorded').first().waitFor();
  assert.ok((await page.locator('a.recorded').first().innerText()).includes(moment), moment);

  await page.getByRole('link', { name: 'Bench', exact: true }).tap();
  await page.getByRole('button', { name: 'Oil drained' }).tap();
  assert.match(await page.locator('.earlier').textContent(), /now/);
  await page.locator('.earlier').tap();
  await choose(page, day, '12:00');
  await page.locator('.earlier').tap();
  assert.equal(await page.locator('input[name="day"]').inputValue(), day);
  await button(page, 'It happened now').tap();
  assert.match(await page.locator('.earlier').textContent(), /now/);
  await tablet.context.close();
});
