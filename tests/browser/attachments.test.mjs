// A file that goes with an entry: added on the tablet, and fetched again from the history.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { after, before, describe, test } from 'node:test';
import {
  api, button, demo, launch, openTablet, personOf, screenFaults, signIn, tapNumber, turnTo,
} from './tablet.mjs';

/** A picture of one grey pixel (PNG). */
const kPicture = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAA'
  + 'AABJRU5ErkJggg==', 'base64');

const choose = (page, name, mimeType, buffer) =>
  page.locator('input[type="file"]').setInputFiles({ name, mimeType, buffer });

describe('a file with an entry', () => {
  let browser;
  let tablet;
  let page;

  before(async () => {
    browser = await launch();
    tablet = await openTablet(browser, { acceptDownloads: true });
    page = tablet.page;
    await signIn(tablet, personOf('manager'));
    await page.goto(`${demo.address}/#/record/cylinder-check`);
    await page.locator('.form').waitFor();
  });
  after(() => browser?.close());

  test('is added on a page of its own, on which nothing is wrong', async () => {
    await button(page, 'Certificate').tap();
    await page.locator('input[type="file"]').waitFor();
    assert.deepEqual(await screenFaults(tablet), []);
    await choose(page, 'stamp.png', 'image/png', kPicture);
    await page.locator('.file-row', { hasText: 'stamp.png' }).waitFor();
    assert.deepEqual(await screenFaults(tablet), []);
  });

  test('is refused in words when it is of another kind or too large', async () => {
    await choose(page, 'notes.txt', 'text/plain', Buffer.from('no picture'));
    await page.locator('.fault', { hasText: 'PDF, JPEG or PNG' }).waitFor();
    await choose(page, 'huge.png', 'image/png', Buffer.alloc(5000001));
    await page.locator('.fault', { hasText: 'huge.png is larger' }).waitFor();
    assert.equal(await page.locator('.file-row').count(), 1);
  });

  test('can be taken away again before the entry is recorded', async () => {
    const other = Buffer.concat([Buffer.from('%PDF-1.7\nstartxref\n9\n%%EOF\n')]);
    await choose(page, 'other.pdf', 'application/pdf', other);
    const row = page.locator('.file-row', { hasText: 'other.pdf' });
    await row.getByRole('button', { name: 'Remove' }).tap();
    await row.waitFor({ state: 'detached' });
  });

  test('stands in the entry and is saved from the history as it was', async () => {
    await button(page, 'Back to the main page').tap();
    await button(page, 'Certificate (1)').waitFor();
    await page.locator('[data-field="cylinder"] .choice').first().tap();
    await tapNumber(tablet, '150');
    await turnTo(page, page.locator('.save'));
    await page.locator('.save').tap();
    const bar = page.locator('.saved', { hasText: 'In the book, no.' });
    await bar.waitFor();
    const seq = Number(/no\. (\d+)/.exec(await bar.textContent())[1]);
    const { entries } = await api(tablet, '/entries?kind=cylinder-check&limit=500');
    const entry = entries.find((one) => one.seq === seq);
    assert.deepEqual(entry.attached.map(({ media_type: type, bytes }) => [type, bytes]),
      [['image/png', kPicture.length]]);

    await page.goto(`${demo.address}/#/cylinders/${entry.fields.cylinder}`);
    const link = page.locator('.check', { hasText: `No. ${seq} ` })
      .getByRole('link', { name: 'Save the file (PNG, 0.1' });
    const [download] = await Promise.all([page.waitForEvent('download'), link.tap()]);
    assert.equal(download.suggestedFilename(), `${entry.attachments[0].slice(0, 16)}.png`);
    assert.deepEqual(await readFile(await download.path()), kPicture);
  });
});
