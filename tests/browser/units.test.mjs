// Units and numbers as the workshop has them: what is typed in gallons or psi is sent as typed and shown
// beside what is kept; a decimal comma is shown where the workshop writes one. The volume of a dip.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  api, containerChoice, demo, launch, openTablet, personOf, screenFaults, signIn, tapNumber,
} from './tablet.mjs';
import { grouped } from '../../forms/app/src/decimal.js';
import { differing } from '../../forms/app/src/beginnings.js';
import { draftOf, submission } from '../../forms/app/src/draft.js';
import { showIn } from '../../forms/app/src/shown-in.js';
import {
  about, axisOf, carried, converted, echo, litres, typedHere, typedUnits, within,
} from '../../forms/app/src/units.js';

const spaced = (text) => text.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');
const kUs = { units: 'us', number_format: 'comma' };
const kMetric = { units: 'metric', number_format: 'point' };

describe('conversions', () => {
  after(() => showIn(kMetric));

  // GNU units 2.22, `units -t -o %.10g "1.25 gallon" ml` and so on.
  const kKnown = [['1.25', 'gal_us', 'ml', 4731.76473], ['1', 'fl_oz_us', 'ml', 29.57352956],
    ['2900', 'psi', 'bar', 199.9479615], ['200', 'bar', 'psi', 2900.754755],
    ['1', 'kg', 'lb', 2.204622622], ['1', 'in', 'mm', 25.4], ['1', 'ft3', 'm3', 0.02831684659],
    ['1', 'lb_gal_us', 'kg_m3', 119.8264273], ['1', 'oz', 'g', 28.34952313], ['1', 'ft', 'm', 0.3048],
    ['20', 'c', 'f', 68], ['-40', 'f', 'c', -40], ['37.5', 'c', 'f', 99.5]];

  test('agree with GNU units to the digits that are shown', () => {
    for (const [text, from, to, known] of kKnown) {
      const shown = Number(converted(text, from, to));
      assert.ok(Math.abs(shown - known) <= Math.abs(known) * 5e-5, `${text} ${from}: ${shown} ${to}`);
    }
  });

  test('show what comes out even as it is, and five digits of the rest', () => {
    assert.equal(converted('62.5', 'ml', 'l'), '0.0625');
    assert.equal(converted('1', 'in', 'mm'), '25.4');
    assert.equal(converted('1.25', 'gal_us', 'ml'), '4731.8');
    assert.equal(converted('2900', 'psi', 'bar'), '199.95');
    assert.equal(converted('0', 'bar', 'psi'), '0');
  });

  test('of small amounts show as many digits', () => {
    assert.equal(converted('1', 'ml', 'fl_oz_us', 3), '0.0338');
    assert.equal(converted('0.05', 'ml', 'fl_oz_us'), '0.001691');
  });

  test('carry digits into another unit only where nothing is lost', () => {
    assert.equal(carried('1.5', 'l', 'ml'), '1500');
    assert.equal(carried('1250', 'ml', 'l'), '1.25');
    assert.equal(carried('1', 'psi', 'bar'), '');
  });

  test('stand beside what is typed, in the unit it is kept in', () => {
    const ml = { id: 'ml', symbol: 'mL' };
    const bar = { id: 'bar', symbol: 'bar' };
    assert.equal(spaced(echo('1.25', ml, 'l')), '1.25 L = 1250 mL');
    assert.equal(spaced(echo('200', bar)), '200 bar = 2900.8 psi');
    assert.equal(spaced(echo('2900', bar, 'psi')), '2900 psi = 199.95 bar');
    showIn(kUs);
    assert.equal(spaced(echo('1.25', ml, 'gal_us')), '1,25 US gal = 4731,8 mL');
    assert.equal(spaced(litres(84312.5)), '22,27 US gal');
    assert.equal(grouped('12345.5'), '12\u202f345,5');
    showIn(kMetric);
  });

  test('a small measure is typed in ounces, a drum in gallons', () => {
    showIn(kUs);
    const volume = (highest) => ({ unit: { id: 'ml' }, normal: { lowest: 0, highest } });
    assert.equal(typedUnits(volume(5000))[0], 'fl_oz_us');
    assert.equal(typedUnits(volume(210000))[0], 'gal_us');
    showIn(kMetric);
    assert.equal(typedUnits(volume(5000))[0], 'ml');
  });

  test('the ends of a usual range hold where they are told, also in another unit', () => {
    showIn(kUs);
    assert.deepEqual(within(1, 5000, 'ml', 'fl_oz_us'), ['0.0339', '169']);
    for (const [low, high, from, to] of [[1, 5000, 'ml', 'fl_oz_us'], [1000, 210000, 'ml', 'gal_us'],
      [-20, 50, 'c', 'f'], [0, 300, 'bar', 'psi'], [0.1, 30, 'kg', 'lb'], [-0.7, -0.3, 'bar', 'psi']]) {
      const told = within(low, high, from, to);
      const [least, most] = told.map((text) => Number(converted(text, to, from, 12)));
      assert.ok(least >= low - 1e-6 && most <= high + 1e-6, `${told} ${to}`);
      assert.ok(least - low < 0.01 * Math.abs(low) + 1e-6, `${told} ${to}`);
    }
    showIn(kMetric);
    assert.deepEqual(within(1, 5000, 'ml', 'ml'), ['1', '5000']);
  });

  test('what is about so much is said in three digits, in the unit of the workshop', () => {
    assert.equal(spaced(about(706.4, 'ml')), '706 mL');
    assert.equal(spaced(about(0.27341, 'kg')), '0.273 kg');
    showIn(kUs);
    assert.equal(spaced(about(706.4, 'ml')), '23,9 US fl oz');
    assert.equal(spaced(about(12345, 'ml')), '3,26 US gal');
    assert.equal(spaced(about(0.27341, 'kg')), '0,603 lb');
    showIn(kMetric);
  });

  test('a level is said in the unit of its limit', () => {
    showIn(kUs);
    assert.equal(spaced(litres(0, 8000)), '0 US gal');
    assert.equal(spaced(litres(100, 8000)), '0,02642 US gal');
    assert.equal(spaced(litres(8000)), '2,113 US gal');
    showIn(kMetric);
    assert.equal(spaced(litres(100, 8000)), '0.1 L');
  });

  test('an axis has its round numbers in the unit of the workshop', () => {
    assert.equal(axisOf('ml', 200000).of(200000), 200);
    assert.equal(spaced(axisOf('ml', 200000).say(150)), '150 L');
    assert.equal(axisOf('ml', 200000).of(null), null);
    showIn(kUs);
    const axis = axisOf('ml', 200000);
    assert.equal(axis.of(3785.411784), 1);
    assert.equal(spaced(axis.say(0.30000000000000004)), '0,3 US gal');
    assert.equal(spaced(axisOf('bar', 220).say(3000)), '3000 psi');
    assert.ok(Math.abs(axisOf('kg', 1.5).of(0.45359237) - 1) < 1e-5);
    showIn(kMetric);
  });

  test('a last value is offered as it is typed here', () => {
    const field = { unit: { id: 'ml' }, normal: { lowest: 1, highest: 5000 } };
    const bar = { unit: { id: 'bar' } };
    assert.deepEqual(typedHere(field, { text: '327', unit: 'ml' }), { text: '327', unit: 'ml' });
    assert.deepEqual(typedHere(bar, { text: '2900', unit: 'psi' }), { text: '2900', unit: 'psi' });
    assert.deepEqual(typedHere(field, { text: '2', unit: 'gal_us' }), { text: '7571', unit: 'ml' });
    assert.deepEqual(typedHere(field, { text: '2', unit: 'pt_imp' }), { text: '2', unit: 'pt_imp' });
    showIn(kUs);
    assert.deepEqual(typedHere(field, { text: '327', unit: 'ml' }),
      { text: '11.06', unit: 'fl_oz_us' });
    assert.deepEqual(typedHere(field, { text: '1.25', unit: 'gal_us' }),
      { text: '1.25', unit: 'gal_us' });
    showIn(kMetric);
  });

  test('what the register has is not taken for gallons where gallons are typed', () => {
    showIn(kUs);
    const capacity = { name: 'capacity_l', type: 'quantity', unit: { id: 'l' } };
    const form = { kind: 'register-change', fields: [capacity] };
    const sent = (values) => submission(form, values, { confirmed: [] }).fields;
    const standing = draftOf(form.fields, { capacity_l: 205 });
    assert.deepEqual(sent(standing), { capacity_l: 205 });
    assert.deepEqual(sent(differing({ ...standing, capacity_l: '60' }, standing)), { capacity_l: 60 });
    assert.deepEqual(sent(differing(standing, standing)), {});
    assert.deepEqual(sent({ capacity_l: '54' }), { capacity_l: { value: 54, unit: 'gal_us' } });
    showIn(kMetric);
  });
});

