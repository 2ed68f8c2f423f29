// The pages of the office: what needs doing, people, tablets and their pairing, and the settings of a
// tablet. What the daemon answers about people and tablets is given here.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  api, button, demo, launch, openTablet, personOf, screenFaults, signIn, splitWords,
} from './tablet.mjs';

const kSizes = [{ width: 1280, height: 800 }, { width: 800, height: 1280 }, { width: 390, height: 844 }];
const kAccounts = {
  people: [{ id: 'p1', name: 'Office', role: 'manager', active: true },
    { id: 'p9', name: 'Bench C', role: 'technician', active: false }],
  changes: [{ at: '2026-11-01T09:00:00Z', by: 'p1', person: 'p9', what: 'person-added' },
    { at: '2026-11-20T09:00:00Z', by: 'machine', person: 'p9', what: 'deactivated' },
    { at: '2026-11-21T09:00:00Z', by: 'p1', person: 'p1', what: 'device-paired', device: 'T1' }],
  refusals: [{ at: '2026-11-22T10:00:00Z', person: 'p9', reason: 'wrong-pin' },
    { at: '2026-11-22T10:01:00Z', person: null, reason: 'unknown-person' }],
};
const device = (change) => ({ id: 'd1', name: 'Tablet at bench 1', paired_by: 'p1', ended_at: null,
  paired_at: '2026-11-01T09:00:00Z', last_seen_at: '2026-11-20T10:00:00Z', entries: 3,
  last_device_seq: 3, missing: [], repeated: [], ...change });
const kDevices = { devices: [device(), device({ id: 'd2', name: 'Tablet of the office', entries: 5,
  last_device_seq: 9, missing: [{ from: 3, to: 4 }, { from: 7, to: 7 }], repeated: [5] }),
device({ id: 'd3', name: 'Old tablet', entries: 0, last_device_seq: null,
  ended_at: '2026-11-10T09:00:00Z' })] };
const kRows = ['1110111', '1010101', '1110111', '0001000', '1110010', '1010111', '1110101'];
const kPrint = Array.from({ length: 32 }, (_, byte) => `A${byte % 10}`).join(':');
const kPairing = { code: 'ABCD-EFGH', ends_at: '2026-11-25T10:10:00Z', qr: kRows,
  address: 'http://shop.local:8417/#/pair/ABCDEFGH',
  set_up: { address: 'http://shop.local:8418/', qr: kRows, ca_fingerprint: kPrint } };

let browser;
before(async () => {
  // With a camera, so that the page that looks for codes has nothing to complain of.
  browser = await launch(['--use-fake-device-for-media-stream', '--use-fake-ui-for-media-stream']);
});
after(() => browser?.close());

async function signedIn(role, options = {}) {
  const tablet = await openTablet(browser, options);
  await signIn(tablet, personOf(role));
  return tablet;
}

async function clean({ page, ...tablet }, options = { scrolls: true }) {
  assert.deepEqual(await screenFaults({ page, ...tablet }, options), []);
  assert.deepEqual(await splitWords(page), []);
}

const answer = (page, path, value, status = 200) => page.route(`**/api/v1${path}`, (route) =>
  route.fulfill({ status, contentType: status < 400 ? 'application/json'
    : 'application/problem+json', body: JSON.stringify(value) }));

/** The next request of a method to a path, with what it carries; it is answered with `value`. */
function sent(page, method, path, value = {}) {
  return new Promise((resolve) => {
    page.route(`**/api/v1${path}`, (route) => {
      const request = route.request();
      if (request.method() !== method) return route.fallback();
      resolve(request.postData() ? request.postDataJSON() : null);
      return route.fulfill({ status: 200, contentType: 'application/json',
        body: JSON.stringify(value) });
    });
  });
}

