// What a person can do about entries that wait on the tablet: save them to a file, drop one that was
// refused, send it again, and look at them without signing in.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, before, describe, test } from 'node:test';
import {
  api, button, demo, launch, openTablet, outboxSays, personOf, recordDrain, screenFaults, signIn,
  tapNumber,
} from './tablet.mjs';

const kRefused = { status: 422, contentType: 'application/problem+json', body: JSON.stringify({
  title: 'The content was refused', errors: [{ pointer: '/occurred_at', code: 'too_early',
    detail: 'that month is closed' }] }) };

describe('entries that wait on the tablet', () => {
  let browser;
  let tablet;
  let page;
  let answering = null; // how the daemon answers entries

  before(async () => {
    browser = await launch();
    tablet = await openTablet(browser);
    page = tablet.page;
    await page.route('**/api/v1/entries', (route) => answering(route));
  });
  after(() => browser?.close());

  const away = (route) => route.abort();
  const lateRefusal = (route) => route.fulfill(kRefused);

  /** One entry more that the daemon refuses when its form is gone. */
  async function refusedLater(volume) {
    answering = away;
    await recordDrain(tablet, volume);
    await outboxSays(page, '1 on this tablet');
    answering = lateRefusal;
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await outboxSays(page, '1 needs attention');
    await page.locator('.outbox-link').tap();
    await page.locator('[data-row]').waitFor();
  }

  test('can be saved to a file', async () => {
    await signIn(tablet, personOf('technician'));
    await refusedLater(44);
    await page.getByText('That month is closed.').waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    const coming = page.waitForEvent('download');
    await button(page, 'Save to a file').tap();
    const file = await coming;
    assert.match(file.suggestedFilename(), /^entries-\d{4}-\d\d-\d\d\.json$/);
    const { rows } = JSON.parse(await readFile(await file.path(), 'utf8'));
    assert.deepEqual(rows.map(({ body }) => [body.kind, body.fields.volume_ml]),
      [['oil-drained', 44]]);
  });

  test('can be sent again as they are once what spoke against them has passed', async () => {
    answering = (route) => route.continue();
    await button(page, 'Send it again as it is').tap();
    await outboxSays(page, 'All in the book');
    await page.getByText('Everything that was recorded on this tablet is in the book.').waitFor();
  });

  test('can be seen by anybody and dropped by who made them, after being asked once more',
    async () => {
      await page.getByRole('link', { name: 'Back to the bench' }).tap();
      await refusedLater(45);
      await button(page, 'Next person').tap();
      await page.locator('.people').waitFor();
      await page.locator('.outbox-link').tap();
      await page.getByText(`${personOf('technician').name} can mend or drop it`).waitFor();
      assert.equal(await button(page, 'Drop it').count(), 0);

      await signIn(tablet, personOf('technician'));
      await page.locator('.outbox-link').tap();
      await button(page, 'Drop it').tap();
      await page.getByText('It will not come into the book.').waitFor();
      assert.equal(await page.getByText('Its number stays open').count(), 0); // it has none
      await button(page, 'Keep it').tap();
      await outboxSays(page, '1 needs attention');
      await button(page, 'Drop it').tap();
      await button(page, `Drop it as ${personOf('technician').name}`).tap();
      await outboxSays(page, 'All in the book');
      assert.equal(await page.locator('[data-row]').count(), 0);
    });

  test('wait for the next sign-in when the session has ended', async () => {
    await page.getByRole('link', { name: 'Back to the bench' }).tap();
    answering = async (route) => {
      await page.evaluate(() => fetch('/api/v1/session', { method: 'DELETE' }));
      await route.continue();
    };
    await page.getByRole('button', { name: 'Oil drained' }).tap();
    await page.locator('.numbers .offers .button').first().tap();
    await page.locator('[data-field="contamination"] .choice').first().tap();
    await page.locator('.save').tap();
    await page.getByText('Please sign in again.').waitFor();
    await outboxSays(page, '1 on this tablet');
    answering = (route) => route.continue();
    await signIn(tablet, personOf('technician'));
    await outboxSays(page, 'All in the book');
  });

  test('go once where two tabs send', async () => {
    const other = await tablet.context.newPage();
    await other.goto(page.url());
    await other.locator('.bench').waitFor();
    const sent = [];
    answering = (route) => {
      sent.push(route.request().postDataJSON());
      return route.continue();
    };
    await other.route('**/api/v1/entries', (route) => answering(route));
    await recordDrain(tablet, 46);
    await other.evaluate(() => window.dispatchEvent(new Event('online')));
    await outboxSays(page, 'All in the book');
    await outboxSays(other, 'All in the book');
    assert.deepEqual(sent.map(({ fields }) => fields.volume_ml), [46]);
    await other.close();
  });
});

