// The book from outside: what is taken, once, in order, and how it is put right.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { bookSize, call, personOf, read, record, recorded } from './client.mjs';
import {
  ago, correction, drain, freshId, newContainer, retirement, strikeOut, submission, uuid,
} from './submissions.mjs';
import { kManagers, moreSamples, prepared } from './kind_samples.mjs';

const entryOf = (id) => read(`/api/v1/entries/${id}`);

async function levelOf(container) {
  const { levels } = await read('/api/v1/levels');
  return levels.find((level) => level.container === container);
}

/** One good submission of every kind a person records; ids of things are the demo's. */
const kSamples = {
  'register-change': () => newContainer(freshId('x')),
  'oil-drained': () => drain({ fluid: 'mineral-oil', measured_by: 'jug', contamination: 'none' }),
  'rag-bin': () => submission('rag-bin', { container: 'b1', bin_act: 'added',
    contaminant: 'mineral-oil', mass_kg: 0.35 }),
  'level-reading': () => submission('level-reading', { container: 'w2', reading_method: 'dip',
    height_mm: 181, volume_ml: 11800 }),
  transfer: () => submission('transfer', { from_container: 'w2', to_container: 'w1',
    volume_ml: 25.5, measured_by: 'jug' }),
  'container-change': () => submission('container-change', { container: 'd1',
    container_act: 'placed', location: 'Store', label_legible: 'yes' }),
  collection: () => submission('collection', { collection: freshId('c'), stage: 'planned',
    carrier: 'tideline', planned_date: '2031-04-01' }),
  'cylinder-check': () => submission('cylinder-check', { cylinder: 'n2', gauge_pressure_bar: 170.5,
    leak_test: 'passed', secured: 'yes' }),
  'tool-inspection': () => submission('tool-inspection', { inspected_class: 'gauge', gauge: 'g1',
    result: 'in-service', points: [{ nominal_bar: 20, as_found_bar: 20.1 }] }),
  ...moreSamples,
};

describe('recording', () => {
  before(prepared);

  for (const [kind, sample] of Object.entries(kSamples)) {
    test(`takes an entry of kind ${kind} and shows it as it was sent`, async () => {
      const body = sample();
      const as = kManagers.has(kind) ? 'manager' : 'technician';
      const size = await bookSize();
      const receipt = await recorded(body, as);
      assert.equal(receipt.id, body.id);
      assert.equal(receipt.seq, size + 1);
      assert.equal(await bookSize(), size + 1);
      const entry = await entryOf(body.id);
      assert.deepEqual(entry.fields, body.fields);
      assert.equal(entry.kind, kind);
      assert.equal(entry.person, personOf(as).id);
      assert.equal(entry.person_verified, true);
      assert.equal(Date.parse(entry.occurred_at), Date.parse(body.occurred_at));
      assert.equal(entry.leaf_hash, receipt.leaf_hash);
      assert.deepEqual(entry.corrections, []);
    });
  }

  test('has samples of every form but those for corrections and of the daemon itself', async () => {
    const { forms } = await read('/api/v1/forms');
    const others = ['access-change', 'access-day', 'backup-made', 'correction', 'end-accepted',
      'report-issued', 'rules-adopted'];
    assert.deepEqual([...Object.keys(kSamples), ...others].sort(),
      forms.map((form) => form.kind).sort());
  });

  test('raises the level of the container by exactly the volume', async () => {
    const can = freshId('x');
    await recorded(newContainer(can), 'manager');
    await recorded(drain({ container: can, volume_ml: 0.001 }, { confirmed: ['volume_ml'] }));
    await recorded(drain({ container: can, volume_ml: 117.25 }));
    const level = await levelOf(can);
    assert.equal(level.volume_ml, 117.251);
    assert.equal(level.working_limit_ml, 9000);
  });

  test('takes an unusual volume only when it was confirmed', async () => {
    const body = drain({ volume_ml: 6200 });
    const size = await bookSize();
    const asked = await record(body);
    assert.equal(asked.status, 422);
    assert.deepEqual(asked.json.errors.map(({ pointer, code }) => ({ pointer, code })),
      [{ pointer: '/fields/volume_ml', code: 'needs_confirmation' }]);
    assert.match(asked.json.errors[0].detail, /6\u202f200.*1 to 5\u202f000/);
    assert.equal(await bookSize(), size);
    await recorded({ ...body, confirmed: ['volume_ml'] });
    await recorded(strikeOut(body.id));
  });

  test('keeps a pressure typed in psi as it was read, beside bar', async () => {
    const body = submission('cylinder-check',
      { cylinder: 'n1', gauge_pressure_bar: { value: 2900, unit: 'psi' } });
    await recorded(body);
    const entry = await entryOf(body.id);
    assert.deepEqual(entry.as_read, { gauge_pressure_bar: { value: 2900, unit: 'psi' } });
    assert.equal(entry.fields.gauge_pressure_bar, 199.948); // 2900 × 0.0689475729… bar
  });
});

