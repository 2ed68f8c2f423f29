// What the daemon refused when nobody waited for it, on a workshop of its own: it is mended, sent or
// dropped by whoever may, and nothing of it is lost or comes into the book twice.
import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { describe, test } from 'node:test';
import {
  benchA, benchB, daemon, entriesOf, findNetwork, loseNetwork, office, page, pair, retire, tablet,
  work,
} from './own_shop.mjs';
import {
  button, outboxSays, pick, recordDrain, screenFaults, signIn, tapNumber,
} from './tablet.mjs';

const drains = async () => (await entriesOf('oil-drained'))
  .map(({ fields, corrections }) => [fields.container, fields.volume_ml, corrections.length]);

/** A drain into W2 while nothing answers, and W2 retired meanwhile; `meanwhile` is done before. */
async function refusedLater(volume, meanwhile = () => {}) {
  await loseNetwork();
  await recordDrain(tablet, volume, 'W2');
  await outboxSays(page, '1 on this tablet');
  await meanwhile();
  await retire('w2');
  await findNetwork();
  await outboxSays(page, '1 needs attention');
}

async function openOutbox() {
  await page.locator('.outbox-link').tap();
  await page.locator('[data-row]').first().waitFor();
}

/** A drain of Bench B, who took the name from the list while nothing answers. */
async function claimedDrain(volume) {
  await loseNetwork();
  await button(page, 'Next person').tap();
  await page.locator('button.person', { hasText: benchB.name }).tap();
  await button(page, `Go on as ${benchB.name}`).tap();
  await page.locator('.bench').waitFor();
  await recordDrain(tablet, volume);
  await outboxSays(page, '1 on this tablet');
}

