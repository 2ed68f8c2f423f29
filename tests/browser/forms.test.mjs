// The forms on the tablet: what they offer instead of ids, where the keypad stands, what becomes of a
// form that is left half-way, and that no word on them is split.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  api, button, demo, isLong, launch, openTablet, personOf, screenFaults, signIn, splitWords, tapNumber,
  turnTo,
} from './tablet.mjs';
import { withDays } from '../../forms/app/src/time.js';

const kNarrow = { width: 360, height: 740 };
const kWide = { width: 1280, height: 800 };

let browser;
let tablet;
let page;
before(async () => {
  browser = await launch();
  tablet = await openTablet(browser);
  page = tablet.page;
  await signIn(tablet, personOf('manager'));
});
after(() => browser?.close());

async function open(kind, on = page) {
  await on.goto(`${demo.address}/#/record/${kind}`);
  await on.locator(`[data-form="${kind.split('/')[0]}"]`).waitFor();
}

const field = (name) => page.locator(`[data-field="${name}"]`);
const choose = (name, label) => field(name).locator('.choice', { hasText: label }).first().tap();
const within = async (locator) => {
  const box = await locator.boundingBox();
  return box.y >= 0 && box.y + box.height <= kWide.height + 1;
};

describe('a form', () => {
  test('turns the keypad to a number that a choice brings up', async () => {
    await open('rag-bin');
    assert.equal(await page.locator('.keypad').count(), 0);
    await choose('container', 'Rag bin B1');
    await choose('bin_act', 'Emptied into a drum');
    await turnTo(page, page.locator('.keypad'));
    await tapNumber(tablet, '2.5');
    assert.equal(await page.locator('.number-value').textContent(), '2.5');
  });

  test('is offered again after it was left, and is not begun with what was chosen', async () => {
    await page.getByRole('link', { name: 'Bench' }).tap();
    await page.locator('.bench').waitFor();
    await page.goto(`${demo.address}/#/record/rag-bin`);
    await page.getByText('2.5').waitFor();
    assert.deepEqual(await screenFaults(tablet), []);
    await button(page, 'Go on with it').tap();
    await turnTo(page, page.locator('.number-value'));
    assert.equal(await page.locator('.number-value').textContent(), '2.5');
    await page.getByRole('link', { name: 'Bench' }).tap();
    await page.locator('.bench').waitFor();
    await page.goto(`${demo.address}/#/record/rag-bin`);
    await button(page, 'Begin anew').tap();
    assert.equal(await field('bin_act').locator('input:checked').count(), 0);
  });

  test('takes back a choice that may be left open, by another tap', async () => {
    await open('container-inspection');
    await choose('closed', 'Yes');
    await choose('closed', 'Yes');
    assert.equal(await field('closed').locator('input:checked').count(), 1);
    await turnTo(page, field('bund_dry'));
    await choose('bund_dry', 'Yes');
    assert.equal(await field('bund_dry').locator('input:checked').count(), 1);
    await choose('bund_dry', 'Yes');
    assert.equal(await field('bund_dry').locator('input:checked').count(), 0);
  });

  test('keeps what is typed, the keypad and the button that records in sight', async () => {
    for (const kind of ['cylinder-check', 'gas-use', 'transfer']) {
      await open(kind);
      await turnTo(page, page.locator('.keypad'));
      for (const part of ['.number-line', '.keypad', '.save, .next']) {
        assert.ok(await within(page.locator(part)), `${kind} ${part}`);
      }
      await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
      for (const part of ['.number-line', '.save, .next']) {
        assert.ok(await within(page.locator(part)), `${kind} ${part}, scrolled`);
      }
    }
  });

  test('offers the findings that stand by their sentence', async () => {
    const { findings } = await api(tablet, '/findings');
    await open('finding-acknowledged');
    const offered = new Set();
    while (offered.size < findings.length) {
      const before = offered.size;
      for (const text of await field('finding').locator('b').allTextContents()) offered.add(text);
      assert.ok(offered.size > before, 'the button turns to others');
      const others = field('finding').getByRole('button', { name: /^Show \d+ others?$/ });
      if (await others.count()) await others.tap();
    }
    assert.deepEqual([...offered], findings.map(({ sentence }) => withDays(sentence)));
  });

  test('offers first the containers that are usual for it, and the others behind a button', async () => {
    const { levels } = await api(tablet, '/levels');
    const named = (wanted) => levels.filter((level) => !level.retired && wanted(level))
      .map(({ name }) => name).sort();
    const offered = async (name = 'container') =>
      (await field(name).locator('.choice b').allTextContents()).sort();
    await open('rag-bin');
    assert.deepEqual(await offered(), named(({ stream, sealed }) =>
      !sealed && stream?.low_code.startsWith('15')));
    await open('solvent-waste');
    const solvent = named(({ stream, sealed }) => !sealed && stream?.low_code.startsWith('14'));
    assert.deepEqual(await offered(), solvent);
    await field('container').getByRole('button', { name: /^Show \d+ others?$/ }).tap();
    assert.ok((await offered()).includes('Oil drum W1'));
    await choose('container', 'Oil drum W1');
    assert.ok((await offered()).includes('Oil drum W1'));
    await open('level-reading');
    assert.deepEqual(await offered(), named(({ stream }) => stream?.counted_by === 'volume'));
    assert.deepEqual(await screenFaults(tablet), []);
  });

  test('does not offer to empty a bin into itself', async () => {
    await open('rag-bin');
    await choose('bin_act', 'Emptied into a drum');
    await choose('container', 'Rag bin B1');
    await turnTo(page, field('emptied_into'));
    const into = async () => field('emptied_into').locator('.choice b').allTextContents();
    assert.ok((await into()).length > 0);
    assert.ok(!(await into()).includes('Rag bin B1'));
    await open('transfer');
    await choose('from_container', 'Oil drum W1');
    await turnTo(page, field('to_container'));
    assert.ok(!(await field('to_container').locator('.choice b').allTextContents())
      .includes('Oil drum W1'));
  });

  test('begins with nothing of what another person recorded last', async () => {
    const { entries } = await api(tablet, '/entries?kind=oil-drained&limit=500');
    const { person } = await api(tablet, '/session');
    assert.ok(entries.length > 0 && entries.every((entry) => entry.person !== person));
    await open('oil-drained');
    assert.equal(await page.locator('.form input:checked').count(), 0);
  });

  test('offers persons by their names', async () => {
    await open('briefing');
    const { people } = await api(tablet, '/people');
    const names = await field('briefed').locator('b').allTextContents();
    assert.ok(names.length > 0 && names.every((name) => people.some((one) => one.name === name)),
      names.join());
  });

  test('names a new event, and offers it where an action is recorded', async () => {
    await open('event');
    const id = await field('event').locator('input').inputValue();
    assert.match(id, /^event-\d{4}-\d\d-\d\d/);
    await choose('event_type', 'Near miss');
    await field('what_happened').locator('input').fill('A jug slipped at bench 1');
    await page.locator('.save').tap();
    await page.locator('.saved').waitFor();
    await open('action-closed');
    await choose('about', 'Event');
    await turnTo(page, field('event'));
    await field('event').locator('.choice', { hasText: 'A jug slipped at bench 1' }).waitFor();
  });

  test('opens a weighed load on its mass', async () => {
    await open('collection');
    await choose('stage', 'Weighed by the receiver');
    await page.getByRole('button', { name: /^Containers/ }).tap();
    await button(page, 'Add a line').tap();
    assert.equal(await page.locator('.number-unit').textContent(), 'kg');
  });
});

