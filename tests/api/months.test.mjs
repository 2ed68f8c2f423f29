// The months: their figures, and the manager's signature under them.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { call, read, record, recorded } from './client.mjs';
import { correction, drain, strikeOut, submission } from './submissions.mjs';

const kMonths = '/api/v1/months';

const figuresOf = (month) => read(`${kMonths}/${month}`, 'manager');

const closing = ({ month, figures_digest: digest, book_size: size }, fields = {}) =>
  submission('month-close', { month, figures_digest: digest, book_size: size, ...fields });

const report = (month) => read(`/api/v1/reports/waste-month.json?month=${month}`);

describe('a month', () => {
  let month;
  let late;
  before(async () => {
    const { months } = await read(kMonths, 'technician');
    const last = months.find((one) => one.over);
    month = last.month;
    if (!last.closed) return;
    const { closed } = await figuresOf(month);
    await recorded(strikeOut(closed.id, 'Opened again'), 'manager');
  });

  test('is listed newest first, with its totals, for everybody', async () => {
    const { today, months } = await read(kMonths, 'inspector');
    assert.equal(months[0].month, today.slice(0, 7));
    assert.equal(months[0].over, false);
    const names = months.map((one) => one.month);
    assert.deepEqual(names, [...names].sort().reverse());
    const { hazardous_total: totals } = await report(month);
    assert.deepEqual(months.find((one) => one.month === month).hazardous_total, totals);
  });

  test('has a digest that hangs on its figures alone', async () => {
    const { figures_digest: digest, book_size: size } = await figuresOf(month);
    await recorded(drain());
    const again = await figuresOf(month);
    assert.equal(again.figures_digest, digest);
    assert.equal(again.book_size, size + 1);
  });

  test('is closed by a manager alone, over the figures as they are', async () => {
    const figures = await figuresOf(month);
    assert.equal((await record(closing(figures), 'technician')).status, 422);
    const wrong = await record(closing(figures, { figures_digest: '0'.repeat(64) }), 'manager');
    assert.deepEqual([wrong.status, wrong.json.errors[0].pointer, wrong.json.errors[0].code],
      [422, '/fields/figures_digest', 'figures_changed']);
    assert.match(wrong.json.errors[0].detail, new RegExp(figures.figures_digest));
    const entry = closing(figures, { statement: 'nothing estimated' });
    const { seq } = await recorded(entry, 'manager');
    assert.equal((await record(entry, 'manager')).status, 200);
    const { closed } = await figuresOf(month);
    assert.equal(closed.entry, seq);
    assert.equal(closed.statement, 'nothing estimated');
    assert.equal(closed.entries_since, 0);
    const twice = await record(closing(await figuresOf(month)), 'manager');
    assert.equal(twice.json.errors[0].code, 'month_closed');
  });

  test('shows what came after its closing, and the difference', async () => {
    const before = await report(month);
    assert.deepEqual(before.closing.late, []);
    late = drain({ volume_ml: 500 }, { occurred_at: `${month}-15T10:00:00Z` });
    const { seq } = await recorded(late, 'manager');
    const after = await report(month);
    assert.deepEqual(after.closing.late.map(({ entry }) => entry), [seq]);
    const [oil] = after.closing.differences;
    assert.equal(oil.arisen.now - oil.arisen.then, 500);
    assert.equal(after.closing.digest_holds, true);
    assert.equal((await figuresOf(month)).closed.entries_since, 1);
    const page = await call('GET', `/api/v1/reports/waste-month.html?month=${month}`,
      { as: 'manager' });
    assert.match(page.text, new RegExp(`After closing: entry ${[...String(seq)].join('\\s?')}\\b`));
    const { today } = await read(kMonths);
    const running = await report(today.slice(0, 7));
    assert.ok(running.data_quality.for_earlier_months.some(({ entry }) => entry === seq));
  });

  test('is the same again once that is struck out, but says that it was there', async () => {
    const { seq } = await recorded(strikeOut(late.id), 'manager');
    const { closing: told } = await report(month);
    assert.deepEqual(told.differences, []);
    assert.deepEqual(told.corrections.map(({ by }) => by.entry), [seq]);
  });

  test('may have its statement corrected, and be opened by a strike-out', async () => {
    const { closed } = await figuresOf(month);
    await recorded(correction(closed.id, { statement: 'one jug estimated' }), 'manager');
    assert.equal((await figuresOf(month)).closed.statement, 'one jug estimated');
    await recorded(strikeOut(closed.id), 'manager');
    assert.equal((await figuresOf(month)).closed, null);
  });

  test('that is not over, has not begun or is none', async () => {
    const { today } = await read(kMonths);
    const running = await record(closing(await figuresOf(today.slice(0, 7))), 'manager');
    assert.equal(running.json.errors[0].code, 'month_running');
    for (const name of ['2999-01', '2026-13', 'x']) {
      assert.equal((await call('GET', `${kMonths}/${name}`, { as: 'manager' })).status, 404, name);
    }
  });
});
