// The calculator pages: every calculation has one, units are chosen, refusals stand beside their field,
// and an answer shows its steps, how sure it is, its range, source and cautions.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { givenInputs, refusalsOf, unitAtFirst, unitsOf }
  from '../../forms/app/src/calculation-inputs.js';
import { showIn } from '../../forms/app/src/shown-in.js';
import { api, button, demo, launch, openTablet, personOf, screenFaults, signIn, splitWords }
  from './tablet.mjs';

const kNitrogen = { water_capacity_l: '50', gauge_pressure_bar: '2900', temperature_c: '20' };

test('what is sent carries another unit only where one was chosen, and nothing that is empty', () => {
  const inputs = [{ name: 'a', unit: 'bar', type: 'number' }, { name: 'b', unit: 'bar', type: 'list' },
    { name: 'c', unit: 'L', type: 'number' }];
  assert.deepEqual(givenInputs(inputs, { a: ' 2900 ', b: '1,5; 2\n\n3', c: ' ' }, { a: 'psi', b: 'psi' }),
    { a: '2900 psi', b: ['1,5 psi', '2 psi', '3 psi'] });
  assert.deepEqual(givenInputs(inputs, { a: '28' }, { a: 'bar' }), { a: '28' });
});

test('a list is taken as the command line takes it: numbers alone by spaces as well', () => {
  const inputs = [{ name: 'b', unit: 'L', type: 'list' }];
  const sent = (text, units = {}) => givenInputs(inputs, { b: text }, units).b;
  assert.deepEqual(sent('0 1.2  0\n2,5'), ['0', '1.2', '0', '2,5']);
  assert.deepEqual(sent('1 2', { b: 'US gal' }), ['1 US gal', '2 US gal']);
  assert.deepEqual(sent('3750 mL; 2 L'), ['3750 mL', '2 L']);
});

test('a workshop that measures in US units writes values in them at first', () => {
  showIn({ units: 'us', number_format: 'point' });
  const input = { name: 'a', unit: 'bar', type: 'number' };
  assert.equal(unitAtFirst(input), 'psi');
  assert.equal(unitAtFirst({ ...input, unit: 'years' }), 'years');
  assert.deepEqual(givenInputs([input], { a: '2900' }, {}), { a: '2900 psi' });
  assert.deepEqual(givenInputs([input], { a: '200' }, { a: 'bar' }), { a: '200' });
  assert.deepEqual(givenInputs([input], { a: '20 MPa' }, {}), { a: '20 MPa' });
  showIn({ units: 'metric', number_format: 'point' });
  assert.equal(unitAtFirst(input), 'bar');
});

test('a refusal is sorted to its input, with days as people write them', () => {
  const { byInput, others } = refusalsOf([
    { pointer: '/inputs/from_date', detail: 'Accepted: a day such as 2026-11-25.' },
    { pointer: '/inputs/b/0', detail: 'One.' }, { pointer: '/inputs/b/1', detail: 'Two.' },
    { pointer: '/inputs', detail: 'All.' }], [], null);
  assert.equal(byInput.from_date.replaceAll('\u00a0', ' '), 'Accepted: a day such as 25 Nov 2026.');
  assert.equal(byInput.b, 'One. Two.');
  assert.deepEqual(others, ['All.']);
});

test('a refusal tells the range as the page does, and choices by their labels', () => {
  showIn({ units: 'us', number_format: 'comma' });
  const inputs = [
    { name: 'a', type: 'number', unit: 'L', accepted: '0.001 … 1000000 L', lowest: 0.001, highest: 1e6 },
    { name: 'p', type: 'list', unit: 'bar abs.', accepted: '2 to 9 numbers, each 0.5 … 1.1 bar abs.',
      lowest: 0.5, highest: 1.1, fewest: 2, most: 9 },
    { name: 'c', type: 'choice', unit: '', accepted: 'oil-a, none',
      choices: [{ code: 'oil-a', label: 'Oil A' }, { code: 'none', label: 'Without' }] }];
  const refused = (pointer, detail) => ({ pointer, detail });
  const { byInput } = refusalsOf([
    refused('/inputs/a', 'A: 0 US gal is outside. Accepted: 0.001 … 1000000 L.'),
    refused('/inputs/p', 'P: 2 is outside. Accepted: 0.5 … 1.1 bar abs.'),
    refused('/inputs/b', 'B: 1.25 and 1,5 of 12345, by 1.2.3.'),
    refused('/inputs/c', "C: 'x' is not one of the choices. Choices: oil-a, none.")],
  inputs, { units: {} });
  const said = Object.values(byInput).map((text) => text.replaceAll('\u00a0', ' '));
  assert.deepEqual(said, [
    'A: 0 US gal is outside. Accepted: 0,000265 … 264\u202f172 US gal.',
    'P: 2 is outside. Accepted: 7,26 … 15,9 psi abs.',
    'B: 1,25 and 1,5 of 12\u202f345, by 1.2.3.',
    "C: 'x' is not one of the choices. Choices: Oil A, Without."]);
  showIn({ units: 'metric', number_format: 'point' });
});

