// The record as an inspector reads it: levels and histories with charts beside their lists, the book by
// kind, thing, person and period, the table of what was found, and the head of the book.
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { after, before, describe, test } from 'node:test';
import {
  api, button, demo, launch, openTablet, overflow, personOf, screenFaults, signIn, splitWords,
} from './tablet.mjs';

const kSizes = [[{ width: 1280, height: 800 }, 'light'], [{ width: 800, height: 1280 }, 'dark'],
  [{ width: 390, height: 844 }, 'light']];
const spaced = (text) => text.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');
const kDay = 86400000;
const kLong = { timeout: 60000 }; // the daemon reckons every week of a course anew
const dayBefore = (days) => new Date(Date.now() - days * kDay).toISOString().slice(0, 10);

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

async function signedIn(role, options = {}) {
  const tablet = await openTablet(browser, { acceptDownloads: true, ...options });
  await signIn(tablet, personOf(role));
  return tablet;
}

async function clean(tablet) {
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  assert.deepEqual(await splitWords(tablet.page), []);
}

/** How many colours the drawing of a chart has; one where nothing is drawn. */
const colours = (page) => page.locator('.drawing canvas').first().evaluate((canvas) => {
  const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
  const found = new Set();
  for (let i = 0; i < data.length; i += 4) found.add(`${data[i]},${data[i + 1]},${data[i + 2]}`);
  return found.size;
});