for (const [index, viewport] of kSizes.entries()) {
  const colorScheme = index === 1 ? 'light' : 'dark';
  const about = `${viewport.width} px wide, ${colorScheme}`;

  test(`the office leads a manager to every page, ${about}`, async () => {
    const tablet = await signedIn('manager', { viewport, colorScheme });
    const { page } = tablet;
    await answer(page, '/people/accounts', kAccounts);
    await answer(page, '/devices', kDevices);
    await page.getByRole('link', { name: 'Office and calculations' }).tap();
    await page.locator('[data-group="manage"]').waitFor();
    await page.getByText('No backup is recorded.').waitFor();
    await page.getByText('The program makes none by itself').waitFor();
    await clean(tablet);
    const paths = await page.locator('a.described').evaluateAll((all) =>
      all.map((one) => one.getAttribute('href')));
    assert.equal(new Set(paths).size, paths.length);
    for (const path of paths) {
      await page.goto(`${demo.address}/${path}`);
      await page.locator('main h1:not(.unseen)').waitFor();
      await page.waitForFunction(() => !document.querySelector('main').innerText.includes('Fetching'));
      assert.equal(await page.locator('main .fault').count(), 0, path);
      assert.equal(await page.locator('.bench').count(), 0, `${path} is no page`);
    }
    await tablet.context.close();
  });

  test(`the office says how old the newest backup is, and what failed, ${about}`, async () => {
    const tablet = await signedIn('inspector', { viewport, colorScheme });
    const { page } = tablet;
    await answer(page, '/backups', { scheduled: true,
      newest: { entry: 7, made_at: '2026-11-27T03:00:00+01:00', days_ago: 3 },
      failure: { at: '2026-11-30T02:00:00Z', detail: '/mnt/stick cannot be made' } });
    await page.goto(`${demo.address}/#/office`);
    const block = page.locator('[data-group="backup"]');
    await block.getByText('The newest is of 27 Nov 2026, 3 days ago.').waitFor();
    assert.equal(await block.locator('a').getAttribute('href'), '#/entry/7');
    await block.getByText(
      'The last try, on 30 Nov 2026, failed: /mnt/stick cannot be made').waitFor();
    assert.equal(await block.getByText('makes none by itself').count(), 0);
    await clean(tablet);
    await tablet.context.close();
  });

  test(`people: who there is, what was changed, which sign-ins were refused, ${about}`, async () => {
    const tablet = await signedIn('manager', { viewport, colorScheme });
    const { page } = tablet;
    await answer(page, '/people/accounts', kAccounts);
    await page.goto(`${demo.address}/#/people`);
    await page.locator('[data-account="p9"]').waitFor();
    const said = async (name) => (await page.locator(`[data-list="${name}"] li`).allTextContents())
      .map((text) => text.replaceAll('\u00a0', ' '));
    assert.deepEqual(await said('changed'), [
      '21 Nov 2026, 09:00 · Tablet T1 paired · by Office',
      '20 Nov 2026, 09:00 · Access of Bench C ended · by the workshop computer',
      '1 Nov 2026, 09:00 · Bench C added · by Office']);
    assert.deepEqual(await said('refused'), [
      '22 Nov 2026, 10:01 · nobody who is entered · no such person',
      '22 Nov 2026, 10:00 · Bench C · wrong PIN']);
    await clean(tablet);
    await button(page, 'Add a person').tap();
    await clean(tablet);
    await tablet.context.close();
  });

  test(`tablets: what did not arrive is said in words, and another is paired, ${about}`, async () => {
    const tablet = await signedIn('manager', { viewport, colorScheme });
    const { page } = tablet;
    await answer(page, '/devices', kDevices);
    await page.goto(`${demo.address}/#/tablets`);
    const one = (id) => page.locator(`[data-tablet="${id}"]`);
    await one('d1').getByText('All 3 entries that it numbered have arrived.').waitFor();
    await one('d2').getByText('Entries with these numbers have not arrived: 3 to 4, 7.').waitFor();
    await one('d2').getByText('These numbers came with more than one entry: 5.').waitFor();
    await one('d3').getByText('The pairing was ended on').waitFor();
    assert.equal(await one('d3').getByRole('button').count(), 0);
    await clean(tablet);
    await button(page, 'Pair a tablet').tap();
    await button(page, 'Make a code').tap();
    await page.getByText('Please give it a name.').waitFor();
    await clean(tablet);
    await page.getByLabel('Name of the tablet').fill('Tablet at bench 2');
    const asked = sent(page, 'POST', '/devices/pairing', kPairing);
    await button(page, 'Make a code').tap();
    assert.deepEqual(await asked, { name: 'Tablet at bench 2' });
    await page.getByText('ABCD-EFGH').waitFor();
    assert.equal(await page.locator('.qr').count(), 2);
    await page.getByText(kPrint).waitFor();
    await clean(tablet);
    await tablet.context.close();
  });
}