for (const [colorScheme, role, viewport] of [['light', 'technician', { width: 1280, height: 800 }],
  ['dark', 'inspector', { width: 390, height: 844 }],
  ['light', 'manager', { width: 800, height: 1280 }]]) {
  describe(`the calculator of a ${role} in ${colorScheme} colours`, () => {
    let browser;
    let tablet;
    let page;
    const field = (name) => page.locator(`[data-input="${name}"]`);
    const clean = async () => {
      assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
      assert.deepEqual(await splitWords(page), []);
    };
    before(async () => {
      browser = await launch();
      tablet = await openTablet(browser, { colorScheme, viewport });
      page = tablet.page;
      await signIn(tablet, personOf(role));
    });
    after(() => browser?.close());

    test('is two taps from the bench, and lists every calculation', async () => {
      await page.getByRole('link', { name: 'Office and calculations' }).tap();
      await page.getByRole('link', { name: /^Calculations/ }).tap();
      await page.locator('a.described').first().waitFor();
      const { calculations } = await api(tablet, '/calculations');
      assert.deepEqual((await page.locator('a.described b').allTextContents()).sort(),
        calculations.map(({ title }) => title).sort());
      await clean();
    });

    test('names what is missing beside each field', async () => {
      await page.getByRole('link', { name: /^Nitrogen in a cylinder/ }).tap();
      await button(page, 'Calculate').tap();
      await field('temperature_c').getByText(/is needed/).waitFor();
      assert.equal(await page.locator('[data-input] .fault').count(), 3);
      await page.getByText('Not calculated: 3 fields need a look.').waitFor();
      assert.equal(await page.evaluate(() => document.activeElement.name), 'water_capacity_l');
      await clean();
    });

    test('answers with results, steps, how sure it is, range, source and cautions', async () => {
      for (const [name, value] of Object.entries(kNitrogen)) await field(name).locator('input').fill(value);
      await field('gauge_pressure_bar').locator('select').selectOption('psi');
      await button(page, 'Calculate').tap();
      await page.locator('.calculated').waitFor();
      const text = (await page.locator('.calculated').innerText()).replaceAll('\u00a0', ' ');
      for (const part of ['10.972 kg', '199.9479615 bar', 'given as 2900 psi',
        '1.01325 bar abs.\nnot given: taken at its usual value', 'Density at 20 °C by the equation',
        'How sure it is', 'Holds for', 'Span, E. W. Lemmon', 'Gas under high pressure']) {
        assert.ok(text.includes(part), `${part} in ${text}`);
      }
      await clean();
      await field('temperature_c').locator('input').fill('25');
      await page.getByText('Something was changed since.').waitFor();
      assert.equal(await page.locator('.calculated').count(), 0);
    });

    test('tells a value outside its range by the range', async () => {
      await field('temperature_c').locator('input').fill('60');
      await button(page, 'Calculate').tap();
      await field('temperature_c').getByText(/60 is outside .*Accepted: -20 … 50\s°C/).waitFor();
      await clean();
    });
  });
}

