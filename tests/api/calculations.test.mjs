// The calculator over HTTP and from the command line: the same answers, every form's example, and
// every fault named.
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { after, before, describe, test } from 'node:test';
import { bookSize, call, read } from './client.mjs';
import { binary } from './transport.mjs';

const kPath = '/api/v1/calculations';
const kContent = { water_capacity_l: 50, gauge_pressure_bar: 200, temperature_c: 20 };

const calculate = (name, inputs, as = 'technician') =>
  call('POST', `${kPath}/${name}`, { as, body: { inputs } });
const valueOf = (json, name) => json.results.find((line) => line.name === name).value;

/** `benchwarden calculate …`: {status, stdout, stderr}. */
const command = (...words) =>
  spawnSync(binary(), ['calculate', ...words], { encoding: 'utf8' });

describe('calculations over the interface', () => {
  let size;
  before(async () => { size = await bookSize(); });
  after(async () => assert.equal(await bookSize(), size, 'an entry was left in the book'));

  test('are listed with what each input takes', async () => {
    const { calculations } = await read(kPath, 'inspector');
    const content = calculations.find((one) => one.name === 'nitrogen-content');
    const pressure = content.inputs.find((one) => one.name === 'gauge_pressure_bar');
    assert.equal(pressure.accepted, '0 … 350 bar');
    assert.equal(pressure.unit, 'bar');
    assert.deepEqual([pressure.type, pressure.required, pressure.default, pressure.lowest,
      pressure.highest], ['number', true, null, 0, 350]);
    const forecast = calculations.find((one) => one.name === 'fill-forecast').inputs;
    const [daily, , last] = forecast;
    assert.deepEqual([daily.type, last.type, last.required, last.default],
      ['list', 'date', false, 'today']);
    assert.ok(daily.fewest < daily.most);
    const choices = calculations.flatMap(({ inputs }) => inputs).flatMap((one) => one.choices);
    assert.ok(choices.some(({ code, label }) => code === 'lying' && label === 'lying on its side'));
    assert.deepEqual(choices.filter(({ code, label }) => !label && code !== '1'), []);
    const names = calculations.map((one) => one.name);
    assert.deepEqual(names, [...names].sort());
  });

  // Density of nitrogen at 20 °C and 201.01325 bar by the equation of state: between the reference
  // rows at 20 and 23 MPa of tests/reference/nitrogen_reference.csv.
  test('answer everybody who is signed in, with numbers unrounded', async () => {
    for (const role of ['technician', 'manager', 'inspector']) {
      const { status, json } = await calculate('nitrogen-content', kContent, role);
      assert.equal(status, 200);
      const density = valueOf(json, 'density_kg_m3');
      assert.ok(density > 218.5443474 && density < 245.8554422, density);
      assert.equal(valueOf(json, 'mass_kg'), density * 0.05);
      assert.equal(json.cautions[0].id, 'high-pressure-gas');
    }
  });

  test('take texts, units and lists as people write them', async () => {
    const { json } = await calculate('nitrogen-content',
      { ...kContent, gauge_pressure_bar: { value: 2900, unit: 'psi' }, water_capacity_l: '1,25 l' });
    const [capacity, pressure] = json.inputs;
    assert.equal(capacity.value, 1.25);
    assert.equal(capacity.given, '1,25 l');
    assert.ok(Math.abs(pressure.value - 199.94796150) < 1e-8, pressure.value);
    const { status } = await calculate('strapping-table',
      { table_height_mm: [0, '20 cm', 400], table_volume_l: [0, 50, 102], height_mm: 300 });
    assert.equal(status, 200);
  });

  test('print the figures of the rules with their citation', async () => {
    const { json } = await calculate('oxygen-after-release',
      { room_volume_m3: 62, gas_volume_m3: 9.4 });
    assert.deepEqual(json.figures.map(({ id, value }) => [id, value]), [['oxygen-baseline', 20.9],
      ['oxygen-first-level', 19.5], ['oxygen-second-level', 18]]);
    assert.match(json.figures[1].citation, /29 CFR 1910/);
  });

  test('refuse with every fault, and know no calculation of another name', async () => {
    const { status, json } = await calculate('nitrogen-content',
      { water_capacity_l: '1,250', temperature_c: 60, colour: 'brown' });
    assert.equal(status, 422);
    assert.deepEqual(json.errors.map(({ pointer, code }) => `${pointer} ${code}`), [
      '/inputs/water_capacity_l wrong_type', '/inputs/colour unknown_input',
      '/inputs/gauge_pressure_bar missing', '/inputs/temperature_c out_of_range']);
    assert.match(json.errors[3].detail, /60 is outside .* Accepted: -20 … 50 °C/);
    const none = await calculate('no-such', {});
    assert.equal(none.status, 404);
    assert.match(none.json.detail, /'no-such'/);
  });

  test('refuse a body of another shape', async () => {
    const bodies = ['[]', '{}', '{"inputs": []}', '{"inputs": {"value": true}}', '{"inputs": 1}',
      '{"inputs": {}, "more": 1}'];
    for (const body of bodies) {
      const { status, json } = await call('POST', `${kPath}/unit`, { as: 'manager', body });
      assert.equal(status, 422, body);
      assert.equal(json.errors[0].pointer, '/inputs', body);
    }
    const broken = await call('POST', `${kPath}/unit`, { as: 'manager', body: '{"inputs":' });
    assert.equal(broken.status, 400);
  });
});

describe('calculations from the command line', () => {
  test('answer as the interface does', async () => {
    const words = Object.entries(kContent).map(([name, value]) => `${name}=${value}`);
    const told = command('nitrogen-content', ...words, '--json');
    assert.equal(told.status, 0, told.stderr);
    const { json } = await calculate('nitrogen-content', kContent);
    assert.deepEqual(JSON.parse(told.stdout), json);
    const text = command('nitrogen-content', ...words);
    assert.equal(text.status, 0);
    assert.match(text.stdout, /Nitrogen in the cylinder: 10\.975 kg/);
    assert.match(text.stdout, /Caution: Gas under high pressure/);
  });

  test('list all of them, and describe one with an example that runs as printed', async () => {
    const list = command();
    assert.equal(list.status, 0);
    const names = list.stdout.trim().split('\n').map((line) => line.split(' ')[0]);
    const { calculations } = await read(kPath);
    assert.deepEqual(names, calculations.map((one) => one.name));
    for (const name of names) {
      const described = command(name);
      assert.equal(described.status, 0, name);
      const [, example] = /^Example: benchwarden (.*)$/m.exec(described.stdout);
      const words = [...example.matchAll(/'([^']*)'/g)].map((match) => match[1]);
      assert.equal(command(name, ...words).status, 0, example);
    }
  });

  test('say what is wrong, each by its exit code', () => {
    for (const words of [['no-such'], ['no-such', 'value=1']]) {
      const none = command(...words);
      assert.equal(none.status, 5, words.join(' '));
      assert.match(none.stderr, /there is no calculation 'no-such'/);
    }
    const refused = command('nitrogen-content', 'water_capacity_l=1,250', 'colour=brown');
    assert.equal(refused.status, 2);
    assert.equal(refused.stdout, '');
    assert.match(refused.stderr, /'1,250' can be read in two ways; .*\. Accepted: 0\.01 … 3000 L/);
    assert.match(refused.stderr, /'colour' is not an input/);
    for (const words of [['unit', 'value'], ['unit', '=1'], ['unit', 'value=1', 'value=2']]) {
      const wrong = command(...words);
      assert.equal(wrong.status, 2, words.join(' '));
      assert.match(wrong.stderr, /an input is written name=value|is given twice/);
    }
  });
});
