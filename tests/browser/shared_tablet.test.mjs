// A tablet that many people use: pairing, names taken without a PIN while the daemon is away, what
// is said of such entries later, and a tablet that is left alone.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  button, demo, launch, openTablet, outboxSays, personOf, recordDrain, screenFaults, signIn, tapNumber,
  turnTo,
} from './tablet.mjs';

const kDevice = { id: 'd1', name: 'Tablet at bench 1' };
const kProblem = 'application/problem+json';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const answer = (route, status, value, contentType = 'application/json') =>
  route.fulfill({ status, contentType, body: JSON.stringify(value) });

/** A paired tablet whose daemon can be away; `sent` gathers what it sends as entries. */
async function pairedTablet() {
  const tablet = await openTablet(browser);
  Object.assign(tablet, { away: false, sent: [], unconfirmed: [] });
  const { page } = tablet;
  await page.route('**/api/v1/**', (route) => (tablet.away ? route.abort() : route.fallback()));
  const here = (path, handler) => page.route(`**/api/v1${path}`, (route) =>
    (tablet.away ? route.abort() : handler(route)));
  await here('/device', (route) => answer(route, 200, { device: kDevice }));
  await here('/entries/unconfirmed', (route) =>
    answer(route, 200, { entries: tablet.unconfirmed }));
  await here('/entries', async (route) => {
    const body = route.request().postDataJSON();
    const receipts = [body].flat().map((entry) => {
      tablet.sent.push(entry);
      return { id: entry.id, seq: 9000 + tablet.sent.length, recorded_at: '2026-11-29T12:00:00Z',
        leaf_hash: '' };
    });
    if (!Array.isArray(body)) return answer(route, 201, receipts[0]);
    return answer(route, 200,
      { results: receipts.map((entry) => ({ status: 201, entry })) });
  });
  return tablet;
}

async function clean(tablet, options = { scrolls: true }) {
  assert.deepEqual(await screenFaults(tablet, options), []);
}

