// Everything that can be printed: each report of the daemon has a page, what it is about is chosen by
// name, the paper is kept on the tablet, and the addresses are those the daemon answers. Sheets are
// reached from where they are needed; what cannot be printed now is said in words.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { texts } from '../../forms/app/texts.js';
import { dayText } from '../../forms/app/src/time.js';
import {
  api, button, demo, launch, openTablet, personOf, screenFaults, signIn, turnTo,
} from './tablet.mjs';

const { sheets, formats } = texts.print;

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

async function signedIn(role, options) {
  const tablet = await openTablet(browser, options);
  await signIn(tablet, personOf(role));
  return tablet;
}

async function show({ page }, path) {
  await page.goto(`${demo.address}/#/${path}`);
  await page.locator('.screen h1').waitFor();
  await page.waitForFunction((waits) => !document.querySelector('main').textContent.includes(waits),
    texts.loading, { timeout: 30000 }); // the course of a level takes long
}

const link = (page, name) => page.getByRole('link', { name, exact: true });
const hrefOf = (page, format) => link(page, formats[format]).getAttribute('href');
const choice = (page, words) => page.locator('.report .choice', { hasText: words }).first();

/** The names of the reports that the daemon makes, from what it says of another name. */
async function made({ page }) {
  const answer = await page.request.get(`${demo.address}/api/v1/reports/none-such.pdf`);
  assert.equal(answer.status(), 404);
  const { detail } = await answer.json();
  return [...detail.slice(detail.indexOf(';')).matchAll(/[a-z]+(?:-[a-z]+)*/g)].map(([name]) => name)
    .filter((name) => name in sheets || name.includes('-'));
}

// What is chosen of each (or how to find out), and what the daemon is told then.
const kChosen = {
  'waste-month': [/\w{3}\s\d{4}/, /^month=\d{4}-\d\d$/],
  'waste-year': [/\d{4}/, /^year=\d{4}$/],
  'collection-sheet': [async (tablet) => dayText((await api(tablet, '/collections')).collections
    .find(({ collection }) => collection === 'c1').day), /^subject=c1$/],
  'cylinder-history': ['Nitrogen N2', /^subject=n2$/],
  'tool-history': ['Bench gauge G2', /^subject=gauge%2Fg2$/],
  'inspection-sheet': ['Hand pump H1', /^subject=tool%2Fh1$/],
  'findings-list': [null, /^$/],
  'walk-round-sheet': [null, /^$/],
  'briefing-sheet': ['Used oil and skin', /^subject=used-oil-skin$/],
  'audit-pack': [null, /^from=\d{4}-01-01&to=\d{4}-\d\d-\d\d$/],
  label: ['Oil drum W1', /^subject=container%2Fw1$/],
};

test('the newest month is that of the workshop, whatever the clock of the tablet says', async () => {
  const tablet = await openTablet(browser);
  await tablet.page.clock.setFixedTime(Date.now() + 40 * 86400000);
  await signIn(tablet, personOf('manager'));
  const { today } = await api(tablet, '/months');
  await show(tablet, 'print/waste-month');
  assert.equal(await hrefOf(tablet.page, 'pdf').then((href) => href.match(/month=(.{7})/)[1]),
    today.slice(0, 7));
  await tablet.context.close();
});

test('every report that the daemon makes can be printed, and the list names each once', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await page.getByRole('link', { name: 'Print', exact: true }).tap();
  const names = await page.locator('a.described b').allTextContents();
  assert.deepEqual(names.sort(), Object.values(sheets).map(([title]) => title).sort());
  assert.deepEqual(Object.keys(kChosen).sort(), Object.keys(sheets).sort());
  const known = await made(tablet);
  assert.ok(known.length >= 3, known.join(' '));
  assert.deepEqual(known.filter((name) => !(name in sheets)), []);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await tablet.context.close();
});

