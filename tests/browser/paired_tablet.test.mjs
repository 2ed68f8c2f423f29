// A tablet is paired by the code a manager made, goes on in a person's name without a PIN while the
// daemon is away, and the person confirms it afterwards; the book tells all of it.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import {
  anotherTablet, benchA, benchB, daemon, entriesOf, findNetwork, loseNetwork, office, page, pair,
  tablet, work,
} from './own_shop.mjs';
import {
  button, outboxSays, pick, recordDrain, screenFaults, signIn, tapNumber,
} from './tablet.mjs';

const devices = async () => (await daemon.call(office, 'GET', '/devices')).devices;
async function goOnWithoutPin({ page }, person) {
  await button(page, 'Next person').tap();
  await page.locator('button.person', { hasText: person.name }).tap();
  await button(page, `Go on as ${person.name}`).tap();
  await page.locator('.bench').waitFor();
}

async function confirmWithPin(tablet, person) {
  const { page } = tablet;
  await button(page, 'Confirm').tap();
  await tapNumber(tablet, person.pin);
  await button(page, 'Sign in').tap();
  await page.getByRole('heading', { name: 'Recorded in your name without PIN' }).waitFor();
}

for (const [words, authorship] of [['These are mine', 'mine'], ['Not mine', 'not-mine']]) {
  test(`what was recorded without a PIN is answered for: ${authorship}`, async () => {
    await pair(tablet, 'Bench tablet');
    await signIn(tablet, benchA, daemon.address);
    await recordDrain(tablet, 21);
    await page.locator('.saved', { hasText: 'In the book' }).waitFor();
    await daemon.kill();
    await recordDrain(tablet, 22);
    await outboxSays(page, '1 on this tablet');
    await goOnWithoutPin(tablet, benchB);
    await recordDrain(tablet, 23);
    await outboxSays(page, '2 on this tablet');
    await daemon.start();
    await outboxSays(page, 'All in the book');

    const before = await entriesOf('oil-drained');
    assert.deepEqual(before.map((entry) => [entry.fields.volume_ml, entry.person,
      entry.person_verified, entry.device, entry.device_seq]),
    [[21, benchA.id, true, 'd1', 1], [22, benchA.id, true, 'd1', 2],
      [23, benchB.id, false, 'd1', 3]]);
    assert.equal(before[2].confirmed_by, null);

    await confirmWithPin(tablet, benchB);
    await page.locator('.due .choice').tap();
    await page.getByRole('button', { name: words }).tap();
    await page.locator('.bench').waitFor();
    await outboxSays(page, 'All in the book');
    const [, , claimed] = await entriesOf('oil-drained');
    assert.equal(claimed.authorship, authorship);
    const [answer] = await entriesOf('entries-confirmed');
    assert.equal(claimed.confirmed_by, answer.seq);
    assert.deepEqual([answer.person, answer.person_verified, answer.device_seq],
      [benchB.id, true, 4]);
    const [device] = await devices();
    assert.deepEqual([device.name, device.entries, device.last_device_seq, device.missing,
      device.repeated], ['Bench tablet', 4, 4, [], []]);
  });
}

test('a code pairs once, and a tablet whose pairing was ended is none', async () => {
  const { code, address } = await daemon.call(office, 'POST', '/devices/pairing', { name: 'T1' });
  await page.goto(`${daemon.address}/#/pair`);
  await page.locator('input').fill(code);
  await button(page, 'Pair this tablet').tap();
  await page.getByText('This tablet is T1 now.').waitFor();

  const other = await anotherTablet();
  await other.page.goto(address);
  await button(other.page, 'Pair this tablet').tap();
  await other.page.getByText('Wrong, used or old code.').waitFor();

  await daemon.call(office, 'DELETE', '/devices/d1');
  assert.notEqual((await devices())[0].ended_at, null);
  const { device } = await (await tablet.context.request.get(`${daemon.address}/api/v1/device`))
    .json();
  assert.equal(device, null);
});

test('what keeps a tablet from being paired again is told, and a manager can take it away', async () => {
  await pair(tablet, 'T1');
  await signIn(tablet, benchA, daemon.address);
  await recordDrain(tablet, 21);
  await page.locator('.saved', { hasText: 'In the book' }).waitFor();
  await loseNetwork();
  await recordDrain(tablet, 22);
  await outboxSays(page, '1 on this tablet');
  await goOnWithoutPin(tablet, benchB);
  await recordDrain(tablet, 23, 'Oil drum W1');
  await outboxSays(page, '2 on this tablet');
  await button(page, 'Next person').tap();
  await page.locator('.people').waitFor();
  await daemon.call(office, 'DELETE', '/devices/d1');
  await findNetwork();
  await outboxSays(page, '1 needs attention'); // what was made with the PIN waits: its session ended, too
  await page.getByRole('link', { name: 'Pair this tablet' }).tap();
  const blocks = page.locator('.unsent');
  await blocks.getByText(`${benchB.name}: 1 entry`).waitFor();
  await blocks.getByText('Who made them signs in here with the PIN').waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);

  await signIn(tablet, office, daemon.address);
  await page.locator('.outbox-link').tap();
  await page.getByText(`${benchB.name} can send it`).waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  for (let left = 2; left > 0; left -= 1) {
    await button(page, 'Drop it').first().tap();
    const saved = page.waitForEvent('download');
    await button(page, `Save all to a file and drop it as ${office.name}`).tap();
    await saved;
    await page.waitForFunction((count) => document.querySelectorAll('main li').length < count, left);
  }
  await outboxSays(page, 'All in the book');
  const { code } = await daemon.call(office, 'POST', '/devices/pairing', { name: 'T2' });
  await page.evaluate(() => { location.hash = '#/pair'; });
  await page.locator('input[name="code"]').fill(code);
  await button(page, 'Pair this tablet').tap();
  await page.getByText('This tablet is T2 now.').waitFor();
  assert.deepEqual((await entriesOf('oil-drained')).map(({ fields }) => fields.volume_ml), [21]);
});

test('two paired tablets that empty the same drum while apart both stand in the book', async () => {
  const tablets = [tablet, await anotherTablet()];
  await pair(tablets[0], 'T1');
  await pair(tablets[1], 'T2');
  await work(benchA, tablets[0]);
  await work(benchB, tablets[1]);
  for (const one of tablets) {
    await one.page.evaluate(() => { location.hash = '#/record/container-change'; });
    await one.page.locator('.form').waitFor();
  }
  await daemon.kill();
  for (const one of tablets) {
    await pick(one.page, 'container');
    await pick(one.page, 'container_act', 'emptied');
    await one.page.locator('.save').tap();
    await outboxSays(one.page, '1 on this tablet');
  }
  await daemon.start();
  for (const one of tablets) await outboxSays(one.page, 'All in the book');
  const found = await entriesOf('container-change');
  assert.deepEqual(found.map(({ person, device, device_seq: number, fields }) =>
    [person, device, number, fields.container_act]).sort(),
  [[benchA.id, 'd1', 2, 'emptied'], [benchB.id, 'd2', 2, 'emptied']]);
});