describe('every calculation', () => {
  let browser;
  let tablet;
  let page;
  before(async () => {
    browser = await launch();
    tablet = await openTablet(browser);
    page = tablet.page;
    await signIn(tablet, personOf('technician'));
  });
  after(() => browser?.close());

  test('has a page with a field for each of its inputs', async () => {
    const { calculations } = await api(tablet, '/calculations');
    for (const { name, title, inputs } of calculations) {
      await page.goto(`${demo.address}/#/calculations/${name}`);
      await page.getByRole('heading', { name: title, exact: true }).waitFor();
      const drawn = await page.locator('[data-input]').evaluateAll((all) =>
        all.map((one) => one.dataset.input));
      assert.deepEqual(drawn, inputs.map((input) => input.name), name);
      assert.deepEqual(await screenFaults(tablet, { scrolls: true }), [], name);
      const choices = await page.locator('[data-input] label option').allTextContents();
      const labels = inputs.flatMap((input) => input.choices.map(({ label }) => label));
      for (const label of labels.filter(Boolean)) {
        assert.ok(choices.some((text) => text.trim() === label), `${name}: ${label}`);
      }
      const codes = inputs.flatMap((input) => input.choices.map(({ code }) => code))
        .filter((code) => /[_]|-\d|^\w+-\w+$/.test(code) && !labels.includes(code));
      assert.deepEqual(choices.filter((text) => codes.includes(text.trim())), [], name);
    }
  });

  test('tells everything in the units and with the mark of the workshop', async () => {
    const us = await openTablet(browser, { serviceWorkers: 'block' });
    await us.page.route('**/api/v1/people', async (route) => {
      const response = await route.fetch();
      route.fulfill({ response, json: { ...await response.json(),
        shown_in: { units: 'us', number_format: 'comma' } } });
    });
    await signIn(us, personOf('technician'));
    const { calculations } = await api(us, '/calculations');
    for (const { name, title, inputs } of calculations) {
      await us.page.goto(`${demo.address}/#/calculations/${name}`);
      await us.page.getByRole('heading', { name: title, exact: true }).waitFor();
      for (const input of inputs) {
        const chosen = unitsOf(input).length
          && await us.page.locator(`[data-input="${input.name}"] select.unit`).inputValue();
        if (!chosen || chosen === input.unit) continue;
        const hints = (await us.page.locator(`[data-input="${input.name}"] .help`).allTextContents())
          .filter((hint) => /^(Takes|Not given)/.test(hint)).join(' ').replaceAll('\u00a0', ' ');
        assert.ok(!hints || hints.includes(` ${chosen}`), `${name}: ${hints}`);
        assert.ok(!hints.includes(` ${input.unit} `), `${name}: ${hints}`);
        assert.doesNotMatch(hints, /\d\.\d/, name);
      }
    }
    await us.page.goto(`${demo.address}/#/calculations/nitrogen-content`);
    for (const [name, value] of [['water_capacity_l', '13,2'], ['gauge_pressure_bar', '2900'],
      ['temperature_c', '68']]) {
      await us.page.locator(`input[name="${name}"]`).fill(value);
    }
    await button(us.page, 'Calculate').tap();
    await us.page.locator('.calculated').waitFor();
    const answer = us.page.locator('.calculated');
    const text = await answer.locator('.facts, .steps').allInnerTexts();
    assert.match(text.join('\n'), /199,9479615/);
    assert.doesNotMatch(text.join('\n'), /\d\.\d/);
    assert.deepEqual(await screenFaults(us, { scrolls: true }), []);
    await us.context.close();
  });

  test('takes a list as the example of the command line has it', async () => {
    await page.goto(`${demo.address}/#/calculations/fill-forecast`);
    const days = '0 1.2 0 0 2.5 0.8 0 0 3.1 0 1.4 0 0 2.2 0.9 0 0 1.7 0 2.8 0.6 0 0 1.9 0 0 3.3 1.1 0 0';
    await page.locator('textarea[name="daily_l"]').fill(days);
    await page.locator('input[name="remaining_l"]').fill('40');
    await button(page, 'Calculate').tap();
    await page.locator('.calculated').waitFor();
    assert.match(await page.locator('[data-input="from_date"]').innerText(), /Not given: today is taken/);
  });

  test('takes every unit that is offered with it', async () => {
    const { calculations } = await api(tablet, '/calculations');
    let offered = 0;
    for (const { name, inputs } of calculations) {
      for (const input of inputs) {
        for (const unit of unitsOf(input)) {
          const value = input.type === 'list' ? [`1 ${unit}`] : `1 ${unit}`;
          const answer = await page.request.post(`${demo.address}/api/v1/calculations/${name}`, {
            headers: { Origin: demo.address }, data: { inputs: { [input.name]: value } } });
          const { errors = [] } = await answer.json();
          const wrong = errors.filter(({ pointer, code }) =>
            pointer.startsWith(`/inputs/${input.name}`) && code === 'wrong_type');
          assert.deepEqual(wrong, [], `${name} ${input.name} ${unit}`);
          offered += 1;
        }
      }
    }
    assert.ok(offered > 100, `${offered} units offered`);
  });
});