for (const [viewport, colorScheme] of kSizes) {
  describe(`${viewport.width} px wide, ${colorScheme}`, () => {
    let tablet;
    let page;
    before(async () => {
      tablet = await signedIn('inspector', { viewport, colorScheme });
      page = tablet.page;
    });
    after(() => tablet.context.close());

    test('a container over time is two taps away, its chart beside a table of the same', async () => {
      await page.getByRole('link', { name: 'Levels and forecasts' }).tap();
      await page.locator('[data-level="w2"] a').waitFor(); // the bench has levels without a link
      const { levels } = await api(tablet, '/levels');
      const inUse = levels.filter(({ retired }) => !retired);
      assert.equal(await page.locator('[data-level]').count(), inUse.length);
      await clean(tablet);
      await page.locator('[data-level="w2"] a').tap();
      await page.locator('.drawing canvas').waitFor(kLong);
      assert.ok(await colours(page) > 3);
      assert.match(await page.locator('.drawing').getAttribute('aria-label'), /^What Bench oil W2 held/);
      await clean(tablet);
      const rows = page.locator('.figures tbody tr');
      assert.equal(await rows.count(), 14);
      const week = new Date();
      week.setUTCHours(0, 0, 0, 0);
      const at = new Date(week - 7 * kDay).toISOString().replace('.000Z', 'Z');
      const then = (await api(tablet, `/levels?as_of=${at}`)).levels
        .find(({ container }) => container === 'w2');
      assert.ok(spaced(await rows.nth(1).textContent()).includes(`${then.volume_ml / 1000} L`));
      await button(page, 'Show 13 more weeks').tap();
      await rows.nth(26).waitFor(kLong);
    });

    test('the forecast is said in sentences with both bands', async () => {
      const { levels } = await api(tablet, '/levels');
      const { forecast } = levels.find(({ container }) => container === 'w2');
      const said = spaced(await page.locator('main').innerText());
      const day = (text) => `${Number(text.slice(8))} ${
        new Date(text).toLocaleString('en-GB', { month: 'short', timeZone: 'UTC' }).slice(0, 3)} ${
        text.slice(0, 4)}`;
      assert.ok(said.includes(`Likely at its working limit about ${day(forecast.median)}.`), said);
      assert.ok(said.includes(`In 80 of 100 such cases between ${day(forecast.earliest_80)} and ${
        day(forecast.latest_80)}; in 95 of 100 between ${day(forecast.earliest_95)} and ${
        day(forecast.latest_95)}.`));
    });

    test('a cylinder shows its content with every loss that was found', async () => {
      await page.goto(`${demo.address}/#/cylinders/n2`);
      await page.locator('.drawing canvas').waitFor(kLong);
      assert.ok(await colours(page) > 3);
      await page.locator('.key-list').getByText('loss beyond uncertainty found here').waitFor();
      await clean(tablet);
      await page.goto(`${demo.address}/#/cylinders/n1`);
      await page.locator('.drawing canvas').waitFor(kLong);
      assert.equal(await page.getByText('loss beyond uncertainty found here').count(), 0);
    });

    test('a gauge shows its errors between the limits of its class; a tool has no chart', async () => {
      await page.goto(`${demo.address}/#/tools/gauge/g2`);
      await page.locator('.drawing canvas').waitFor(kLong);
      assert.ok(await colours(page) > 3);
      assert.match(await page.locator('figcaption').textContent(), /5 checks from/);
      await clean(tablet);
      await page.goto(`${demo.address}/#/tools/tool/c2`);
      await page.locator('.check').first().waitFor();
      assert.equal(await page.locator('.chart').count(), 0);
    });

    test('the book is read by kind, thing, person and period', async () => {
      await page.goto(`${demo.address}/#/recorded`);
      await page.locator('a.recorded').first().waitFor();
      await clean(tablet);
      await page.locator('select[name="kind"]').selectOption('cylinder-check');
      await page.getByText('60 entries, back to').waitFor();
      const all = (await api(tablet, '/entries?kind=cylinder-check&limit=500')).entries;
      assert.ok(all.length > 60 && all.length <= 180, `${all.length}`);
      for (let shown = 60; shown < all.length; shown += 60) {
        await button(page, 'Show more').tap();
        await page.getByText(`${Math.min(shown + 60, all.length)} entries, back to`).waitFor();
      }
      await page.getByText('There is no more.').waitFor();
      const numbers = (await page.locator('a.recorded > :last-child').allTextContents())
        .map((text) => Number(text.replace(/\D/g, '')));
      assert.deepEqual([...numbers].sort((a, b) => a - b), all.map(({ seq }) => seq));
      await page.locator('select[name="subject"]').selectOption('cylinder/n2');
      const entries = all.filter(({ fields }) => fields.cylinder === 'n2');
      assert.ok(entries.length < all.length);
      const [from, to] = [dayBefore(60), dayBefore(30)];
      await page.locator('input[name="from"]').fill(from);
      await page.locator('input[name="to"]').fill(to);
      const within = entries.filter(({ occurred_at: at }) =>
        at.slice(0, 10) >= from && at.slice(0, 10) <= to);
      await page.getByText(`${within.length} entries, back to`).waitFor();
      await clean(tablet);
      await page.locator('input[name="from"]').fill(dayBefore(20));
      await page.getByText(/\d{4} lies before \d+\s\w+\s\d{4}: no day lies between them/).waitFor();
      assert.doesNotMatch(await page.locator('main').innerText(), /\d{4}-\d\d-\d\d/);
      await clean(tablet);
      await page.locator('input[name="from"]').fill(from);
      await page.getByText(`${within.length} entries, back to`).waitFor();
      await page.locator('select[name="person"]').selectOption('p4');
      await page.getByText('Nothing of this is in the book.').waitFor();
      await clean(tablet);
    });

    test('an entry shows its leaf hash and the head of the book, and saves its proof', async () => {
      await page.goto(`${demo.address}/#/entry/7`);
      await page.getByRole('link', { name: 'Its proof' }).tap();
      const { entries } = await api(tablet, '/entries?cursor=6&limit=1');
      const head = await api(tablet, '/book/checkpoint');
      await page.getByText(head.root).waitFor();
      await page.getByText(entries[0].leaf_hash).waitFor();
      await clean(tablet);
      const coming = page.waitForEvent('download');
      await button(page, 'Save its proof').tap();
      const file = await coming;
      assert.equal(file.suggestedFilename(), `proof-7-of-${head.size}.json`);
      const { seq, leaf_hash: leafHash, root } = JSON.parse(readFileSync(await file.path(), 'utf8'));
      assert.deepEqual([seq, leafHash, root], [7, entries[0].leaf_hash, head.root]);
      await page.getByLabel('Entries in the book then').fill('6');
      await button(page, 'Save its proof').tap();
      await page.locator('main .fault, main [role="alert"]').getByText(/ends before entry 7/).waitFor();
      await clean(tablet);
      await page.getByLabel('Entries in the book then').fill('1 000');
      const older = page.waitForEvent('download');
      await button(page, 'Save its proof').tap();
      assert.equal((await older).suggestedFilename(), 'proof-7-of-1000.json');
      await page.goto(`${demo.address}/#/head`);
      await page.getByRole('heading', { name: 'The head of the book' }).waitFor();
      await page.getByText(head.root).waitFor();
      await clean(tablet);
    });
  });
}