describe('on the tablet', () => {
  let browser;
  before(async () => {
    browser = await launch();
  });
  after(() => browser?.close());

  /** A tablet of a workshop that measures so. */
  async function measuring(shownIn) {
    const tablet = await openTablet(browser, { serviceWorkers: 'block' });
    await tablet.page.route('**/api/v1/people', async (route) => {
      const response = await route.fetch();
      route.fulfill({ response, json: { ...await response.json(), shown_in: shownIn } });
    });
    await signIn(tablet, personOf('technician'));
    return tablet;
  }

  async function open(tablet, kind) {
    await tablet.page.goto(`${demo.address}/#/record/${kind}`);
    await tablet.page.locator('.form').waitFor();
  }

  test('a volume is typed in litres as well; the digits go along', async () => {
    const tablet = await measuring(kMetric);
    const { page } = tablet;
    await open(tablet, 'oil-drained');
    await tapNumber(tablet, '1250');
    await page.locator('button.number-unit').tap();
    assert.equal(await page.locator('.number-value').textContent(), '1.25');
    assert.equal(spaced(await page.locator('.echo').textContent()), '1.25 L = 1250 mL');
    assert.deepEqual(await screenFaults(tablet), []);
    await tablet.context.close();
  });

  test('a shop that measures in US units types and reads them, and the book keeps its own', async () => {
    const tablet = await measuring(kUs);
    const { page } = tablet;
    assert.match(await page.locator('[data-level="w1"]').textContent(), /\d,\d+\sUS gal of/);
    await open(tablet, 'oil-drained');
    await containerChoice(page, 0).tap();
    for (const name of ['fluid', 'measured_by', 'contamination']) {
      await page.locator(`[data-field="${name}"] .choice`).first().tap();
    }
    await tapNumber(tablet, '2,1');
    assert.equal(spaced(await page.locator('.echo').textContent()), '2,1 US fl oz = 62,104 mL');
    assert.match(await page.locator('.number-label').textContent(), /fl oz/);
    assert.deepEqual(await screenFaults(tablet), []);
    await page.locator('.save').tap();
    await page.locator('.saved', { hasText: 'In the book' }).waitFor();
    const { entries } = await api(tablet, `/entries?kind=oil-drained&from=${
      new Date(Date.now() - 86400000).toISOString().slice(0, 10)}&limit=200`);
    const entry = entries.at(-1);
    assert.deepEqual(entry.as_read.volume_ml, { value: 2.1, unit: 'fl_oz_us' });
    assert.equal(entry.fields.volume_ml, 62.104);
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByText('is struck out by').waitFor();
    await page.goto(`${demo.address}/#/entry/${entry.seq}`);
    await page.getByText(/read as 2,1\sUS fl oz/).waitFor();
    await tablet.context.close();
  });

  test('a shop that measures in US units is offered last values and told forecasts in them', async () => {
    const tablet = await measuring(kUs);
    const { page } = tablet;
    await open(tablet, 'oil-drained');
    const offer = page.locator('.offers .button').first();
    assert.match(spaced(await offer.textContent()), /^\s*\d+(,\d+)? US (fl oz|gal) again/);
    const [words] = /\d[\d,]* US (fl oz|gal)/.exec(spaced(await offer.textContent()));
    await offer.tap();
    assert.match(spaced(await page.locator('.echo').textContent()), new RegExp(`^${words} = `));
    assert.match(spaced(await page.locator('.number-label').textContent()), /usual: 0,0339 to 169 US fl oz/);
    await page.goto(`${demo.address}/#/levels/w1`);
    await page.locator('.figures').waitFor();
    const text = spaced(await page.locator('main').innerText());
    assert.match(text, /About \d[\d,]* US (fl oz|gal) a day/);
    assert.doesNotMatch(text, /\d (L|mL|kg)\b/);
    assert.doesNotMatch(text, /\d\.\d/);
    await tablet.context.close();
  });

  test('a shop that measures in US units reads one amount of a drum on all pages', async () => {
    const tablet = await measuring(kUs);
    const { page } = tablet;
    await page.goto(`${demo.address}/#/levels`);
    await page.locator('main li').first().waitFor();
    const levels = (await page.locator('main li').allTextContents()).map(spaced);
    await page.goto(`${demo.address}/#/collections`);
    await page.locator('li.load').first().waitFor();
    const { handovers } = await api(tablet, '/collections/proposal');
    const loads = handovers.flatMap((one) => one.loads).filter(({ now_ml: now }) => now !== undefined);
    assert.ok(loads.some(({ now_ml: now }) => now % 100 !== 0), 'one of no round volume');
    for (const { name } of loads) {
      const [amount] = /\d[\d,]* US gal/.exec(levels.find((text) => text.includes(name)));
      const told = await page.locator('li.load', { hasText: name }).first().textContent();
      assert.ok(spaced(told).includes(`${amount} now`), `${amount} of ${told}`);
    }
    await tablet.context.close();
  });

  test('of a dip the volume that follows is offered, and taken only by a tap', async () => {
    const tablet = await measuring(kMetric);
    const { page } = tablet;
    await open(tablet, 'level-reading');
    await page.locator('.choice:has(input[value="w1"])').tap();
    await page.locator('.choice:has(input[value="dip"])').tap();
    await tapNumber(tablet, '300');
    const follows = page.locator('.dip');
    await follows.waitFor();
    // A cylinder of 571.5 mm, filled to 300 mm: pi/4 d² h = 76.956 L.
    assert.match(spaced(await follows.textContent()), /^\s*76 95\d mL by its inside measures/);
    assert.equal(await page.locator('[data-field="volume_ml"] b').textContent(), 'not given');
    assert.deepEqual(await screenFaults(tablet), []);
    await follows.tap();
    assert.match(spaced(await page.locator('[data-field="volume_ml"] b').textContent()), /^76 95\d mL$/);
    assert.equal(await follows.count(), 0);
    await tablet.context.close();
  });

  test('of a dip beyond the container it is said why no volume follows', async () => {
    const tablet = await measuring(kMetric);
    const { page } = tablet;
    await open(tablet, 'level-reading');
    await page.locator('.choice:has(input[value="w1"])').tap();
    await page.locator('.choice:has(input[value="dip"])').tap();
    await tapNumber(tablet, '1300');
    const why = page.locator('.dip-beyond');
    await why.waitFor();
    assert.match(spaced(await why.textContent()), /more than the container is high inside .*, \d+ mm\./);
    assert.deepEqual(await screenFaults(tablet), []);
    await page.locator('.key').getByText('⌫', { exact: true }).or(
      page.getByRole('button', { name: 'Delete the last digit' })).first().tap();
    await page.locator('.dip').waitFor();
    assert.equal(await why.count(), 0);
    await tablet.context.close();
  });
});
