// The page of one entry: reached from where its number stands, it tells all of it; there who may
// corrects it on its own form, or strikes it out, each with a reason.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import {
  api, button, demo, launch, openTablet, personOf, screenFaults, signIn, tapNumber,
} from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const kOffset = '+00:00';

async function signedIn(role, options) {
  const tablet = await openTablet(browser, options);
  await signIn(tablet, personOf(role));
  return tablet;
}

const byNumber = async (tablet, number) =>
  (await api(tablet, `/entries?cursor=${number - 1}&limit=1`)).entries[0];

const newest = async (tablet) => (await api(tablet, '/findings')).book_size;

async function show({ page }, number) {
  await page.evaluate((address) => { location.hash = address; }, `#/entry/${number}`);
  await page.getByText(`No. ${number} in the book`).waitFor();
}

/** Records by the interface, as the page does; the number in the book. */
async function recorded(tablet, kind, fields) {
  const id = `01900000-0000-7000-8000-${String(Date.now()).slice(-12)}`;
  const occurred = `${new Date().toISOString().slice(0, 19)}${kOffset}`;
  const response = await tablet.page.request.post(`${demo.address}/api/v1/entries`, {
    headers: { Origin: demo.address }, data: { id, kind, occurred_at: occurred, fields } });
  assert.equal(response.status(), 201, await response.text());
  return (await response.json()).seq;
}

const kDrain = { container: 'w1', volume_ml: 640, fluid: 'mineral-oil', measured_by: 'jug',
  contamination: 'none' };

test('an inspector opens the entries behind a finding and reads all of one', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await page.getByRole('link', { name: /^Findings: / }).tap();
  const loss = page.locator('[data-finding^="own.gas-loss "]');
  const { findings } = await api(tablet, '/findings');
  const { entries } = findings.find(({ key }) => key.startsWith('own.gas-loss '));
  await loss.getByRole('link', { name: `No. ${entries[0]}` }).tap();
  await page.getByText(`No. ${entries[0]} in the book`).waitFor();
  const entry = await byNumber(tablet, entries[0]);
  const form = await api(tablet, `/forms/${entry.kind}`);
  assert.equal(await page.locator('h1').textContent(), form.title);
  const said = await page.locator('main').innerText();
  assert.ok(said.includes(entry.person_name), said);
  for (const field of form.fields.filter(({ name }) => name in entry.fields)) {
    assert.ok(said.includes(field.label), field.label);
  }
  assert.match(said, /Nitrogen N2/);
  assert.match(said, /196\sbar/);
  assert.equal(await page.getByRole('link', { name: 'Correct' }).count(), 0);
  assert.equal(await button(page, 'Strike out').count(), 0);
  assert.deepEqual(await screenFaults(tablet), []);
  await tablet.context.close();
});

test('a correction stands beside what it corrects, and has a page of its own', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  const { entries: [later] } = await api(tablet, '/entries?kind=correction&limit=1');
  const original = await api(tablet, `/entries/${later.corrects}`);
  await show(tablet, original.seq);
  const recordedPart = page.locator('section', { hasText: 'As it was recorded' });
  assert.match(await recordedPart.innerText(), /1\s?850\smL/);
  const standing = page.locator('section', { hasText: 'As it stands now' });
  assert.match(await standing.innerText(), /185\smL/);
  assert.match(await page.locator('.correction').innerText(), /One nought too many typed/);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await page.getByRole('link', { name: `No. ${later.seq}` }).tap();
  await page.getByText(`No. ${later.seq} in the book`).waitFor();
  assert.match(await page.locator('main').innerText(), /1\s?850\smL → 185\smL/);
  await page.getByRole('link', { name: `No. ${original.seq}` }).waitFor();
  assert.deepEqual(await screenFaults(tablet), []);
  await tablet.context.close();
});

test('a technician corrects a drain on its own form: sent is what changed, with the reason', async () => {
  const tablet = await signedIn('technician');
  const { page } = tablet;
  const number = await recorded(tablet, 'oil-drained', { ...kDrain, note: 'blue damper' });
  await show(tablet, number);
  await page.getByRole('link', { name: 'Correct' }).tap();
  await page.locator('.form').waitFor();
  assert.equal(await page.locator('.number-value').textContent(), '640');
  assert.equal(await page.locator('.earlier').count(), 0);
  assert.deepEqual(await screenFaults(tablet), []);
  await button(page, 'Go on').tap();
  await page.getByText('Nothing is changed yet.').waitFor();

  await page.getByRole('button', { name: 'Delete the last digit' }).tap();
  await page.getByRole('button', { name: /^More details/ }).tap();
  await page.locator('[data-field="note"] input').fill('');
  await button(page, 'Go on').tap();
  await page.getByText(/640\smL → 64\smL/).waitFor();
  await page.getByText('blue damper → not recorded').waitFor();
  assert.deepEqual(await screenFaults(tablet), []);
  await page.locator('.save').tap();
  await page.getByText('Please say why.').waitFor();
  await page.getByLabel('Reason').fill('one digit too many');
  const sent = page.waitForRequest((request) => request.method() === 'POST');
  await page.locator('.save').tap();
  const body = JSON.parse((await sent).postData());
  assert.deepEqual(body.fields,
    { action: 'corrected', volume_ml: 64, cleared: [{ cleared_field: 'note' }] });
  assert.equal(body.reason, 'one digit too many');
  await page.getByText(`No. ${number} in the book`).waitFor();
  await page.getByText('As it stands now').waitFor();
  assert.match(await page.locator('main').innerText(), /64\smL/);
  await tablet.context.close();
});