test('a line of the record says what was done, how much and with what', async () => {
  const tablet = await signedIn('manager');
  const { page } = tablet;
  const { forms } = await api(tablet, '/forms');
  const post = (kind, fields) => page.evaluate(([body]) => fetch('/api/v1/entries', { method: 'POST',
    headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(body) })
    .then((answer) => answer.status), [{ id: crypto.randomUUID(), kind, fields,
    occurred_at: new Date().toISOString() }]);
  const lines = async (kind) => {
    await page.goto(`${demo.address}/#/recorded`);
    await page.locator('select[name="kind"]').selectOption(kind);
    const { title } = forms.find((form) => form.kind === kind);
    await page.locator('a.recorded', { hasText: title }).first().waitFor();
    await page.waitForFunction((text) => [...document.querySelectorAll('a.recorded b')]
      .every((one) => one.textContent === text), title);
    return (await page.locator('a.recorded > :nth-child(2)').allTextContents()).map(spaced);
  };
  for (const text of await lines('rag-bin')) {
    assert.match(text, /^(Rags added|Checked at close|Emptied into a drum) · /);
  }
  for (const text of await lines('gas-use')) assert.match(text, /^Units charged: \d+ · Nitrogen N\d/);
  assert.equal(await post('transfer', { from_container: 'w2', to_container: 'w1', volume_ml: 500,
    measured_by: 'jug' }), 201);
  const [transfer] = await lines('transfer');
  assert.match(transfer, /^500 mL · Bench oil W2 · Into: Oil drum W1/);
  assert.equal(await post('walk-round', { period: 'daily', exits_clear: 'yes', floor_clear: 'no',
    spill_kit: 'no' }), 201);
  assert.equal(await post('walk-round', { period: 'daily', exits_clear: 'yes', floor_clear: 'yes' }),
    201);
  const [second, first] = await lines('walk-round');
  assert.equal(second, 'Daily · 2 items, none found lacking');
  assert.equal(first, 'Daily · Found lacking: Spill kit, Floor clear');
  await clean(tablet);
  await tablet.context.close();
});

test('what was found is saved as a table, guarded against being run', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  const formula = '=1+1, "quoted"';
  await page.route('**/api/v1/entries?**', async (route) => {
    const answer = await route.fetch();
    const body = await answer.json();
    for (const entry of body.entries) entry.reason = formula;
    return route.fulfill({ response: answer, json: body });
  });
  await page.goto(`${demo.address}/#/recorded/cylinder/n2`);
  await page.locator('a.recorded').first().waitFor();
  assert.equal(await page.locator('select[name="subject"]').inputValue(), 'cylinder/n2');
  const [download] = await Promise.all([page.waitForEvent('download'),
    button(page, 'Save all of it as a table (CSV)').tap()]);
  assert.match(download.suggestedFilename(), /^entries-\d{4}-\d\d-\d\d\.csv$/);
  const text = readFileSync(await download.path(), 'utf8');
  const lines = text.trim().split('\r\n');
  const { entries } = await api(tablet, '/entries?subject=cylinder/n2&limit=500');
  assert.equal(lines.length, entries.length + 1);
  assert.ok(lines[0].endsWith('Leaf hash (SHA-256)'));
  for (const [index, entry] of entries.entries()) {
    assert.ok(lines[index + 1].startsWith(`${entry.seq},${entry.occurred_at},`), lines[index + 1]);
    assert.ok(lines[index + 1].includes(`,"'=1+1, ""quoted""",`));
    assert.ok(lines[index + 1].endsWith(`,${entry.leaf_hash}`));
  }
  await tablet.context.close();
});

test('where the drawing cannot be fetched, words and table say the same', async () => {
  const tablet = await signedIn('inspector', { serviceWorkers: 'block' });
  const { page } = tablet;
  await page.route('**/charts.js', (route) => route.abort());
  await page.goto(`${demo.address}/#/levels/w1`);
  await page.getByText('The drawing cannot be fetched now.').waitFor(kLong);
  assert.equal(await page.locator('.figures tbody tr').count(), 14);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await tablet.context.close();
});

test('an inspector opens any history within three taps', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  const ways = [['Cylinder histories', 'a.person', '.check'], ['Tools and gauges', 'a.person', '.check'],
    ['Levels and forecasts', '[data-level] a', '.figures'],
    ['What was recorded', 'a.recorded', '.head-facts']];
  for (const [link, row, seen] of ways) {
    await page.goto(`${demo.address}/#/`);
    await page.locator('.todo').waitFor(kLong); // comes above the bench, and moves what is tapped
    tablet.taps = 0;
    await tablet.tap(page.getByRole('link', { name: link }));
    await tablet.tap(page.locator(row).first());
    await page.locator(seen).first().waitFor(kLong);
    assert.ok(tablet.taps <= 3, link);
  }
  await tablet.context.close();
});