describe('a tablet shared by several people', () => {
  test('is paired with the code of its address, once the daemon takes it', async () => {
    const tablet = await openTablet(browser);
    const { page } = tablet;
    const codes = [];
    let device = null;
    await page.route('**/api/v1/device', (route) => answer(route, 200, { device }));
    await page.route('**/api/v1/devices', (route) => {
      codes.push(route.request().postDataJSON());
      if (codes.length === 1) return answer(route, 403, { title: 'Wrong code' }, kProblem);
      device = kDevice;
      return answer(route, 201, kDevice);
    });
    await page.goto(`${demo.address}/#/pair/ABCDEFGH`);
    await page.getByRole('heading', { name: 'Pair this tablet' }).waitFor();
    await clean(tablet);
    assert.deepEqual(codes, []); // only by the button
    await button(page, 'Pair this tablet').tap();
    await page.getByText('Wrong, used or old code.').waitFor();
    await page.getByLabel('Pairing code').fill('jkmn pqrs');
    await button(page, 'Pair this tablet').tap();
    await page.getByText('This tablet is Tablet at bench 1 now.').waitFor();
    assert.deepEqual(codes, [{ code: 'ABCD-EFGH' }, { code: 'JKMN-PQRS' }]);
    assert.doesNotMatch(page.url(), /ABCDEFGH/);
    await page.getByRole('link', { name: 'To the names' }).tap();
    await page.getByText('This tablet is Tablet at bench 1.').waitFor();
    await clean(tablet);
    await tablet.context.close();
  });

  test('cannot be paired while something waits on it', async () => {
    const tablet = await openTablet(browser);
    const { page } = tablet;
    await signIn(tablet, personOf('technician'));
    await page.route('**/api/v1/entries', (route) => route.abort());
    await recordDrain(tablet, 21);
    await outboxSays(page, '1 on this tablet');
    await page.evaluate(() => { location.hash = '#/pair/ABCDEFGH'; });
    await button(page, 'Pair this tablet').tap();
    await page.getByText('There are entries on this tablet').waitFor();
    await page.unroute('**/api/v1/entries');
    await outboxSays(page, 'All in the book');
    await tablet.context.close();
  });

  test('takes a name without PIN while the daemon is away, and asks for the PIN when it is back',
    async () => {
      const tablet = await pairedTablet();
      const { page } = tablet;
      const [, benchB] = demo.persons.filter(({ role }) => role === 'technician');
      await signIn(tablet, personOf('technician'));
      await recordDrain(tablet, 30);
      await page.locator('.saved', { hasText: 'In the book' }).waitFor();
      tablet.away = true;
      await button(page, 'Next person').tap();
      await page.locator('button.person', { hasText: benchB.name }).tap();
      await page.getByText('so that no PIN can be checked').waitFor();
      await clean(tablet);
      await button(page, `Go on as ${benchB.name}`).tap();
      await page.locator('.bench').waitFor();
      await page.locator('.who', { hasText: 'not confirmed by PIN yet' }).waitFor();
      await clean(tablet);
      await recordDrain(tablet, 31);
      await outboxSays(page, '1 on this tablet');
      tablet.away = false;
      await outboxSays(page, 'All in the book');

      const [first, second] = tablet.sent;
      assert.deepEqual([first.person, first.claimed, first.device_seq],
        [personOf('technician').id, undefined, 1]);
      assert.deepEqual([second.person, second.claimed, second.device_seq], [benchB.id, true, 2]);
      assert.ok(Math.abs(second.clock_offset_ms) < 5000);

      tablet.unconfirmed = [{ ...second, seq: 9002, device: 'd1', person_name: benchB.name,
        corrections: [] }];
      await page.getByText('Please confirm with your PIN').waitFor();
      await clean(tablet);
      await button(page, 'Confirm').tap();
      await tapNumber(tablet, benchB.pin);
      await button(page, 'Sign in').tap();
      await page.getByRole('heading', { name: 'Recorded in your name without PIN' }).waitFor();
      await page.locator('.due .choice').waitFor();
      assert.equal(await page.locator('.due input:checked').count(), 0);
      await clean(tablet);
      await page.locator('.due .choice').tap();
      await page.getByRole('button', { name: 'These are mine' }).tap();
      await page.locator('.bench').waitFor();
      const said = tablet.sent.at(-1);
      assert.deepEqual([said.kind, said.fields, said.person, said.claimed], ['entries-confirmed',
        { confirmed_entries: [{ entry_number: 9002 }], authorship: 'mine' }, benchB.id, undefined]);
      const bar = page.locator('.saved', { hasText: 'In the book, no. 9003' });
      await bar.getByText('Recorded as yours: no. 9002').waitFor();
      assert.equal(await button(bar, 'Undo').count(), 0);
      await tablet.context.close();
    });

  test('keeps a form on its page for a name taken without PIN, before and after the daemon is back',
    async () => {
      const tablet = await pairedTablet();
      const { page } = tablet;
      const steps = async () => {
        await page.getByRole('button', { name: 'Oil drained' }).tap();
        await page.locator('.form').waitFor();
        await turnTo(page, page.locator('.form')); // laid out
        return page.locator('.next').count();
      };
      const again = async () => {
        await page.getByRole('link', { name: 'Bench' }).tap();
        await page.locator('.bench').waitFor();
      };
      await signIn(tablet, personOf('technician'));
      assert.equal(await steps(), 0, 'signed in');
      await again();
      tablet.away = true;
      await button(page, 'Next person').tap();
      const other = demo.persons.filter(({ role }) => role === 'technician')[1];
      await page.locator('button.person', { hasText: other.name }).tap();
      await button(page, `Go on as ${other.name}`).tap();
      await page.locator('.bench').waitFor();
      assert.equal(await steps(), 0, 'away');
      assert.deepEqual(await screenFaults(tablet), []);
      await again();
      tablet.away = false;
      await page.getByText('Please confirm with your PIN').waitFor({ timeout: 40000 });
      assert.equal(await steps(), 0, 'back');
      assert.deepEqual(await screenFaults(tablet), []);
      await again();
      await page.getByText('Please confirm with your PIN').waitFor();
      await tablet.context.close();
    });

  test('uses the number of an entry that its form showed as refused for the next one', async () => {
    const tablet = await pairedTablet();
    const { page } = tablet;
    await signIn(tablet, personOf('technician'));
    const numbers = [];
    await page.route('**/api/v1/entries', (route) => {
      numbers.push(route.request().postDataJSON().device_seq);
      return numbers.length > 1 ? route.fallback() : answer(route, 422, { title: 'Refused',
        errors: [{ pointer: '/fields/volume_ml', code: 'out_of_range', detail: 'too much' }] }, kProblem);
    });
    await page.getByRole('button', { name: 'Oil drained' }).tap();
    for (const field of ['container', 'fluid', 'measured_by', 'contamination']) {
      await page.locator(`[data-field="${field}"] .choice`).first().tap();
    }
    await tapNumber(tablet, '70');
    await page.locator('.save').tap();
    await page.locator('.numbers .fault', { hasText: 'too much' }).waitFor();
    await outboxSays(page, 'All in the book');
    await tapNumber(tablet, '1');
    await page.locator('.save').tap();
    await page.locator('.bench').waitFor();
    assert.deepEqual(numbers, [1, 1]);
    await tablet.context.close();
  });

  test('locks when it is left alone and keeps the draft under its person, over a reload too',
    async () => {
      const tablet = await openTablet(browser);
      const { page } = tablet;
      await page.clock.install();
      const person = personOf('technician');
      await signIn(tablet, person);
      await page.getByRole('button', { name: 'Oil drained' }).tap();
      await page.locator('.form').waitFor();
      await tapNumber(tablet, '48');
      await page.clock.fastForward('02:50');
      assert.equal(await page.locator('.number-value').textContent(), '48');
      await page.clock.fastForward('00:11');
      await page.locator('button.person').first().waitFor();
      await page.reload();
      await page.locator('button.person', { hasText: person.name }).tap();
      await tapNumber(tablet, person.pin);
      await button(page, 'Sign in').tap();
      await page.locator('.form').waitFor();
      assert.equal(await page.locator('.number-value').textContent(), '48');
      await tablet.context.close();
    });
});