describe('what needs attention', () => {
  test('is stored as it was mended, also where it is asked once more', async () => {
    await work();
    await refusedLater(64);
    await openOutbox();
    await page.getByRole('link', { name: 'Mend it' }).tap();
    await page.locator('[data-field="container"] .choice', { hasText: 'W1' }).tap();
    for (let times = 0; times < 2; times += 1) await tapNumber(tablet, '⌫');
    await tapNumber(tablet, '9000');
    await page.locator('.save').tap();
    await page.getByRole('heading', { name: 'Is this right?' }).waitFor();
    await page.getByRole('button', { name: /^Yes, record/ }).tap();
    await outboxSays(page, 'All in the book');
    assert.deepEqual(await drains(), [['w1', 1, 0], ['w1', 9000, 0]]);
  });

  for (const [leaves, where] of [['Bench', '.bench'], ['Next person', '.people']]) {
    test(`holds what is refused after its form was left by ${leaves}`, async () => {
      await work();
      await page.route('**/api/v1/entries', async (route) => {
        await new Promise((resolve) => { setTimeout(resolve, 2500); });
        await route.continue();
      });
      await page.getByRole('button', { name: 'Oil drained' }).tap();
      await pick(page, 'container', 'W1');
      for (const field of ['fluid', 'measured_by', 'contamination']) await pick(page, field);
      await tapNumber(tablet, '99000');
      await page.locator('.save').tap();
      await page.locator('.head').getByText(leaves, { exact: true }).tap();
      await page.locator(where).waitFor();
      await outboxSays(page, '1 needs attention');
      assert.equal(await page.locator('.saved', { hasText: 'On this tablet' }).count(), 0);
      assert.deepEqual(await drains(), [['w1', 1, 0]]);
      if (leaves === 'Next person') await signIn(tablet, benchA, daemon.address);
      await page.getByRole('button', { name: 'Oil drained' }).tap();
      await page.locator('.form').waitFor(); // and not what was begun before
      assert.equal(await page.getByText('99000').count(), 0);
      await openOutbox();
      await page.getByRole('link', { name: 'Mend it' }).tap();
      await page.locator('main', { hasText: /99.?000/ }).waitFor();
    });
  }

  test('is dropped together with its strike-out where it was undone', async () => {
    await work();
    await refusedLater(64, async () => {
      await page.locator('.saved').getByRole('button', { name: 'Undo' }).tap();
      await outboxSays(page, '2 on this tablet');
    });
    await openOutbox();
    await page.getByText('there is nothing to mend').waitFor();
    assert.equal(await page.getByRole('link', { name: 'Mend it' }).count(), 0);
    assert.equal(await button(page, 'Send it again as it is').count(), 0);
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await button(page, 'Drop both').tap();
    await button(page, `Drop it as ${benchA.name}`).tap();
    await outboxSays(page, 'All in the book');
    assert.deepEqual(await drains(), [['w1', 1, 0]]);
  });

  test('is sent by its person with the PIN where the pairing has ended meanwhile', async () => {
    await pair();
    await work();
    await claimedDrain(83);
    const { devices: [{ id }] } = await daemon.call(office, 'GET', '/devices');
    await daemon.call(office, 'DELETE', `/devices/${id}`);
    await findNetwork();
    await outboxSays(page, '1 needs attention');
    await openOutbox();
    await page.getByText('Bench B can mend or drop it after signing in').waitFor();
    await button(page, 'Confirm').tap();
    await page.getByRole('link', { name: 'Back to the bench' }).tap();
    await tapNumber(tablet, benchB.pin);
    await button(page, 'Sign in').tap();
    await page.locator('.bench').waitFor();
    await outboxSays(page, '1 needs attention');
    await openOutbox();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await button(page, 'It is mine: send it as Bench B').tap();
    await outboxSays(page, 'All in the book');
    const [, entry] = await entriesOf('oil-drained');
    assert.deepEqual([entry.person, entry.person_verified, entry.device_seq ?? null],
      [benchB.id, true, null]);
  });

  test('is saved and dropped by a manager where it keeps a browser from being paired', async () => {
    await work();
    await refusedLater(64);
    await button(page, 'Next person').tap();
    await page.locator('.people').waitFor();
    await page.evaluate(() => { location.hash = '#/pair'; });
    await page.locator('.unsent').getByText('their person mends or drops on that page').waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await signIn(tablet, benchB, daemon.address);
    await openOutbox();
    await page.getByText('Where Bench A does not come, a manager signs in here').waitFor();
    assert.equal(await button(page, 'Drop it').count(), 0);
    await button(page, 'Next person').tap();
    await page.locator('.people').waitFor();
    await signIn(tablet, office, daemon.address);
    await openOutbox();
    assert.equal(await page.getByRole('link', { name: 'Mend it' }).count(), 0);
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await button(page, 'Drop it').tap();
    const coming = page.waitForEvent('download');
    await button(page, `Save all to a file and drop it as ${office.name}`).tap();
    const { rows } = JSON.parse(await readFile(await (await coming).path(), 'utf8'));
    assert.deepEqual(rows.map(({ person, body }) => [person, body.fields.volume_ml]),
      [[benchA.id, 64]]);
    await outboxSays(page, 'All in the book');
    await pair();
  });

  test('is left to its person on a paired tablet', async () => {
    await pair();
    await work();
    await refusedLater(64);
    await button(page, 'Next person').tap();
    await page.locator('.people').waitFor();
    await signIn(tablet, office, daemon.address);
    await page.evaluate(() => { location.hash = '#/pair'; });
    await page.locator('.unsent').getByText('They are sent by themselves').waitFor();
    await openOutbox();
    await page.getByText('Bench A can mend or drop it after signing in.', { exact: true }).waitFor();
    assert.equal(await button(page, 'Drop it').count(), 0);
  });

  test('is saved and dropped by a manager where its person can sign in no more', async () => {
    await pair();
    await work();
    await claimedDrain(81);
    await daemon.call(office, 'PUT', `/people/${benchB.id}/active`, { active: false });
    await findNetwork();
    await outboxSays(page, '1 needs attention');
    await openOutbox();
    await page.getByText('Bench B is not on the list of people any more').waitFor();
    assert.equal(await button(page, 'Drop it').count(), 0);
    await button(page, 'Next person').tap();
    await page.locator('.people').waitFor();
    await signIn(tablet, office, daemon.address);
    await openOutbox();
    await button(page, 'Drop it').tap();
    await page.getByText('the list of tablets shows that one is missing once').waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    const coming = page.waitForEvent('download');
    await button(page, `Save all to a file and drop it as ${office.name}`).tap();
    const { rows } = JSON.parse(await readFile(await (await coming).path(), 'utf8'));
    assert.deepEqual(rows.map(({ person, body }) => [person, body.fields.volume_ml]),
      [[benchB.id, 81]]);
    await outboxSays(page, 'All in the book');
    assert.deepEqual(await drains(), [['w1', 1, 0]]);
  });
});