for (const [name, [words, query]] of Object.entries(kChosen)) {
  test(`${name}: what it is about is chosen by name, and the daemon knows the address`, async () => {
    const tablet = await signedIn('inspector');
    const { page } = tablet;
    const known = await made(tablet);
    if (!known.includes(name)) { // what the page makes of an answer is looked at all the same
      await page.route(`**/api/v1/reports/${name}.*`, (route) =>
        route.fulfill({ status: 200, contentType: 'application/pdf', body: '%PDF-1.4' }));
    }
    await show(tablet, `print/${name}`);
    if (words) await choice(page, typeof words === 'function' ? await words(tablet) : words).tap();
    await link(page, formats.pdf).waitFor();
    for (const format of Object.keys(formats)) {
      if (!await link(page, formats[format]).count()) continue;
      const href = await hrefOf(page, format);
      const [path, given] = href.split('?');
      assert.equal(path, `/api/v1/reports/${name}.${format}`);
      assert.match(given.replace(/&?paper=(a4|a6)$/, ''), query);
      if (known.includes(name)) {
        const answer = await page.request.get(demo.address + href);
        assert.equal(answer.status(), 200, href);
      }
    }
    assert.equal(await page.getByRole('button', { name: /^Issue as/ }).count(), 0);
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await tablet.context.close();
  });
}

test('the PDF opens beside the page, with the session of the tablet', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await show(tablet, 'print/cylinder-history/n1');
  const [opened] = await Promise.all([tablet.context.waitForEvent('page'),
    link(page, formats.html).tap()]);
  await opened.waitForLoadState();
  assert.match(opened.url(), /cylinder-history\.html\?subject=n1&paper=a4$/);
  assert.match(await opened.locator('main, body').first().innerText(), /Nitrogen N1/);
  await opened.close();
  const pdf = await page.request.get(demo.address + await hrefOf(page, 'pdf'));
  assert.equal(pdf.headers()['content-type'], 'application/pdf');
  assert.match(pdf.headers()['content-disposition'], /^inline/);
  await tablet.context.close();
});

test('the paper is kept on the tablet, that of labels apart from that of reports', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await page.route('**/api/v1/reports/label.*', (route) => route.fulfill({ status: 200, body: '' }));
  await show(tablet, 'print/waste-month');
  await choice(page, 'US Letter').tap();
  await show(tablet, 'print/label/container/w1');
  assert.match(await hrefOf(page, 'pdf'), /paper=a6$/);
  await choice(page, 'Roll').tap();
  await page.reload();
  await link(page, formats.pdf).waitFor();
  assert.match(await hrefOf(page, 'pdf'), /paper=roll-62$/);
  await show(tablet, 'print/tool-history/tool/r1');
  assert.match(await hrefOf(page, 'pdf'), /paper=letter$/);
  await tablet.context.close();
});

test('a label that does not fit its paper is refused on the page, and another paper opens it', async () => {
  const tablet = await signedIn('manager');
  const { page } = tablet;
  const detail = 'the name of w1 is too long for A7; accepted: a6';
  await page.route('**/api/v1/reports/label.pdf?*paper=a7', (route) => route.fulfill({ status: 422,
    contentType: 'application/problem+json', body: JSON.stringify({ status: 422, detail }) }));
  await page.route('**/api/v1/reports/label.pdf?*paper=a6', (route) =>
    route.fulfill({ status: 200, contentType: 'application/pdf', body: '%PDF-1.4' }));
  await show(tablet, 'print/label/container/w1');
  await choice(page, 'A7').tap();
  await page.locator('.fault', { hasText: 'too long for A7' }).waitFor();
  assert.equal(await link(page, formats.pdf).count(), 0);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await choice(page, 'A6').tap();
  await link(page, formats.pdf).waitFor();
  assert.equal(await page.locator('.fault').count(), 0);
  await tablet.context.close();
});

test('a manager issues the history of a cylinder once, and it is in the book', async () => {
  const tablet = await signedIn('manager');
  const { page } = tablet;
  await show(tablet, 'print/cylinder-history/n2');
  await button(page, `Issue as ${personOf('manager').name}`).tap();
  const said = await page.locator('[role="status"]', { hasText: /^Issued, no\./ }).textContent();
  const href = await link(page, texts.print.issuedOpen).getAttribute('href');
  assert.equal((await page.request.get(demo.address + href)).status(), 200);
  const number = Number(/\d+/.exec(said)[0]);
  const { entries: [entry] } = await api(tablet, '/entries?kind=report-issued&limit=500')
    .then(({ entries }) => ({ entries: entries.filter(({ seq }) => seq === number) }));
  assert.equal(entry.fields.report, 'cylinder-history');
  assert.equal(await page.getByRole('button', { name: /^Issue as/ }).isDisabled(), true);
  await choice(page, 'Nitrogen N1').tap();
  assert.equal(await page.getByRole('button', { name: /^Issue as/ }).isDisabled(), false);
  await tablet.context.close();
});