describe('sending again', () => {
  test('the same entry is answered as the first time and is there once', async () => {
    const body = drain();
    const first = await recorded(body);
    const size = await bookSize();
    const again = await record(body);
    assert.equal(again.status, 200);
    assert.deepEqual(again.json, first);
    const byAnother = await record(body, 'manager');
    assert.equal(byAnother.status, 200);
    assert.deepEqual(byAnother.json, first);
    assert.equal(await bookSize(), size);
  });

  test('the same entry is the same however its members are ordered or written', async () => {
    const body = drain({ volume_ml: 70 });
    const first = await recorded(body);
    const text = `{"fields": {"volume_ml": 70.000, "container": "w2"}, "kind": "oil-drained",
      "occurred_at": "${body.occurred_at}", "id": "${body.id.toUpperCase()}"}`;
    const again = await record(text);
    assert.equal(again.status, 200, again.text);
    assert.deepEqual(again.json, first);
  });

  test('the same entry is known also after its container was retired', async () => {
    const can = freshId('x');
    await recorded(newContainer(can), 'manager');
    const body = drain({ container: can }, { occurred_at: ago(300) });
    const first = await recorded(body);
    await recorded(submission('container-change', { container: can, container_act: 'emptied' }));
    await recorded(retirement(can), 'manager');
    const again = await record(body);
    assert.equal(again.status, 200, again.text);
    assert.deepEqual(again.json, first);
  });
});

describe('an array', () => {
  test('is answered item by item: taken, taken before, refused, in conflict', async () => {
    const known = drain();
    const receipt = await recorded(known);
    const fresh = drain({ volume_ml: 81 });
    const size = await bookSize();
    const { status, json } = await record([fresh, known, drain({ volume_ml: -1 }), 'no entry',
      { ...known, fields: { ...known.fields, volume_ml: 63 } }, fresh]);
    assert.equal(status, 200);
    assert.deepEqual(json.results.map((result) => result.status), [201, 200, 422, 422, 409, 200]);
    assert.equal(json.results[0].entry.seq, size + 1);
    assert.deepEqual(json.results[1].entry, receipt);
    assert.equal(json.results[2].problem.errors[0].pointer, '/fields/volume_ml');
    assert.deepEqual(json.results[5].entry, json.results[0].entry);
    assert.equal(await bookSize(), size + 1);
  });

  test('of no items records nothing, and of more than 200 is refused whole', async () => {
    const size = await bookSize();
    assert.deepEqual((await record([])).json, { results: [] });
    const many = await record(Array.from({ length: 201 }, () => ({})));
    assert.equal(many.status, 413);
    assert.match(many.json.detail, /200/);
    assert.equal(await bookSize(), size);
  });
});

describe('putting right', () => {
  let can;
  before(async () => {
    can = freshId('x');
    await recorded(newContainer(can), 'manager');
  });

  test('a correction changes the level and stands beside the original', async () => {
    const wrong = drain({ container: can, volume_ml: 620, measured_by: 'jug' });
    await recorded(wrong);
    const right = correction(wrong.id, { volume_ml: 62 });
    await recorded(right);
    assert.equal((await levelOf(can)).volume_ml, 62);
    const entry = await entryOf(wrong.id);
    assert.equal(entry.fields.volume_ml, 620);
    assert.equal(entry.corrections.length, 1);
    assert.equal(entry.corrections[0].id, right.id);
    assert.equal(entry.corrections[0].reason, 'Read the jug again');
    assert.deepEqual(entry.corrections[0].fields, { action: 'corrected', volume_ml: 62 });

    await recorded(correction(wrong.id,
      { volume_ml: 63.5, cleared: [{ cleared_field: 'measured_by' }] }, 'And once more'));
    assert.equal((await levelOf(can)).volume_ml, 63.5);
    assert.equal((await entryOf(wrong.id)).corrections.length, 2);
  });

  test('an undo takes the volume off again and leaves both entries in the book', async () => {
    const { volume_ml: before } = await levelOf(can);
    const body = drain({ container: can, volume_ml: 333 });
    await recorded(body);
    assert.equal((await levelOf(can)).volume_ml, before + 333);
    await recorded(strikeOut(body.id));
    assert.equal((await levelOf(can)).volume_ml, before);
    const entry = await entryOf(body.id);
    assert.equal(entry.fields.volume_ml, 333);
    assert.equal(entry.corrections[0].fields.action, 'struck-out');
  });

  test('is refused twice, without a reason, without a change, and for what cannot be', async () => {
    const body = drain({ container: can });
    await recorded(body);
    const refusals = [
      [{ ...strikeOut(body.id), reason: undefined }, '/reason', 'reason_needed'],
      [correction(body.id, { volume_ml: 62 }), '/fields', 'nothing_changed'],
      [correction(body.id, { volume_ml: -1 }), '/fields/volume_ml', 'impossible'],
      [strikeOut(uuid()), '/corrects', 'unknown_entry'],
    ];
    for (const [bad, pointer, code] of refusals) {
      const { status, json } = await record(bad);
      assert.equal(status, 422, code);
      assert.deepEqual([json.errors[0].pointer, json.errors[0].code], [pointer, code]);
    }
    await recorded(strikeOut(body.id));
    const twice = await record(strikeOut(body.id));
    assert.deepEqual(twice.json.errors.map((error) => error.code), ['already_struck']);
  });
});

