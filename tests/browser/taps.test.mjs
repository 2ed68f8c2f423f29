// How much has to be tapped for each kind of entry, from the bench to "In the book" (signing in apart):
// every field that is asked is given, of an inspection every item. Prints a table. No page on the way
// scrolls on a tablet, and nothing on it is smaller than a thumb.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  api, button, launch, openTablet, overflow, personOf, signIn, smallTargets, tapNumber,
} from './tablet.mjs';
import { applies, arranged, isAsked, isChoice, pageFields } from '../../forms/app/src/draft.js';

const kFourTaps = ['oil-drained', 'rag-bin', 'level-reading'];
const kInspections = ['cylinder-check', 'tool-inspection', 'plant-check', 'container-inspection',
  'walk-round'];
const kBesideItems = 3;

// What is tapped where the first option would ask for more, or say that something is wrong.
const kBetter = {
  contamination: 'none', bin_act: 'added', counted: 'yes', damage: 'none', damage_found: 'no',
  event_type: 'near-miss', pressure_state: 'released', about: 'finding', from_container: 'w2',
  to_container: 'w1',
  reading_method: 'dip', stage: 'planned', tested_class: 'container', inspected_class: 'tool',
};
// What a kind can be about, where it is not the first that is offered.
const kThing = { 'level-reading': 'w1', 'oil-drained': 'w1' };

/** The kinds that a person finds on the bench and under "Record something else". */
const kKinds = {
  technician: ['oil-drained', 'rag-bin', 'level-reading', 'solvent-waste', 'transfer',
    'container-inspection', 'oil-test', 'cylinder-check', 'cylinder-change', 'gas-use',
    'tool-inspection', 'plant-check', 'stuck-part', 'walk-round', 'event', 'cabinet-count',
    'container-change'],
  manager: ['collection', 'action-closed', 'briefing', 'waste-determination',
    'finding-acknowledged'],
};

function digitsFor({ normal, possible, whole }) {
  const { lowest, highest } = normal ?? possible;
  const usual = lowest <= 62 && highest >= 62 ? 62 : Math.ceil(lowest + (highest - lowest) / 2);
  return String(whole ? Math.min(usual, 4) : usual);
}

function written({ type, name, format }) {
  const ahead = name === 'sampled_on' ? 0 : 86400000;
  if (type === 'date') return new Date(Date.now() + ahead).toISOString().slice(0, 10);
  return format === 'low-code' ? '13 01 10' : 'J-104';
}

/** A person at the form of one kind: counts taps and digits, and looks at every page it comes to. */
class Hand {
  constructor(tablet, form) {
    Object.assign(this, { tablet, page: tablet.page, form: arranged(form) });
    Object.assign(this, { taps: 0, digits: 0, items: 0, pages: 0, values: {}, faults: [] });
  }

  async tap(locator) {
    await locator.first().tap();
    this.taps += 1;
  }

  async look() {
    this.pages += 1;
    const { down, across } = await overflow(this.page);
    if (down > 0 || across > 0) this.faults.push(`page ${this.pages} scrolls ${down} ${across}`);
    this.faults.push(...await smallTargets(this.page, 64));
  }

  group(name) {
    return this.page.locator(`.form [data-field="${name}"]`).last();
  }

  async choose(field) {
    const group = this.group(field.name);
    const chosen = group.locator('input:checked');
    if (await chosen.count()) {
      this.values[field.name] = await chosen.inputValue();
      return;
    }
    const wanted = kBetter[field.name] ?? (field.name === 'container' && kThing[this.form.kind]);
    const better = group.locator(`.choice:has(input[value="${wanted}"])`);
    const choice = wanted && await better.count() ? better : group.locator('.choice').first();
    this.values[field.name] = await choice.locator('input').inputValue();
    await this.tap(choice); // by which the page may turn
    this.items += 1;
  }

  async number(field) {
    const turned = this.page.locator(`.number-panel[data-field="${field.name}"]`);
    if (!await turned.count()) await this.tap(this.group(field.name).locator('button'));
    const digits = digitsFor(field);
    await tapNumber(this.tablet, digits);
    this.digits += digits.length;
    this.items += 1;
    this.values[field.name] = digits;
    if (field.name === 'height_mm') {
      const follows = this.page.locator('.dip');
      await follows.waitFor();
      await this.tap(follows);
      this.values.volume_ml = '(taken)';
    }
  }

  async write(field) {
    const input = this.group(field.name).locator('input');
    if (!await input.inputValue()) {
      await this.tap(input);
      await input.fill(written(field));
      await input.blur();
    }
    this.values[field.name] = '(written)';
  }