test('a period whose first day lies after its last opens nothing', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await show(tablet, 'print/audit-pack');
  await page.locator('input[name="from"]').fill('2026-03-02');
  await page.locator('input[name="to"]').fill('2026-03-01');
  await page.locator('.fault', { hasText: texts.print.order }).waitFor();
  assert.equal(await link(page, formats.pdf).count(), 0);
  await page.locator('input[name="to"]').fill('2026-03-31');
  await link(page, formats.pdf).waitFor();
  assert.match(await hrefOf(page, 'pdf'), /from=2026-03-02&to=2026-03-31&paper=a4$/);
  await tablet.context.close();
});

test('away from the workshop computer the page says that printing needs it', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await show(tablet, 'print/cylinder-history/n1');
  await link(page, formats.pdf).waitFor();
  await page.route('**/api/v1/**', (route) => route.abort());
  await show(tablet, 'print/label/container/w1');
  await page.locator('.fault', { hasText: 'Printing needs the workshop computer' }).waitFor();
  assert.equal(await link(page, formats.pdf).count(), 0);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await tablet.context.close();
});

test('who may not print is told so, and sees no way to it', async () => {
  const tablet = await signedIn('technician');
  const { page } = tablet;
  for (const path of ['', 'cylinders/n1', 'collections', 'levels/w1', 'findings', 'office']) {
    await show(tablet, path);
    assert.equal(await page.locator('a[href^="#/print"]').count(), 0, path);
  }
  for (const path of ['print', 'print/label']) {
    await show(tablet, path);
    await page.getByText(texts.print.readersOnly).waitFor();
    assert.equal(await page.locator('a[target="_blank"]').count(), 0, path);
  }
  await tablet.context.close();
});

test('a sheet that is not there, or is for nothing, is said', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await show(tablet, 'print/none-such');
  await page.getByText(texts.print.unknown('none-such')).waitFor();
  await show(tablet, 'print/tool-history/tool/zz');
  await page.locator('.fault', { hasText: texts.print.unknown('tool/zz') }).waitFor();
  assert.equal(await link(page, formats.pdf).count(), 0);
  await tablet.context.close();
});

// Where a sheet is needed, and the page that is opened from there.
const kFrom = [
  ['cylinders/n1', 'Cylinder history', 'cylinder-history/n1'],
  ['cylinders/n1', 'Labels', 'label/cylinder/n1'],
  ['tools/tool/r1', 'Tool history', 'tool-history/tool/r1'],
  ['tools/gauge/g1', 'Inspection sheet', 'inspection-sheet/gauge/g1'],
  ['tools/gauge/g1', 'Labels', 'label/gauge/g1'],
  ['levels/w1', 'Labels', 'label/container/w1'],
  ['register/container/s1', 'Labels', 'label/container/s1'],
  ['findings', 'Findings and due list', 'findings-list'],
  ['record/walk-round', texts.print.byHand, 'walk-round-sheet'],
];

test('sheets are reached from where they are needed, with what they are about chosen', async () => {
  const tablet = await signedIn('manager');
  const { page } = tablet;
  await page.route('**/api/v1/reports/**', (route) => route.fulfill({ status: 200, body: '' }));
  for (const [path, words, sheet] of kFrom) {
    await show(tablet, path);
    if (path.startsWith('record/')) await turnTo(page, page.locator('.form'));
    await link(page, words).tap();
    await link(page, formats.pdf).waitFor();
    assert.ok(page.url().endsWith(`#/print/${sheet}`), page.url());
  }
  await show(tablet, 'collections');
  await page.locator('[data-collection="c3"]').getByRole('link', { name: 'Collection sheet' }).tap();
  assert.match(await hrefOf(page, 'pdf'), /subject=c3&/);
  await tablet.context.close();
});