for (const [name, viewport] of Object.entries({ ...isLong ? { wide: kWide } : {}, narrow: kNarrow })) {
  test(`no form splits a word or runs over, ${name}`, async () => {
    const fresh = await openTablet(browser, { viewport });
    await signIn(fresh, personOf('manager'));
    const { forms } = await api(fresh, '/forms');
    const shown = forms.map(({ kind }) => kind).filter((kind) => kind !== 'register-change');
    for (const kind of [...shown, 'register-change/changed/container/w1']) {
      await open(kind, fresh.page);
      assert.deepEqual(await splitWords(fresh.page), [], kind);
      assert.deepEqual(await screenFaults(fresh, { scrolls: true }), [], kind);
    }
    await fresh.context.close();
  });
}

/** Parts of a form that lie over each other, and how narrow its last button is, at the page's end. */
const phoneFaults = (on) => on.evaluate(() => {
  window.scrollTo(0, document.body.scrollHeight);
  const box = (one) => one.getBoundingClientRect();
  const numbers = document.querySelector('.numbers');
  const beside = [...document.querySelectorAll('.form [data-field], .form .cautions')]
    .filter((one) => !numbers?.contains(one));
  const covers = (one) => numbers && box(one).bottom > box(numbers).top + 1
    && box(one).top < box(numbers).bottom - 1;
  const last = document.querySelector('.save, .next');
  const lacking = box(document.querySelector('.form')).width - box(last).width;
  return [...beside.filter(covers).map((one) => `covered: ${one.dataset.field ?? one.className}`),
    ...(lacking > 1 ? [`${last.textContent.trim()}: ${lacking} px too narrow`] : [])];
});

for (const hand of isLong ? ['right', 'left'] : ['left']) {
  test(`on a phone nothing of a form is covered, its button fills the row, ${hand} hand`, async () => {
    const fresh = await openTablet(browser, { viewport: { width: 390, height: 844 } });
    await signIn(fresh, personOf('manager'));
    await fresh.page.evaluate((name) => { document.documentElement.dataset.hand = name; }, hand);
    const { forms } = await api(fresh, '/forms');
    for (const { kind } of forms.filter((form) => form.kind !== 'register-change')) {
      await open(kind, fresh.page);
      assert.deepEqual(await phoneFaults(fresh.page), [], kind);
    }
    await fresh.context.close();
  });
}