  async row(list) {
    await this.tap(this.group(list.name).locator('button'));
    await this.tap(button(this.page, 'Add a line'));
    await this.look();
    for (const column of list.columns.filter(({ required }) => required)) await this.give(column);
    const [first] = list.at_least_one ?? [];
    if (first) await this.give(list.columns.find(({ name }) => name === first.fields.at(-1)));
    await this.tap(button(this.page, 'Done with this line'));
    await this.tap(button(this.page, 'Back to the main page'));
    this.values[list.name] = [{}];
  }

  give(field) {
    if (isChoice(field, this.values)) return this.choose(field);
    if (field.type === 'quantity') return this.number(field);
    return field.type === 'list' ? this.row(field) : this.write(field);
  }

  /** The next field that is to be given: asked by the form, or an item of an inspection. */
  due() {
    const { form, values } = this;
    const item = (field) => kInspections.includes(form.kind) && isChoice(field, values);
    return pageFields(form, values, 'main').find((field) => !(field.name in values)
      && !this.passed.has(field.name)
      && (isAsked(form, field, values) || item(field) || this.oneOf(field)));
  }

  /** Of fields of which one must be given: the first. */
  oneOf(field) {
    return (this.form.at_least_one ?? []).some(({ fields, when }) => fields[0] === field.name
      && applies({ when }, this.values) && !fields.some((name) => name in this.values));
  }

  /** Gives all that is due, going on from page to page; what lies under More details is left open. */
  async fill() {
    this.passed = new Set();
    await this.look();
    for (let field = this.due(); field; field = this.due()) {
      if (await this.group(field.name).count()) {
        const title = await this.page.locator('.form').getAttribute('data-step');
        await this.give(field);
        if (title !== await this.page.locator('.form').getAttribute('data-step')) await this.look();
      } else if (await this.page.locator('.next').count()) {
        await this.tap(this.page.locator('.next'));
        await this.look();
      } else this.passed.add(field.name);
    }
    while (await this.page.locator('.next').count()) {
      await this.tap(this.page.locator('.next'));
      await this.look();
    }
  }

  /** From the bench: by its button there, else under "Record something else". */
  async open() {
    const { page, form } = this;
    const there = button(page, form.title);
    if (!await there.count()) await this.tap(page.getByRole('link', { name: 'Record something else' }));
    await this.tap(there);
    await page.locator('.form, .ask').first().waitFor();
    const anew = button(page, 'Begin anew'); // after a test that failed half-way
    if (await anew.count()) await anew.tap();
  }

  async record() {
    const { page } = this;
    await this.tap(page.locator('.save'));
    await page.locator('.saved, .asked, .fault').first().waitFor();
    if (await page.locator('.asked').count()) await this.tap(page.locator('.save'));
    await page.locator('.saved, .fault').first().waitFor();
    const faults = await page.locator('.fault').allTextContents();
    assert.deepEqual(faults, [], this.form.kind);
  }
}

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const table = [];
after(() => console.log(['kind                  taps digits items pages', ...table].join('\n')));

for (const [role, kinds] of Object.entries(kKinds)) {
  describe(`a ${role}`, () => {
    let tablet;
    before(async () => {
      tablet = await openTablet(browser);
      await signIn(tablet, personOf(role));
    });
    after(() => tablet.context.close());

    /** Records one and, unless it is what the next begins with, takes it back. */
    async function measure(kind, isKept = false) {
      const hand = new Hand(tablet, await api(tablet, `/forms/${kind}`));
      await tablet.page.getByRole('link', { name: 'Bench' }).tap();
      await tablet.page.locator('.bench').waitFor();
      await hand.open();
      await hand.fill();
      await hand.record();
      if (!isKept) {
        await tablet.page.getByRole('button', { name: 'Undo' }).tap();
        await tablet.page.getByText('is struck out by').waitFor();
      }
      await button(tablet.page, 'Close').tap();
      table.push(`${kind.padEnd(22)}${[hand.taps, hand.digits, hand.items, hand.pages]
        .map((number) => String(number).padStart(4)).join('  ')}`);
      return hand;
    }

    for (const kind of kinds) {
      test(`records ${kind} on pages that do not scroll`, async () => {
        // A form begins with what the person recorded last: the second time is the usual one.
        if (kFourTaps.includes(kind)) await measure(kind, true);
        const { taps, items, faults } = await measure(kind);
        assert.deepEqual(faults, [], kind);
        if (kFourTaps.includes(kind)) assert.ok(taps <= 4, `${taps} taps`);
        if (kInspections.includes(kind)) {
          assert.ok(taps <= items + kBesideItems, `${taps} taps for ${items} items`);
        }
      });
    }
  });
}
