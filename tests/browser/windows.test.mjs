// Who is at the tablet, over several windows of its browser, a reload and a change of person: what is
// recorded, begun or undone belongs to one person.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { benchA, benchB, daemon, entriesOf, page, pair, tablet } from './own_shop.mjs';
import {
  button, outboxSays, pick, recordDrain, signIn, tapNumber, turnTo, until,
} from './tablet.mjs';

const kIdleMs = 3 * 60 * 1000;

/** A second window of the same browser. */
async function secondWindow() {
  const second = await tablet.context.newPage();
  second.setDefaultTimeout(8000);
  await second.goto(`${daemon.address}/#/`);
  await second.locator('.bench').waitFor();
  return { ...tablet, page: second };
}

/** Hands the tablet over without loading the page anew. */
async function handOver(window, person) {
  await button(window.page, 'Next person').tap();
  await window.page.locator('button.person', { hasText: person.name }).tap();
  await tapNumber(window, person.pin);
  await button(window.page, 'Sign in').tap();
  await window.page.locator('.bench').waitFor();
}

/** Fills in a drain; the button that records is not tapped. */
async function fillDrain(window, volume) {
  const form = window.page;
  await form.getByRole('button', { name: 'Oil drained' }).tap();
  for (const field of ['container', 'fluid', 'measured_by', 'contamination']) await pick(form, field);
  await tapNumber(window, String(volume));
}

const isAt = (where, person) => where.locator('.who', { hasText: person.name }).waitFor();

/** Writes one fact that the app keeps in the browser. */
const writeFact = (where, name, value) => where.evaluate(([key, fact]) =>
  new Promise((resolve) => {
    const opening = indexedDB.open('benchwarden');
    opening.onsuccess = () => {
      const work = opening.result.transaction('facts', 'readwrite');
      work.objectStore('facts').put(fact, key);
      work.oncomplete = () => {
        opening.result.close();
        resolve();
      };
    };
  }), [name, value]);

describe('two windows of one browser', () => {
  test('have the same person at once, and a form that is open goes with its person', async () => {
    await signIn(tablet, benchA, daemon.address);
    const second = await secondWindow();
    await page.bringToFront();
    await fillDrain(tablet, 46);
    await second.page.bringToFront();
    await handOver(second, benchB);
    await page.bringToFront();
    await isAt(page, benchB);
    await button(page, `Record as ${benchA.name}`).waitFor({ state: 'detached' });
    await page.locator('.form').waitFor();
    assert.doesNotMatch(await page.locator('.number-value').textContent(), /46/);
    await page.getByRole('link', { name: 'Bench' }).tap();
    await recordDrain(tablet, 47);
    await page.locator('.saved', { hasText: 'In the book' }).waitFor();
    assert.deepEqual((await entriesOf('oil-drained')).map(({ person, person_verified: verified, fields }) =>
      [person, verified, fields.volume_ml]), [[benchB.id, true, 47]]);

    await button(page, 'Next person').tap();
    await second.page.locator('.people').waitFor();
    await handOverBack(second);
    assert.deepEqual(tablet.complaints, []);
  });

  /** Who begun the form finds it as it was left. */
  async function handOverBack(second) {
    await second.page.bringToFront();
    await second.page.locator('button.person', { hasText: benchA.name }).tap();
    await tapNumber(second, benchA.pin);
    await button(second.page, 'Sign in').tap();
    await second.page.locator('.bench').waitFor();
    await second.page.getByRole('button', { name: 'Oil drained' }).tap();
    await second.page.locator('.form').waitFor();
    assert.equal(await second.page.locator('.number-value').textContent(), '46');
  }

  test('record nothing under a session that another window does not know of yet', async () => {
    await signIn(tablet, benchA, daemon.address);
    await fillDrain(tablet, 48);
    const answer = await tablet.context.request.post(`${daemon.address}/api/v1/session`,
      { headers: { Origin: daemon.address }, data: { person: benchB.id, pin: benchB.pin } });
    assert.equal(answer.status(), 201);
    await page.locator('.save').tap();
    await page.locator('.fault').first().waitFor(); // it was refused
    assert.deepEqual(await entriesOf('oil-drained'), []);
    assert.equal(await page.locator('.number-value').textContent(), '48');
  });

  test('lock together, and only once nobody touches either', async () => {
    await page.clock.install();
    await signIn(tablet, benchA, daemon.address);
    const second = await secondWindow();
    await second.page.clock.install();
    await page.clock.fastForward('02:50');
    await writeFact(page, 'touched', await page.evaluate(() => Date.now()));
    await page.clock.fastForward('00:20');
    await page.waitForTimeout(500);
    await page.locator('.bench').waitFor();
    await page.clock.fastForward('03:00');
    await page.locator('.people').waitFor();
    await second.page.locator('.people').waitFor();
  });
});

