// The month's figures equal an independent sum over the exported entries (month_sum.mjs), figure by
// figure and without rounding: in JSON, CSV and PDF, in /levels, and from other viewpoints.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { call, record, recorded } from './client.mjs';
import { parseCsv, parseExact, scaled, thousandths } from './exact.mjs';
import { Ledger, Register, stories } from './month_sum.mjs';
import { textOf } from './pdf.mjs';
import { containers, entries as manyEntries } from './workshop_history.mjs';

const kSeed = 20261;
const kEntries = 400;
const kDayMs = 86400000;

async function exact(path) {
  const answer = await call('GET', path, { as: 'manager' });
  assert.equal(answer.status, 200, answer.text);
  return parseExact(answer.text);
}

async function allEntries() {
  const found = [];
  let cursor = '';
  do {
    const page = await exact(`/api/v1/entries?limit=500${cursor}`);
    found.push(...page.entries);
    cursor = page.next_cursor === null ? '' : `&cursor=${page.next_cursor}`;
  } while (cursor);
  return found;
}

/** Records more of everything, in arrays, over the last four months. */
async function recordMany() {
  const made = containers();
  for (const body of made) await recorded(body, 'manager');
  const ids = made.map((body) => body.fields.thing);
  const now = Date.now();
  const bodies = manyEntries(kSeed, kEntries, ids, now - 120 * kDayMs, now);
  for (let i = 0; i < bodies.length; i += 50) {
    const { status, json } = await record(bodies.slice(i, i + 50));
    assert.equal(status, 200);
    for (const result of json.results) assert.equal(result.status, 201, JSON.stringify(result));
  }
}

/** "2026-10" of an instant on the clocks of the workshop. */
function monthsOf(zone) {
  const format = new Intl.DateTimeFormat('en-GB',
    { timeZone: zone, year: 'numeric', month: '2-digit' });
  return (ms) => {
    const parts = format.formatToParts(ms);
    const part = (name) => parts.find(({ type }) => type === name).value;
    return `${part('year')}-${part('month')}`;
  };
}

function monthsBetween(first, last) {
  const months = [];
  for (let [year, month] = first.split('-').map(Number); ; month += 1) {
    if (month === 13) [year, month] = [year + 1, 1];
    months.push(`${year}-${String(month).padStart(2, '0')}`);
    if (months.at(-1) === last) return months;
  }
}

let all;
let forms;
let register;
let monthOf;
let months;

/** The sum over all entries, or over those seen from a viewpoint. */
const ledger = (viewpoint) =>
  new Ledger(register, monthOf).walk(stories(register, forms, all, viewpoint));

const inOrder = (a, b) => (a < b ? -1 : Number(a > b));
const asText = (value) => JSON.parse(JSON.stringify(value, (_, one) =>
  (typeof one === 'bigint' ? String(one) : one)));

/** What a report should say of one container in a month. */
function containerFigures(sum, month, id) {
  const { reading = null } = sum.months.get(`${month} ${id}`) ?? {};
  const movement = sum.movementOf(month, id);
  const grams = register.grams(register.containers.get(id).stream, movement.closing);
  return { container: id, movement, standing: movement.closing, standing_kg: grams,
    reading: reading && { ...reading, difference: reading.reading - reading.logged } };
}

function reportedContainer({ container, movement, standing, standing_kg, last_reading }) {
  const reading = last_reading && { seq: Number(last_reading.entry),
    reading: thousandths(last_reading.reading), logged: thousandths(last_reading.logged),
    difference: thousandths(last_reading.difference) };
  const figures = Object.entries(movement).map(([name, text]) => [name, thousandths(text)]);
  return { container, movement: Object.fromEntries(figures), standing: thousandths(standing),
    standing_kg: standing_kg === null ? null : thousandths(standing_kg), reading };
}

/** What a report should say of one stream in a month. */
function streamFigures(sum, month, stream) {
  const own = [...register.containers].filter(([, attributes]) => attributes.stream === stream);
  let [arisen, collected, standing] = [0n, 0n, 0n];
  for (const [id, { counts_waste }] of own) {
    const here = sum.months.get(`${month} ${id}`);
    arisen += here?.arisen ?? 0n;
    for (const { amount } of here?.taken ?? []) collected += amount;
    if (counts_waste === 'yes') standing += sum.movementOf(month, id).closing;
  }
  const grams = (amount) => register.grams(stream, amount);
  return { stream, arisen, collected, standing, arisen_kg: grams(arisen),
    collected_kg: grams(collected), standing_kg: grams(standing) };
}