test('what a correction may not say is refused at its field', async () => {
  const tablet = await signedIn('technician');
  const { page } = tablet;
  const number = await recorded(tablet, 'oil-drained', kDrain);
  await show(tablet, number);
  await page.getByRole('link', { name: 'Correct' }).tap();
  await page.locator('.form').waitFor();
  await tapNumber(tablet, '000');
  await button(page, 'Go on').tap();
  await page.getByLabel('Reason').fill('tried');
  await page.locator('.save').tap();
  await page.locator('.numbers .fault').waitFor();
  assert.match(await page.locator('.numbers .fault').textContent(), /Volume/);
  assert.equal((await byNumber(tablet, number)).corrections.length, 0);
  await tablet.context.close();
});

test('an entry is struck out with a reason, and says so', async () => {
  const tablet = await signedIn('technician');
  const { page } = tablet;
  const number = await recorded(tablet, 'oil-drained', kDrain);
  await show(tablet, number);
  await button(page, 'Strike out').tap();
  const act = page.getByRole('button', { name: `Strike out no. ${number} as ` });
  await act.tap();
  await page.getByText('Please say why.').waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await page.getByLabel('Reason').fill('poured into another drum');
  await act.tap();
  await page.getByText(/^Struck out by no\. \d+/).waitFor();
  assert.match(await page.locator('.correction').innerText(), /poured into another drum/);
  assert.equal(await page.getByRole('link', { name: 'Correct' }).count(), 0);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  const [later] = (await byNumber(tablet, number)).corrections;
  assert.equal(later.fields.action, 'struck-out');
  assert.equal(later.reason, 'poured into another drum');
  await tablet.context.close();
});

test('a manager strikes out the closing of a month from its page', async () => {
  const tablet = await signedIn('manager');
  const { page } = tablet;
  const { months } = await api(tablet, '/months');
  const { month, closed } = months.find((one) => one.closed);
  await show(tablet, closed.entry);
  await button(page, 'Strike out').tap();
  await page.getByLabel('Reason').fill('a jug was missing');
  await page.getByRole('button', { name: `Strike out no. ${closed.entry} as ` }).tap();
  await page.getByText(/^Struck out by no\. \d+/).waitFor();
  assert.equal((await api(tablet, `/months/${month}`)).closed, null);
  await tablet.context.close();
});

test('what was recorded lately leads to each entry, upright and on a phone too', async () => {
  for (const viewport of [{ width: 800, height: 1280 }, { width: 390, height: 844 }]) {
    const tablet = await signedIn('technician', { viewport });
    const { page } = tablet;
    await page.getByRole('link', { name: 'What was recorded' }).tap();
    await page.locator('a.recorded').first().waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    const size = await newest(tablet);
    await page.locator('a.recorded', { hasText: `No. ${size}` }).tap();
    await page.getByText(`No. ${size} in the book`).waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await tablet.context.close();
  }
});

test('the acknowledgement of a finding tells by whom, when and why, and persons have names', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await page.getByRole('link', { name: /^Findings: / }).tap();
  const seen = page.locator('[data-finding^="std.o2.osha "]');
  await seen.getByText(`Acknowledged by ${personOf('manager').name} on`).waitFor();
  await seen.getByText('Reason: Extractor and oxygen alarm are fitted').waitFor();
  const lapsed = await page.locator('[data-finding^="own.briefing-expiry "]').innerText();
  assert.match(lapsed, /^Bench B: the briefing about injection by needles ended on \d+\s\w+\s\d+/);
  await page.getByRole('link', { name: 'Due', exact: true }).tap();
  await page.getByText(/^Bench B: the competence for handling cylinders ends on/).waitFor();
  assert.doesNotMatch(await page.locator('main').innerText(), /(?<!part-)\d{4}-\d\d-\d\d|\bp\d\b/);
  await tablet.context.close();
});