describe('a manager', () => {
  let tablet;
  let page;
  before(async () => {
    tablet = await signedIn('manager');
    page = tablet.page;
    await answer(page, '/people/accounts', kAccounts);
    await answer(page, '/devices', kDevices);
  });
  after(() => tablet.context.close());

  test('sees on the bench what is beyond a limit and what is due soon', async () => {
    const { findings } = await api(tablet, '/findings');
    const over = findings.filter(({ severity }) => severity === 'over');
    const seen = over.filter((one) => one.acknowledged_by_entry).length;
    assert.ok(seen > 0 && seen < over.length);
    await page.getByRole('heading', { exact: true,
      name: `Beyond a limit: ${over.length}, ${seen} of them acknowledged` }).waitFor();
    const first = await page.locator('[data-todo="over"] .finding').first().textContent();
    assert.equal(first.trim().slice(0, 20), over[0].sentence.slice(0, 20));
    const { today, items } = await api(tablet, '/due');
    const last = new Date(Date.parse(today) + 31 * 86400000).toISOString().slice(0, 10);
    const told = (item) => over.some(({ rule, subject }) =>
      rule === item.rule && subject === item.subject);
    const soon = items.filter((item) => item.day <= last);
    const known = soon.filter(told);
    assert.ok(known.length > 0 && known.length < soon.length && soon.length < items.length);
    await page.getByRole('heading', { exact: true, name: `Due by now or within 31 days: ${
      soon.length}, ${known.length} of them beyond a limit already` }).waitFor();
    // First what does not stand under the limits already.
    const due = await page.locator('[data-todo="soon"] .finding').first().textContent();
    assert.ok(due.includes(soon.find((item) => !told(item)).sentence.slice(0, 20)), due);
  });

  test('sees on the bench what is due and passed undone where no rule finds it', async () => {
    const other = await signedIn('manager');
    await answer(other.page, '/due', { today: '2026-11-25', items: [
      { day: '2026-11-20', rule: 'planned-collection', subject: 'collection/c9', part: '',
        sentence: 'Collection c9: planned for 2026-11-20', citation: '', confidence: null, entry: 3 },
      { day: '2027-01-20', rule: 'planned-collection', subject: 'collection/c10', part: '',
        sentence: 'Collection c10', citation: '', confidence: null, entry: 4 }] });
    await other.page.reload();
    await other.page.getByRole('heading', { exact: true, name: 'Due by now or within 31 days: 1' }).waitFor();
    await other.page.locator('[data-todo="soon"]').getByText('Collection c9').waitFor();
    await other.context.close();
  });

  test('adds a person with a role that is chosen, and a PIN typed twice alike', async () => {
    await page.goto(`${demo.address}/#/people`);
    await button(page, 'Add a person').tap();
    assert.equal(await page.locator('input[name="role"]:checked').count(), 0);
    await page.getByLabel('Name', { exact: true }).fill('Bench D');
    await page.getByLabel('PIN, 6 to 12 digits').fill('482913');
    await page.getByLabel('The same PIN again').fill('482914');
    await button(page, 'Add this person').tap();
    await page.getByText('The two PINs differ.').waitFor();
    await page.getByLabel('The same PIN again').fill('482913');
    await button(page, 'Add this person').tap();
    await page.getByText('Please choose what they do.').waitFor();
    await page.locator('.choice', { hasText: 'Technician' }).tap();
    const asked = sent(page, 'POST', '/people');
    await button(page, 'Add this person').tap();
    assert.deepEqual(await asked, { name: 'Bench D', role: 'technician', pin: '482913' });
    await page.getByText('Bench D is added and can sign in.').waitFor();
    await page.unroute('**/api/v1/people');
  });

  test('hears why a PIN is refused, and sets another', async () => {
    const office = page.locator('[data-account="p1"]');
    await office.getByRole('button', { name: 'New PIN' }).tap();
    await page.getByLabel('PIN, 6 to 12 digits').fill('111111');
    await page.getByLabel('The same PIN again').fill('111111');
    await answer(page, '/people/p1/pin', { status: 422, errors: [{ pointer: '/pin',
      code: 'too_simple', detail: 'too simple a PIN' }] }, 422);
    await button(page, 'Set the new PIN of Office').tap();
    await page.getByText('Too simple a PIN.').waitFor();
    await page.unroute('**/api/v1/people/p1/pin');
    const asked = sent(page, 'PUT', '/people/p1/pin');
    await button(page, 'Set the new PIN of Office').tap();
    assert.deepEqual(await asked, { pin: '111111' });
    await page.getByText('The new PIN of Office counts from now on.').waitFor();
  });

  test('ends an access, and gives one back, after a second look', async () => {
    await page.locator('[data-account="p1"]').getByRole('button', { name: 'End the access' }).tap();
    await page.getByText('is signed out everywhere').waitFor();
    await button(page, 'Leave it as it is').tap();
    await page.locator('[data-account="p9"]').getByRole('button', { name: 'Give the access back' }).tap();
    const asked = sent(page, 'PUT', '/people/p9/active');
    await button(page, 'Give Bench C the access back').tap();
    assert.deepEqual(await asked, { active: true });
    await page.getByText('Bench C can sign in again.').waitFor();
  });

  test('ends a pairing only after confirming it', async () => {
    await page.goto(`${demo.address}/#/tablets`);
    const one = page.locator('[data-tablet="d1"]');
    await one.getByRole('button', { name: 'End the pairing' }).tap();
    await one.getByText('so let it hand in first').waitFor();
    const asked = sent(page, 'DELETE', '/devices/d1');
    await button(page, 'End the pairing of Tablet at bench 1').tap();
    await asked;
    await one.getByRole('button', { name: 'End the pairing', exact: true }).waitFor();
  });
});