function reportedStream(figures) {
  const names = ['arisen', 'collected', 'standing', 'arisen_kg', 'collected_kg', 'standing_kg'];
  return { stream: figures.stream, ...Object.fromEntries(names.map((name) =>
    [name, figures[name] === null ? null : thousandths(figures[name])])) };
}

const reportOf = (month) => exact(`/api/v1/reports/waste-month.json?month=${month}`);
/** Entries may lie some minutes ahead: a report looks at what had happened by then. */
const sumUpTo = (report) => ledger({ until: Date.parse(report.until) });

before(async () => {
  await recordMany();
  all = await allEntries();
  const { forms: kinds } = await exact('/api/v1/forms');
  forms = new Map();
  for (const { kind } of kinds) forms.set(kind, await exact(`/api/v1/forms/${kind}`));
  const things = async (name) => (await exact(`/api/v1/register/${name}`)).things;
  register = new Register(await things('container'), await things('stream'));
  const [site] = await things('workshop');
  monthOf = monthsOf(site.attributes.time_zone);
  const at = all.map((entry) => Date.parse(entry.occurred_at));
  months = monthsBetween(monthOf(Math.min(...at)), monthOf(Date.now()));
  assert.ok(months.length >= 13, 'the demo tells of more than a year');
});

describe('the waste report of every month', () => {
  test('closes each container as the entries say', async () => {
    let moved = 0;
    for (const month of months) {
      const report = await reportOf(month);
      const sum = sumUpTo(report);
      for (const container of report.containers) {
        const expected = containerFigures(sum, month, container.container);
        assert.deepEqual(asText(reportedContainer(container)), asText(expected), month);
        const { opening, added, moved_in, moved_out, taken, emptied, corrections, closing } =
          expected.movement;
        const sums_to = opening + added + moved_in - moved_out - taken - emptied + corrections;
        assert.equal(sums_to, closing);
        moved += Number(added + moved_in + moved_out + taken > 0n);
      }
      const told = new Set(report.containers.map((container) => container.container));
      const silent = [...register.containers.keys()].filter((id) => !told.has(id) &&
        sum.months.has(`${month} ${id}`));
      assert.deepEqual(silent, [], `${month}: containers left out`);
    }
    assert.ok(moved > 30, `only ${moved} containers moved in all months`);
  });

  test('sums up each stream and all hazardous waste as the entries say', async () => {
    for (const month of months) {
      const report = await reportOf(month);
      const sum = sumUpTo(report);
      const expected = [...register.streams.keys()].sort(inOrder)
        .map((stream) => streamFigures(sum, month, stream));
      assert.deepEqual(asText(report.streams.map(reportedStream)), asText(expected), month);
      for (const name of ['arisen_kg', 'collected_kg', 'standing_kg']) {
        const total = expected.reduce((grams, stream) => grams + stream[name], 0n);
        assert.equal(thousandths(report.hazardous_total[name]), total, `${month} ${name}`);
      }
    }
  });

  test('lists what was collected as the entries say', async () => {
    let lines = 0;
    for (const month of months) {
      const report = await reportOf(month);
      const sum = sumUpTo(report);
      const expected = [...register.containers.keys()].flatMap((id) =>
        (sum.months.get(`${month} ${id}`)?.taken ?? []).map(({ seq, amount, document_number }) =>
          `${seq} ${id} ${amount} ${document_number}`));
      const told = report.collected.map((line) =>
        `${line.entry} ${line.container} ${thousandths(line.collected)} ${line.document_number}`);
      assert.deepEqual(told.sort(inOrder), expected.sort(inOrder), month);
      lines += told.length;
    }
    assert.ok(lines > 20);
  });
});