test('a report is opened with the print dialogue of its web page', async () => {
  const tablet = await signedIn('inspector');
  const { page } = tablet;
  await tablet.context.addInitScript(() => {
    window.print = () => { window.opener.printed = location.href; };
  });
  await page.getByRole('link', { name: 'Monthly waste report' }).tap();
  const [opened] = await Promise.all([tablet.context.waitForEvent('page'),
    button(page, 'Print the web page').tap()]);
  await page.waitForFunction(() => window.printed);
  assert.match(await page.evaluate(() => window.printed), /waste-month\.html\?month=\d{4}-\d\d&paper=a4$/);
  await opened.close();
  await tablet.context.close();
});

test('a chart that is dark on the screen is drawn in ink on paper', async () => {
  const tablet = await signedIn('inspector', { colorScheme: 'dark' });
  const { page } = tablet;
  await page.goto(`${demo.address}/#/cylinders/n2`);
  await page.locator('.drawing canvas').waitFor(kLong);
  const darkest = () => page.locator('.drawing canvas').evaluate((canvas) => {
    const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
    let least = 255 * 3;
    for (let i = 0; i < data.length; i += 4) {
      if (data[i + 3] === 255) least = Math.min(least, data[i] + data[i + 1] + data[i + 2]);
    }
    return least;
  });
  assert.ok(await darkest() > 0);
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  for (let tries = 0; await darkest() > 0; tries += 1) {
    assert.ok(tries < 50, 'the chart was not drawn anew');
    await page.waitForTimeout(100);
  }
  await tablet.context.close();
});

test('a printed list says of what it is, when it was printed and from which book', async () => {
  const tablet = await signedIn('inspector', { isMobile: false });
  const { page } = tablet;
  await page.goto(`${demo.address}/#/recorded`);
  await page.locator('a.recorded').first().waitFor();
  assert.ok(!await page.locator('.on-paper').isVisible());
  await page.locator('select[name="kind"]').selectOption('oil-drained');
  await page.locator('select[name="subject"]').selectOption('container/w2');
  await page.locator('input[name="to"]').fill(dayBefore(1));
  const head = await api(tablet, '/book/checkpoint');
  const { things: [workshop] } = await api(tablet, '/register/workshop');
  await page.emulateMedia({ media: 'print' });
  const paper = page.locator('.on-paper');
  await paper.waitFor();
  const said = spaced(await paper.innerText());
  assert.ok(said.includes(workshop.attributes.name), said);
  assert.match(said, /Kind: Oil drained · Thing: Bench oil W2 · To this day: \d+ \w{3} \d{4}/);
  assert.match(said, /Printed \d+ \w{3} \d{4}, \d\d:\d\d/);
  assert.ok(said.replace(/\s/g, '').includes(head.root.replace(/\s/g, '')), said);
  assert.ok(said.includes(`${head.size} entries`), said);
  for (const path of ['findings', 'due', 'levels']) {
    await page.goto(`${demo.address}/#/${path}`);
    await paper.getByText(workshop.attributes.name).waitFor();
    await paper.getByText(/Printed/).waitFor();
  }
  await tablet.context.close();
});

for (const path of ['', 'findings', 'levels/w2', 'cylinders/n2', 'entry/7', 'head/7', 'recorded',
  'collections', 'calculations/unit', 'head']) {
  test(`on paper the page "${path}" is black on white, with nothing to tap`, async () => {
    const tablet = await signedIn('inspector', { colorScheme: 'dark', isMobile: false });
    const { page } = tablet;
    await page.goto(`${demo.address}/#/${path}`);
    await page.locator('main h1').waitFor();
    await page.waitForFunction(() => !document.querySelector('main').innerText.includes('Fetching'),
    null, kLong);
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    await page.setViewportSize({ width: 661, height: 900 }); // the text area of A4
    assert.equal((await overflow(page)).across, 0);
    const seen = await page.evaluate(() => {
      const shown = (name) => [...document.querySelectorAll(name)]
        .filter((one) => one.getClientRects().length).map((one) => one.textContent.trim());
      const { color, backgroundColor } = getComputedStyle(document.body);
      return { color, backgroundColor, taps: shown('nav a, button, .filter select, .filter input') };
    });
    assert.deepEqual(seen, { color: 'rgb(0, 0, 0)', backgroundColor: 'rgb(255, 255, 255)',
      taps: [] });
    await tablet.context.close();
  });
}
