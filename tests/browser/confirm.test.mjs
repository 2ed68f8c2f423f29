// Before a weighty act the PIN is asked for there and then, and what was begun goes on; and the page of
// who is signed in.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import {
  button, demo, launch, openTablet, personOf, recordDrain, screenFaults, signIn,
} from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const manager = personOf('manager');

async function office(path) {
  const tablet = await openTablet(browser);
  await signIn(tablet, manager);
  await tablet.page.goto(`${demo.address}/#/${path}`);
  return tablet;
}

/** As if the PIN had been shown long ago: refused until it was confirmed. Counts the tries. */
async function wantsThePin(page, path, made) {
  const seen = { confirmed: false, tries: 0 };
  page.on('response', (response) => {
    if (response.url().endsWith('/session/confirmation')) seen.confirmed = response.ok();
  });
  await page.route(`**/api/v1${path}`, (route) => {
    seen.tries += 1;
    const problem = { type: '/problems/confirmation-needed', title: 'x', status: 403, detail: 'again' };
    return route.fulfill(seen.confirmed ? { status: 201, json: made }
      : { status: 403, contentType: 'application/problem+json', body: JSON.stringify(problem) });
  });
  return seen;
}

const kPairing = { code: 'ABCD-EFGH', ends_at: '2026-11-25T10:10:00Z', qr: ['11', '11'],
  address: 'http://shop.local:8417/#/pair/ABCDEFGH', set_up: null };

async function askForACode(page) {
  await button(page, 'Pair a tablet').tap();
  await page.getByLabel('Name of the tablet').fill('Tablet at bench 2');
  await button(page, 'Make a code').tap();
  await page.locator('dialog[open]').waitFor();
}

test('the PIN is asked for where it is wanted again, and the act goes on by itself', async () => {
  const tablet = await office('tablets');
  const { page } = tablet;
  const seen = await wantsThePin(page, '/devices/pairing', kPairing);
  await askForACode(page);
  await page.getByText(`You are signed in as ${manager.name}.`).waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await page.getByLabel('Your PIN').fill('640318');
  await button(page, 'Go on').tap();
  await page.getByText('Wrong PIN.').waitFor();
  await page.getByLabel('Your PIN').fill(manager.pin);
  await button(page, 'Go on').tap();
  await page.getByText('ABCD-EFGH').waitFor();
  assert.equal(seen.tries, 2);
  assert.equal(await page.locator('dialog[open]').count(), 0);
  await page.goto(`${demo.address}/#/due`);
  await page.getByRole('heading', { level: 1 }).waitFor();
  assert.equal(await page.locator('button.person').count(), 0, 'still signed in');
  await tablet.context.close();
});

test('whoever leaves it has done nothing, and is told so', async () => {
  const tablet = await office('tablets');
  const { page } = tablet;
  const seen = await wantsThePin(page, '/devices/pairing', kPairing);
  await askForACode(page);
  await button(page, 'Leave it').tap();
  await page.locator('.fault', { hasText: 'Again.' }).waitFor();
  assert.equal(seen.tries, 1);
  assert.equal(await page.getByLabel('Name of the tablet').inputValue(), 'Tablet at bench 2');
  await tablet.context.close();
});

test('an entry that wants the PIN again waits for it, and is then in the book', async () => {
  const tablet = await openTablet(browser);
  await signIn(tablet, manager);
  const { page } = tablet;
  let confirmed = false;
  page.on('response', (response) => {
    if (response.url().endsWith('/session/confirmation')) confirmed = response.ok();
  });
  await page.route('**/api/v1/entries', (route) => (confirmed || route.request().method() !== 'POST'
    ? route.continue() : route.fulfill({ status: 403, contentType: 'application/problem+json',
      body: JSON.stringify({ type: '/problems/confirmation-needed', title: 'x', status: 403,
        detail: 'again' }) })));
  await recordDrain(tablet, 31, 'W1');
  await page.locator('dialog[open]').waitFor();
  await page.getByLabel('Your PIN').fill(manager.pin);
  await button(page, 'Go on').tap();
  await page.locator('.saved', { hasText: 'In the book' }).waitFor();
  await tablet.context.close();
});

test('who is signed in stands in a list, where each can be ended', async () => {
  const other = await openTablet(browser);
  await signIn(other, personOf('technician'));
  const tablet = await office('sessions');
  const { page } = tablet;
  const line = page.locator('[data-session]').filter({ hasText: personOf('technician').name }).first();
  await line.getByText('at the workshop computer').waitFor();
  assert.equal(await page.getByText('This is the one you use now.').count(), 1);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  const id = await line.getAttribute('data-session');
  await line.getByRole('button', { name: 'End it' }).tap();
  await line.getByRole('button', { name: /^End this sign-in of/ }).tap();
  await page.locator(`[data-session="${id}"]`).waitFor({ state: 'detached' });
  await other.page.goto(`${demo.address}/#/findings`);
  await other.page.reload();
  await other.page.locator('button.person').first().waitFor();
  for (const one of [tablet, other]) await one.context.close();
});
