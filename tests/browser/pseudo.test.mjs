// No wording stands in code. The page is built in a language that nobody speaks, every text of it in
// marks; on every screen of every role all that is read or read out stands in marks, or came from the
// daemon. The texts are longer than the English ones, and still nothing runs over.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { after, before, describe, test } from 'node:test';
import { api, demo, isLong, launch, openTablet, overflow, personOf, tapNumber } from './tablet.mjs';
import { kClose, kOpen } from '../../forms/app/pseudo.mjs';

const kBuilder = fileURLToPath(new URL('../../forms/app/build.mjs', import.meta.url));
const kGiven = ['J-104']; // what the test itself writes

let folder;
let browser;
before(async () => {
  folder = mkdtempSync(join(tmpdir(), 'pseudo-'));
  execFileSync('node', [kBuilder, folder, '--pseudo']);
  browser = await launch();
});
after(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

const spaced = (text) => text.replace(/[\s\u00a0\u202f]+/g, ' ').trim();

/** Every string of a JSON value. */
function strings(value) {
  if (typeof value === 'string') return [value];
  if (value === null || typeof value !== 'object') return [];
  return Object.values(value).flatMap(strings);
}

/** What stands outside the marks, marks within marks included, cut at them. */
function outside(text) {
  const parts = [''];
  let depth = 0;
  for (const letter of text) {
    if (letter === kOpen) {
      depth += 1;
      parts.push('');
    } else if (letter === kClose) depth -= 1;
    else if (depth === 0) parts[parts.length - 1] += letter;
  }
  return parts;
}

/** The parts of a text that have letters and stand in no marks; numbers and signs are no wording, nor
 *  that a label and its value, or an id and its name, stand side by side. */
const bare = (text) => outside(text).flatMap((part) => part.split(/\d+|·|:\s|[()]/))
  .map((part) => spaced(part).replace(/:$/, '')).filter((part) => /\p{L}/u.test(part));

/** All that is read or read out on the page. */
function readable(page) {
  return page.evaluate(() => {
    const found = [document.title];
    const seen = (element) => element.checkVisibility() && !element.closest('script, style');
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
      const { parentElement, data } = walker.currentNode;
      if (seen(parentElement)) found.push(data);
    }
    for (const name of ['aria-label', 'title', 'placeholder', 'alt', 'aria-description']) {
      for (const element of document.querySelectorAll(`[${name}]`)) {
        found.push(element.getAttribute(name));
      }
    }
    return found;
  });
}

/** A tablet with the page in marks; it keeps what the daemon said. */
async function openPseudo() {
  const tablet = await openTablet(browser, { serviceWorkers: 'block' });
  const script = readFileSync(join(folder, 'app.js'), 'utf8');
  const index = readFileSync(join(folder, 'index.html'), 'utf8');
  await tablet.page.route('**/app.js', async (route) =>
    route.fulfill({ response: await route.fetch(), body: script }));
  await tablet.page.route(`${demo.address}/`, async (route) =>
    route.fulfill({ response: await route.fetch(), body: index }));
  const told = [...kGiven];
  const asked = new Set();
  const ofDaemon = (request) => request.url().includes('/api/v1/');
  tablet.page.on('request', (request) => ofDaemon(request) && asked.add(request));
  tablet.page.on('requestfailed', (request) => asked.delete(request));
  tablet.page.on('response', async (response) => {
    const json = ofDaemon(response) ? await response.json().catch(() => null) : null;
    told.push(...strings(json).map(spaced));
    asked.delete(response.request());
  });
  return Object.assign(tablet, { told, asked });
}

/** Waits until the daemon was asked nothing more and the page shows what it said. */
async function settle({ page, asked }) {
  for (let quiet = 0; quiet < 3; quiet = asked.size ? 0 : quiet + 1) await page.waitForTimeout(40);
}

/** What on the screen is neither in marks nor told by the daemon. */
async function wordingInCode({ page, told, asked }) {
  await settle({ page, asked });
  const all = told.join('\n').replace(/\d+/g, '\n').split('\n').map(spaced).join('\n')
    .toLowerCase();
  const found = (await readable(page)).flatMap(bare);
  return [...new Set(found.filter((part) => !all.includes(part.toLowerCase())))];
}

async function clean(tablet, where) {
  assert.deepEqual(await wordingInCode(tablet), [], where);
  assert.ok((await overflow(tablet.page)).across <= 0, `${where} runs over`);
}

async function signIn(tablet, person) {
  await tablet.page.goto(`${demo.address}/`);
  await tablet.page.locator('button.person', { hasText: person.name }).tap();
  await clean(tablet, 'PIN');
  await tapNumber(tablet, person.pin);
  await tablet.page.locator('.pin .primary').tap();
  await tablet.page.locator('.bench').waitFor();
}

async function show(tablet, path) {
  await tablet.page.goto(`${demo.address}/#/${path}`);
  await tablet.page.locator('.screen h1').waitFor();
  await clean(tablet, path);
}

