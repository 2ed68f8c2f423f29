// The calculator pages: every calculation has one, units are chosen, refusals stand beside their field,
// and an answer shows its steps, how sure it is, its range, source and cautions.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { choicesOf, givenInputs, refusalsOf, shapeOf, unitsOf }
  from '../../forms/app/src/calculation-inputs.js';
import { api, button, demo, launch, openTablet, personOf, screenFaults, signIn, splitWords }
  from './tablet.mjs';

const kNitrogen = { water_capacity_l: '50', gauge_pressure_bar: '2900', temperature_c: '20' };

test('what an input accepts says what kind of field it is', () => {
  const shape = (accepted) => shapeOf({ accepted });
  assert.equal(shape('0.01 … 3000 L'), 'number');
  assert.equal(shape('-1e+15 … 1e+15'), 'number');
  assert.equal(shape('4 to 200 numbers, each 0 … 100 years'), 'list');
  assert.equal(shape('a day such as 2026-11-25'), 'date');
  assert.equal(shape('a month such as 2026-11, or a day of it'), 'month');
  assert.equal(shape('upright, lying'), 'choice');
  assert.deepEqual(choicesOf({ accepted: 'simple, guarded, four-way' }),
    ['simple', 'guarded', 'four-way']);
});

test('what is sent carries another unit only where one was chosen, and nothing that is empty', () => {
  const inputs = [{ name: 'a', unit: 'bar', accepted: '0 … 350 bar' },
    { name: 'b', unit: 'bar', accepted: '1 to 50 numbers, each 0 … 9 bar' },
    { name: 'c', unit: 'L', accepted: '0 … 9 L' }];
  assert.deepEqual(givenInputs(inputs, { a: ' 2900 ', b: '1,5; 2\n\n3', c: ' ' }, { a: 'psi', b: 'psi' }),
    { a: '2900 psi', b: ['1,5 psi', '2 psi', '3 psi'] });
  assert.deepEqual(givenInputs(inputs, { a: '28' }, { a: 'bar' }), { a: '28' });
});

test('a refusal is sorted to its input, with days as people write them', () => {
  const { byInput, others } = refusalsOf([
    { pointer: '/inputs/from_date', detail: 'Accepted: a day such as 2026-11-25.' },
    { pointer: '/inputs/b/0', detail: 'One.' }, { pointer: '/inputs/b/1', detail: 'Two.' },
    { pointer: '/inputs', detail: 'All.' }]);
  assert.equal(byInput.from_date.replaceAll('\u00a0', ' '), 'Accepted: a day such as 25 Nov 2026.');
  assert.equal(byInput.b, 'One. Two.');
  assert.deepEqual(others, ['All.']);
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
      await field('temperature_c').getByText(/60 is outside .*Accepted: -20 … 50 °C/).waitFor();
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
      assert.deepEqual(choices.filter((text) => /[_]/.test(text)), [], name);
    }
  });

  test('takes every unit that is offered with it', async () => {
    const { calculations } = await api(tablet, '/calculations');
    let offered = 0;
    for (const { name, inputs } of calculations) {
      for (const input of inputs) {
        for (const unit of unitsOf(input)) {
          const value = shapeOf(input) === 'list' ? [`1 ${unit}`] : `1 ${unit}`;
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