describe('the other formats', () => {
  const kMillionths = 6;
  const csvOf = async (month) => {
    const answer = await call('GET', `/api/v1/reports/waste-month.csv?month=${month}`,
      { as: 'inspector' });
    assert.equal(answer.status, 200);
    const [head, ...rows] = parseCsv(answer.text);
    assert.deepEqual(head, ['table', 'row', 'column', 'value', 'unit']);
    return new Map(rows.map(([table, row, column, value, unit]) =>
      [`${table} ${row} ${column}`, { value, unit }]));
  };

  test('CSV tells the same figures of every month, in litres and kilograms', async () => {
    for (const month of months) {
      const report = await reportOf(month);
      const sum = sumUpTo(report);
      const csv = await csvOf(month);
      const is = (key, amount, unit) => {
        assert.equal(scaled(csv.get(key).value, kMillionths), amount, `${month} ${key}`);
        assert.equal(csv.get(key).unit, unit, key);
      };
      for (const { container } of report.containers) {
        const mass = register.byMass(container);
        for (const [name, amount] of Object.entries(sum.movementOf(month, container))) {
          is(`balance-${mass ? 'mass' : 'volume'} ${container} ${name}`, amount, mass ? 'kg' : 'L');
        }
      }
      for (const stream of register.streams.keys()) {
        const figures = streamFigures(sum, month, stream);
        for (const name of ['arisen_kg', 'collected_kg', 'standing_kg']) {
          is(`streams ${stream} ${name}`, figures[name] * 1000n, 'kg');
        }
        if (register.streams.get(stream).counted_by === 'volume') {
          is(`streams ${stream} arisen_l`, figures.arisen, 'L');
        }
      }
    }
  });

  /** A volume as paper has it: at most four places, ties away from zero. */
  function printed(litres) {
    const [whole, places = ''] = litres.split('.');
    if (places.length <= 4) return litres;
    const rounded = (BigInt(whole + places.padEnd(6, '0')) + 50n) / 100n;
    const digits = String(rounded).padStart(5, '0');
    return `${digits.slice(0, -4)}.${digits.slice(-4)}`;
  }

  test('PDF prints the totals of the last four months', async () => {
    for (const month of months.slice(-4)) {
      const csv = await csvOf(month);
      const pdf = await call('GET', `/api/v1/reports/waste-month.pdf?month=${month}`,
        { as: 'inspector' });
      assert.equal(pdf.status, 200, pdf.text);
      const text = (await textOf(pdf.bytes)).replace(/ +/g, ' ');
      const value = (key) => csv.get(key).value;
      for (const [stream, { name, low_code, counted_by }] of register.streams) {
        const litres = counted_by === 'volume' ? printed(value(`streams ${stream} arisen_l`)) : '–';
        const kilograms = (column) => value(`streams ${stream} ${column}_kg`);
        const line = [name, `${low_code}*`, 'yes', kilograms('arisen'), litres, kilograms('collected'),
          kilograms('standing')].join(' ');
        assert.ok(text.includes(line), `${month}: not printed: ${line}`);
      }
      for (const figure of ['hazardous_arisen_kg', 'collected_kg', 'standing_kg']) {
        assert.ok(text.includes(`${value(`figures ${figure} value`)} kg`), `${month} ${figure}`);
      }
    }
  });
});

describe('the levels', () => {
  /** Levels of the containers that were entered by then, from the API. */
  const told = async (query) => {
    const { levels } = await exact(`/api/v1/levels${query}`);
    return levels.map(({ container, mass_kg, volume_ml }) =>
      [container, thousandths(register.byMass(container) ? mass_kg : volume_ml)]);
  };
  const isSum = (levels, sum) => {
    for (const [id, amount] of levels) {
      // Kilograms have three places: the log's milligrams are rounded for show.
      const level = sum.level(id);
      const { stream } = register.containers.get(id);
      assert.equal(amount, register.byMass(id) ? register.grams(stream, level) : level, id);
    }
  };

  test('are now what the entries say', async () => {
    const levels = await told('');
    assert.deepEqual(levels.map(([id]) => id), [...register.containers.keys()].sort(inOrder));
    isSum(levels, ledger());
  });

  test('were at earlier sizes of the book what the entries up to there say', async () => {
    for (const known_at of [300, 1500, all.length - 200, all.length - 7]) {
      isSum(await told(`?known_at=${known_at}`), ledger({ known_at }));
    }
  });

  test('were on earlier days what had happened by then', async () => {
    for (const days of [3, 40, 200]) {
      const asOf = Date.now() - days * kDayMs;
      isSum(await told(`?as_of=${new Date(asOf).toISOString()}`), ledger({ until: asOf + 1 }));
    }
  });
});