const kScreens = ['', 'due', 'findings', 'recorded', 'kept', 'register', 'register/container',
  'register/workshop', 'collections', 'rules', 'more', 'print',
  'print/waste-month', 'print/label', 'print/briefing-sheet', 'scan', 'cylinders', 'cylinders/n1',
  'cylinders/n2', 'tools', 'tools/tool/r1', 'tools/gauge/g2', 'entry/1', 'entry/40', 'entry/999999',
  'emergency'];
const kOfManagers = ['own-rules', 'import', 'register/added/room',
  'record/register-change/changed/container/w1', 'correct/40'];

test('the marks are told from what stands outside them', () => {
  assert.deepEqual(bare('⟦Due ⟦by⟧ now~⟧ 12 kg'), ['kg']);
  assert.deepEqual(bare('62 ⟦mL~⟧'), []);
});

test('before anybody is signed in', async () => {
  const tablet = await openPseudo();
  await tablet.page.goto(`${demo.address}/`);
  await tablet.page.locator('button.person').first().waitFor();
  assert.match(await tablet.page.title(), /^⟦/);
  await clean(tablet, 'who is there');
  await show(tablet, 'emergency');
  await tablet.page.route('**/api/v1/people', (route) => route.fulfill({ status: 200,
    contentType: 'application/json', body: '{"people": [], "setup_needed": true}' }));
  await tablet.page.goto(`${demo.address}/#/`);
  await tablet.page.reload();
  await tablet.page.locator('input').first().waitFor();
  await clean(tablet, 'first start');
  await tablet.context.close();
});

for (const role of isLong ? ['technician', 'manager', 'inspector'] : ['manager']) {
  describe(`for a ${role}`, () => {
    let tablet;
    before(async () => {
      tablet = await openPseudo();
      await signIn(tablet, personOf(role));
    });
    after(() => tablet.context.close());

    test('every screen', async () => {
      for (const path of [...kScreens, ...(role === 'manager' ? kOfManagers : [])]) {
        await show(tablet, path);
      }
    });

    if (role !== 'inspector') {
      test('every form and the pages of it', async () => {
        const { forms } = await api(tablet, '/forms');
        for (const { kind } of forms.filter((form) => form.kind !== 'register-change')) {
          await show(tablet, `record/${kind}`);
          for (const button of await tablet.page.locator('.form .pair .button').all()) {
            if (!await button.isVisible()) continue;
            await button.tap();
            await clean(tablet, `${kind}, another page`);
            break;
          }
        }
      });
    }
  });
}

/** Taps the first of every choice of an oil drained, going on where a page is cut. */
async function giveChoices(page) {
  for (const name of ['container', 'fluid', 'measured_by', 'contamination']) {
    const choice = page.locator(`[data-field="${name}"] .choice`).first();
    await reach(page, choice);
    await choice.tap();
  }
  await reach(page, page.locator('.keypad'));
}

/** Turns back to the first page of a form, and on until what is looked for is there. */
async function reach(page, wanted) {
  while (!await page.locator('[data-step="main 0"]').count()) {
    await page.locator('.form .pair .button').first().tap();
  }
  while (!await wanted.count()) await page.locator('.next').tap();
}

async function record(page) {
  while (await page.locator('.next').count()) await page.locator('.next').tap();
  await page.locator('.save').tap();
}

test('the pages around an entry, from faults to no answer', async () => {
  const tablet = await openPseudo();
  const { page } = tablet;
  const look = (where) => clean(tablet, where);
  await signIn(tablet, personOf('technician'));
  await show(tablet, 'record/oil-drained');
  await record(page);
  await page.locator('.fault').first().waitFor();
  await look('faults');
  await giveChoices(page);
  while (await page.locator('.next').count()) await page.locator('.next').tap();
  await page.locator('.earlier').tap();
  await look('when');
  await page.locator('.ask .button').first().tap();
  await reach(page, page.locator('.keypad'));
  await tapNumber(tablet, '6200');
  await look('digits');
  await record(page);
  await page.locator('.asked').first().waitFor();
  await look('second tap');
  await page.locator('.save').tap();
  await page.locator('.saved').waitFor();
  await look('bar');
  await page.locator('.saved .primary').tap();
  await page.locator('.saved .primary').waitFor({ state: 'detached' });
  await look('undone');
  await show(tablet, 'record/collection');
  await reach(page, page.locator('[data-field="stage"]'));
  await page.locator('[data-field="stage"] .choice').first().tap();
  await reach(page, page.locator('[data-field="loads"] button'));
  await page.locator('[data-field="loads"] button').tap();
  await look('lines');
  await page.locator('.ask .button').first().tap();
  await look('line');
  await show(tablet, 'record/tool-inspection');
  const points = page.locator('[data-field="points"] button');
  await reach(page, points);
  await points.tap();
  await look('points');
  await show(tablet, 'record/oil-drained');
  await giveChoices(page);
  await tapNumber(tablet, '62');
  await page.route('**/api/v1/entries', (route) => route.abort());
  await record(page);
  await look('no answer');
  await tablet.context.close();
});
