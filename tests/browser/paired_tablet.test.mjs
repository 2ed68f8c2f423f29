// A tablet is paired by the code a manager made, goes on in a person's name without a PIN while the
// daemon is away, and the person confirms it afterwards; the book tells all of it.
import assert from 'node:assert/strict';
import { after, afterEach, before, beforeEach, test } from 'node:test';
import {
  button, launch, openTablet, outboxSays, recordDrain, signIn, tapNumber,
} from './tablet.mjs';
import { ownDaemon } from './own_daemon.mjs';

let browser;
let daemon;
let office;
let benchA;
let benchB;

before(async () => {
  browser = await launch();
});
after(() => browser?.close());
beforeEach(async () => {
  daemon = await ownDaemon();
  [office, benchA, benchB] = daemon.persons;
});
afterEach(() => daemon.remove());

const devices = async () => (await daemon.call(office, 'GET', '/devices')).devices;
const drains = async () => (await daemon.call(office, 'GET', '/entries?kind=oil-drained')).entries;

/** A tablet that was paired by its address, as the QR code has it. */
async function pairedTablet(name) {
  const { address } = await daemon.call(office, 'POST', '/devices/pairing', { name });
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await page.goto(address);
  await button(page, 'Pair this tablet').tap();
  await page.getByText(`This tablet is ${name} now.`).waitFor();
  return tablet;
}

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
    const tablet = await pairedTablet('Bench tablet');
    const { page } = tablet;
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

    const before = await drains();
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
    const [, , claimed] = await drains();
    assert.equal(claimed.authorship, authorship);
    const { entries: [answer] } = await daemon.call(office, 'GET', '/entries?kind=entries-confirmed');
    assert.equal(claimed.confirmed_by, answer.seq);
    assert.deepEqual([answer.person, answer.person_verified, answer.device_seq],
      [benchB.id, true, 4]);
    const [device] = await devices();
    assert.deepEqual([device.name, device.entries, device.last_device_seq, device.missing,
      device.repeated], ['Bench tablet', 4, 4, [], []]);
    await tablet.context.close();
  });
}

test('a code pairs once, and a tablet whose pairing was ended is none', async () => {
  const { code, address } = await daemon.call(office, 'POST', '/devices/pairing', { name: 'T1' });
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await page.goto(`${daemon.address}/#/pair`);
  await page.locator('input').fill(code);
  await button(page, 'Pair this tablet').tap();
  await page.getByText('This tablet is T1 now.').waitFor();

  const other = await openTablet(browser);
  await other.page.goto(address);
  await button(other.page, 'Pair this tablet').tap();
  await other.page.getByText('Wrong, used or old code.').waitFor();
  await other.context.close();

  await daemon.call(office, 'DELETE', '/devices/d1');
  assert.notEqual((await devices())[0].ended_at, null);
  const { device } = await (await tablet.context.request.get(`${daemon.address}/api/v1/device`))
    .json();
  assert.equal(device, null);
  await tablet.context.close();
});

test('two paired tablets that empty the same drum while apart both stand in the book', async () => {
  const tablets = [await pairedTablet('T1'), await pairedTablet('T2')];
  const people = [benchA, benchB];
  for (const [index, tablet] of tablets.entries()) {
    await signIn(tablet, people[index], daemon.address);
    await recordDrain(tablet, 10 + index);
    await tablet.page.locator('.saved', { hasText: 'In the book' }).waitFor();
  }
  await daemon.kill();
  for (const tablet of tablets) {
    await recordDrain(tablet, 40);
    await outboxSays(tablet.page, '1 on this tablet');
  }
  await daemon.start();
  for (const { page } of tablets) await outboxSays(page, 'All in the book');
  const found = (await drains()).filter(({ fields }) => fields.volume_ml === 40);
  assert.deepEqual(found.map(({ person, device, device_seq: number }) => [person, device, number])
    .sort(), [[benchA.id, 'd1', 2], [benchB.id, 'd2', 2]]);
  for (const { context } of tablets) await context.close();
});