describe('the list of entries', () => {
  async function pages(query, limit) {
    const found = [];
    let cursor = '';
    do {
      const page = await read(`/api/v1/entries?limit=${limit}${query}${cursor}`);
      assert.ok(page.entries.length <= limit);
      found.push(...page.entries);
      cursor = page.next_cursor === null ? '' : `&cursor=${encodeURIComponent(page.next_cursor)}`;
    } while (cursor);
    return found;
  }

  test('gives every entry of the book once, in its order, whatever the page size', async () => {
    const size = await bookSize();
    for (const limit of [500, 333]) {
      const seqs = (await pages('', limit)).map((entry) => entry.seq);
      assert.deepEqual(seqs, Array.from({ length: size }, (_, i) => i + 1));
    }
  });

  test('can be had for one kind, one thing and some days', async () => {
    const all = await pages('', 500);
    const kind = (await pages('&kind=level-reading', 7)).map((entry) => entry.seq);
    assert.ok(kind.length > 5);
    assert.deepEqual(kind, all.filter((entry) => entry.kind === 'level-reading')
      .map((entry) => entry.seq));

    const [{ person }] = all.slice(-1);
    const theirs = (await pages(`&person=${person}`, 7)).map((entry) => entry.seq);
    assert.ok(theirs.length > 7 && theirs.length < all.length);
    assert.deepEqual(theirs, all.filter((entry) => entry.person === person)
      .map((entry) => entry.seq));

    const about = (await pages('&kind=cylinder-check&subject=cylinder/n1', 50))
      .map((entry) => entry.seq);
    assert.deepEqual(about, all.filter((entry) => entry.kind === 'cylinder-check' &&
      entry.fields.cylinder === 'n1').map((entry) => entry.seq));

    // occurred_at bears the workshop's offset, so its first ten characters are the local day.
    const day = all[Math.floor(all.length / 2)].occurred_at.slice(0, 10);
    const dated = (await pages(`&from=${day}&to=${day}`, 50)).map((entry) => entry.seq);
    assert.ok(dated.length > 0);
    assert.deepEqual(dated, all.filter((entry) => entry.occurred_at.startsWith(day))
      .map((entry) => entry.seq));
  });

  test('names a query it cannot use', async () => {
    for (const [query, pointer] of [['limit=0', '/query/limit'], ['limit=501', '/query/limit'],
      ['cursor=x', '/query/cursor'], ['from=2026-02-30', '/query/from'],
      ['from=2026-11-02&to=2026-11-01', '/query/to'], ['kind=zzz', '/query/kind'],
      ['colour=brown', '/query/colour']]) {
      const answer = await call('GET', `/api/v1/entries?${query}`, { as: 'inspector' });
      assert.equal(answer.status, 422, query);
      assert.equal(answer.json.errors[0].pointer, pointer);
    }
  });

  test('is not sent again while the book has not grown', async () => {
    const path = '/api/v1/entries?limit=1';
    const first = await call('GET', path, { as: 'manager' });
    const again = await call('GET', path,
      { as: 'manager', headers: { 'If-None-Match': first.headers.etag } });
    assert.equal(again.status, 304);
    await recorded(drain());
    const later = await call('GET', path,
      { as: 'manager', headers: { 'If-None-Match': first.headers.etag } });
    assert.equal(later.status, 200);
  });
});