test('a QR code is drawn module by module, with its quiet zone, dark on white', async () => {
  const tablet = await signedIn('manager', { colorScheme: 'dark' });
  const { page } = tablet;
  await answer(page, '/devices', { devices: [] });
  await page.goto(`${demo.address}/#/tablets`);
  await button(page, 'Pair a tablet').tap();
  await page.getByLabel('Name of the tablet').fill('Tablet');
  sent(page, 'POST', '/devices/pairing', { ...kPairing, set_up: null });
  await button(page, 'Make a code').tap();
  const qr = page.locator('.qr');
  await qr.waitFor();
  assert.equal(await qr.getAttribute('aria-label'), `QR code that opens ${kPairing.address}`);
  const drawn = await qr.evaluate((svg, size) => {
    const path = svg.querySelector('path');
    const at = (x, y) => path.isPointInFill(new DOMPoint(x + 4.5, y + 4.5));
    return { rows: Array.from({ length: size }, (_, y) => Array.from({ length: size }, (__, x) =>
      (at(x, y) ? '1' : '0')).join('')), box: svg.getAttribute('viewBox'),
    fills: [...svg.children].map((one) => getComputedStyle(one).fill) };
  }, kRows.length);
  assert.deepEqual(drawn.rows, kRows);
  assert.equal(drawn.box, '0 0 15 15');
  assert.deepEqual(drawn.fills, ['rgb(255, 255, 255)', 'rgb(0, 0, 0)']);
  await tablet.context.close();
});

test('only a manager sees people; an inspector sees tablets and ends no pairing', async () => {
  for (const role of ['technician', 'inspector']) {
    const tablet = await signedIn(role);
    const { page } = tablet;
    await answer(page, '/devices', kDevices);
    await page.getByRole('link', { name: 'Office and calculations' }).tap();
    await page.locator('[data-group="tools"]').waitFor();
    assert.equal(await page.locator('[data-group="manage"]').count(), 0);
    await page.goto(`${demo.address}/#/people`);
    await page.getByText('A manager enters people').waitFor();
    await page.goto(`${demo.address}/#/tablets`);
    if (role === 'inspector') await page.locator('[data-tablet="d2"]').waitFor();
    assert.equal(await page.locator('main').getByRole('button').count(), 0);
    await tablet.context.close();
  }
});