describe('what was refused when its screen was left', () => {
  let browser;
  let tablet;
  let page;
  let answering = (route) => route.continue();

  before(async () => {
    browser = await launch();
  });
  after(() => browser?.close());

  const begin = async (role) => {
    tablet = await openTablet(browser);
    page = tablet.page;
    await page.route('**/api/v1/entries', (route) =>
      (route.request().method() === 'POST' ? answering(route) : route.continue()));
    await signIn(tablet, personOf(role));
  };

  /** Saves the correction asked about, and sees that its screen waits for no answer any more. */
  async function saved() {
    await page.locator('.save').tap();
    await page.locator('.save').waitFor({ state: 'detached' });
  }

  /** `record` while nothing answers; what it recorded is refused afterwards. */
  async function refusedAfter(record, later = (route) => route.fulfill(kRefused)) {
    answering = (route) => route.abort();
    await record();
    await outboxSays(page, '1 on this tablet');
    answering = later;
    await page.evaluate(() => window.dispatchEvent(new Event('online')));
    await outboxSays(page, '1 needs attention');
    await page.locator('.outbox-link').tap();
    await page.locator('[data-row]').waitFor();
    answering = (route) => route.continue();
  }

  test('is mended where a correction was: with its values and its reason', async () => {
    await begin('technician');
    await recordDrain(tablet, 46);
    await page.getByRole('link', { name: 'Show the entry' }).tap();
    await page.getByRole('link', { name: 'Correct' }).tap();
    await page.locator('.keypad').waitFor();
    await tapNumber(tablet, '7');
    await page.locator('.save').tap();
    await page.locator('.ask input').fill('read once more');
    await refusedAfter(saved);
    const told = (await page.locator('[data-row]').innerText())
      .replaceAll('\u00a0', ' ').replaceAll(/\n+/g, '\n');
    assert.match(told, /^Correct no\. \d+\nAbout this entry: Oil drained\n/);
    assert.match(told, /\nVolume: 46 mL → 467 mL\nReason: read once more\n/);
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await page.getByRole('link', { name: 'Mend it' }).tap();
    await page.getByText('That month is closed.').or(page.getByText('that month is closed')).waitFor();
    await page.locator('.keypad').waitFor();
    assert.equal(await page.locator('.number-value').textContent(), '467');
    await page.locator('.save').tap();
    assert.equal(await page.locator('.ask input').inputValue(), 'read once more');
    await page.locator('.save').tap();
    await outboxSays(page, 'All in the book');
    await page.getByText('Everything that was recorded on this tablet is in the book.').waitFor();
    const { entries } = await api(tablet, '/entries?kind=correction&limit=500');
    assert.equal(entries.filter(({ reason }) => reason === 'read once more').length, 1);
    await tablet.context.close();
  });

  test('of a correction is recorded by a second tap where it was only unusual', async () => {
    await begin('technician');
    await recordDrain(tablet, 47);
    await page.getByRole('link', { name: 'Show the entry' }).tap();
    await page.getByRole('link', { name: 'Correct' }).tap();
    await page.locator('.keypad').waitFor();
    for (let digit = 0; digit < 2; digit += 1) {
      await button(page, 'Delete the last digit').tap();
    }
    await tapNumber(tablet, '6000');
    await page.locator('.save').tap();
    await page.locator('.ask input').fill('a drum was emptied');
    await refusedAfter(saved, (route) => route.continue());
    await page.getByRole('link', { name: 'Mend it' }).tap();
    await page.getByRole('heading', { name: 'Is this right?' }).waitFor();
    await page.getByRole('button', { name: /^Yes, record 6000/ }).tap();
    await outboxSays(page, 'All in the book');
    const { entries } = await api(tablet, '/entries?kind=correction&limit=500');
    assert.deepEqual(entries.filter(({ reason }) => reason === 'a drum was emptied')
      .map(({ fields }) => fields.volume_ml), [6000]);
    assert.deepEqual(tablet.complaints, []);
    await tablet.context.close();
  });

  test('leads to its page where nothing of it can be altered', async () => {
    await begin('manager');
    await page.goto(`${demo.address}/#/findings`);
    await button(page, 'Acknowledge').first().tap();
    await page.locator('.finding input').fill('known');
    await refusedAfter(async () => {
      await page.getByRole('button', { name: /^Record as|Acknowledge as/ }).tap();
      await page.locator('.finding input').waitFor({ state: 'detached' }); // it waits no more
    });
    await page.getByText('It cannot be altered.').waitFor();
    assert.equal(await page.getByRole('link', { name: 'Mend it' }).count(), 0);
    assert.equal(await page.getByRole('link', { name: 'Look at what it is about' })
      .getAttribute('href'), '#/findings');
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await button(page, 'Drop it').tap();
    await button(page, `Drop it as ${personOf('manager').name}`).tap();
    await outboxSays(page, 'All in the book');
    await tablet.context.close();
  });
});