describe('a tablet that is opened again', () => {
  test('asks for the PIN once it was left alone for too long, and ends the session', async () => {
    await signIn(tablet, benchA, daemon.address);
    await page.reload();
    await page.locator('.bench').waitFor();
    await writeFact(page, 'touched', Date.now() - kIdleMs - 1000);
    await page.reload();
    await page.locator('button.person').first().waitFor();
    assert.equal(await page.locator('.bench').count(), 0);
    await until(page, async () => (await fetch('/api/v1/session')).status === 401);
  });

  test('keeps the touches of somebody who never rests', async () => {
    await page.clock.install();
    await signIn(tablet, benchA, daemon.address);
    for (let count = 0; count < 21; count += 1) {
      await page.clock.fastForward('00:09');
      await page.mouse.click(2, 700);
    }
    await page.reload();
    await page.locator('.bench').waitFor();
  });

  test('goes on without PIN when the workshop computer answers again meanwhile', async () => {
    await pair();
    await signIn(tablet, benchA, daemon.address);
    await page.evaluate(() => navigator.serviceWorker.ready);
    await button(page, 'Next person').tap();
    await page.locator('button.person').first().waitFor();
    await until(page, async () => (await fetch('/api/v1/session')).status === 401);
    await daemon.kill();
    await page.reload();
    await page.locator('button.person', { hasText: benchB.name }).tap();
    await button(page, `Go on as ${benchB.name}`).tap();
    await page.locator('.bench').waitFor();
    await daemon.start();
    await page.reload();
    await page.locator('.bench').waitFor();
    await page.getByText('Please confirm with your PIN').waitFor();
    await isAt(page, benchB);
  });
});

describe('the bar after recording', () => {
  /** What the daemon answers to entries stays on the way until the returned function is called. */
  function lateAnswer() {
    let release;
    const released = new Promise((resolve) => { release = resolve; });
    page.route('**/api/v1/entries', async (route) => {
      const response = await route.fetch();
      await released;
      await route.fulfill({ response });
    });
    return release;
  }

  /** The person chooses the name and signs in; what was on the way comes in then. */
  async function comesNext(person, answer) {
    await button(page, 'Next person').tap();
    await page.locator('button.person', { hasText: person.name }).tap();
    await tapNumber(tablet, person.pin);
    setTimeout(answer, 500); // signing in waits for what was made before
    await button(page, 'Sign in').tap();
    await page.locator('.bench').waitFor();
    await outboxSays(page, 'All in the book');
    await page.waitForTimeout(4500); // longer than a form waits for the book
  }

  test('is not shown to the next person when the answer comes late', async () => {
    await signIn(tablet, benchA, daemon.address);
    const answer = lateAnswer();
    await fillDrain(tablet, 49);
    await page.locator('.save').tap();
    await comesNext(benchB, answer);
    assert.equal(await page.locator('.saved').count(), 0);
    assert.deepEqual((await entriesOf('oil-drained')).map(({ person, corrections }) => [person, corrections]),
      [[benchA.id, []]]);
  });

  test('does not come back when what was undone is answered late', async () => {
    await signIn(tablet, benchA, daemon.address);
    await recordDrain(tablet, 50);
    await page.locator('.saved', { hasText: 'In the book' }).waitFor();
    const answer = lateAnswer();
    await page.locator('.saved').getByRole('button', { name: 'Undo' }).tap();
    await outboxSays(page, '1 on this tablet');
    await comesNext(benchB, answer);
    assert.equal(await page.locator('.saved').count(), 0);
  });
});

describe('a draft in two windows', () => {
  test('ends in both when it is recorded in one', async () => {
    await signIn(tablet, benchA, daemon.address);
    await fillDrain(tablet, 88);
    const second = await secondWindow();
    const third = await secondWindow();
    await third.page.getByRole('button', { name: 'Oil drained' }).tap();
    await third.page.locator('.form').waitFor();
    assert.equal(await third.page.locator('.number-value').textContent(), '88');
    await page.bringToFront();
    await page.locator('.save').tap();
    await page.locator('.saved', { hasText: 'In the book' }).waitFor();
    await second.page.bringToFront();
    await second.page.getByRole('button', { name: 'Oil drained' }).tap();
    for (const window of [second, third]) {
      await window.page.bringToFront();
      await turnTo(window.page, window.page.locator('.number-value'));
      await window.page.locator('.number-value', { hasText: '88' }).waitFor({ state: 'detached' });
    }
    assert.equal((await entriesOf('oil-drained')).length, 1);
  });

  test('goes on in the one where the other left off', async () => {
    await signIn(tablet, benchA, daemon.address);
    const second = await secondWindow();
    await fillDrain(tablet, 89);
    await second.page.bringToFront();
    await second.page.getByRole('button', { name: 'Oil drained' }).tap();
    await second.page.locator('.form').waitFor();
    assert.equal(await second.page.locator('.number-value').textContent(), '89');
  });
});
