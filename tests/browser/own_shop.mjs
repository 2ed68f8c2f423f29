// For each test of a file that imports this: a small workshop of its own, with a daemon that can be
// killed, and a tablet in it. What is exported is that of the test that runs.
import { after, afterEach, before, beforeEach } from 'node:test';
import { ownDaemon } from './own_daemon.mjs';
import { button, launch, openTablet, recordDrain, signIn } from './tablet.mjs';

export let daemon;
export let office;
export let benchA;
export let benchB;
export let tablet;
export let page;

let browser;
let others;

before(async () => {
  browser = await launch();
});
after(() => browser?.close());
beforeEach(async () => {
  others = [];
  daemon = await ownDaemon();
  [office, benchA, benchB] = daemon.persons;
  tablet = await openTablet(browser);
  page = tablet.page;
});
afterEach(async () => {
  for (const { context } of [tablet, ...others]) await context.close();
  await daemon.remove();
});

/** One more tablet, not of the browser of the first. */
export async function anotherTablet() {
  const other = await openTablet(browser);
  others.push(other);
  return other;
}

/** A browser becomes a tablet of the workshop by the address that the QR code has. */
export async function pair(one = tablet, name = 'Tablet 1') {
  const { address } = await daemon.call(office, 'POST', '/devices/pairing', { name });
  await one.page.goto(address);
  await button(one.page, 'Pair this tablet').tap();
  await one.page.getByText(`This tablet is ${name} now.`).waitFor();
}

/** Signs in where the app is kept, and records a drain of 1 mL, so that the next is like it. */
export async function work(person = benchA, one = tablet) {
  await signIn(one, person, daemon.address);
  await one.page.evaluate(() => navigator.serviceWorker.ready);
  await recordDrain(one, 1);
  await one.page.locator('.saved', { hasText: 'In the book' }).waitFor();
}

/** No answer reaches the tablet any more; the daemon goes on. */
export const loseNetwork = (one = tablet) => one.page.route('**/api/v1/**', (route) => route.abort());
export async function findNetwork(one = tablet) {
  await one.page.unroute('**/api/v1/**');
  await one.page.evaluate(() => window.dispatchEvent(new Event('online')));
}

export const entriesOf = async (kind) =>
  (await daemon.call(office, 'GET', `/entries?limit=500&kind=${kind}`)).entries;

/** A minute ago: what went in before would be taken. */
export const retire = (thing) => daemon.call(office, 'POST', '/entries', {
  id: '0190c2a4-7e00-7000-8000-000000000001', kind: 'register-change',
  occurred_at: new Date(Date.now() - 60000).toISOString().replace(/\.\d+/, ''),
  fields: { act: 'retired', thing_class: 'container', thing } });
