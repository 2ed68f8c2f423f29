// Each kind of entry refuses what does not fit it, in words, and leaves no entry; and what rests on
// an id that came into being by use keeps it.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { bookSize, record, recorded } from './client.mjs';
import {
  acted, closed, happened, kManagers, moreSamples, opened, prepared,
} from './kind_samples.mjs';
import { freshId, strikeOut } from './submissions.mjs';

/** Fails unless exactly one fault is named, there and so, and the book stays as it was. */
async function isRefused(body, pointer, code, as = 'technician') {
  const size = await bookSize();
  const { status, json, text } = await record(body, as);
  assert.equal(status, 422, text);
  assert.deepEqual(json.errors.map((error) => [error.pointer, error.code]), [[pointer, code]]);
  assert.ok(json.errors[0].detail.length > 10, text);
  assert.equal(await bookSize(), size);
}

/** Of each kind one field replaced, and what is said of it. */
const kBad = {
  'solvent-waste': [{ volume_ml: 0 }, 'volume_ml', 'impossible'],
  'container-inspection': [{ closed: 'perhaps' }, 'closed', 'unknown_code'],
  'oil-test': [{ pcb_ppm: -1 }, 'pcb_ppm', 'impossible'],
  'waste-determination': [{ low_code: '130110' }, 'low_code', 'bad_text'],
  'cylinder-change': [{ cylinder: 'none-such' }, 'cylinder', 'unknown_thing'],
  'gas-use': [{ unit_count: 1.5 }, 'unit_count', 'too_many_places'],
  'plant-check': [{ plant: 'none-such' }, 'plant', 'unknown_thing'],
  'cabinet-count': [{ rows: [] }, 'rows', 'missing'],
  'walk-round': [{ period: 'yearly' }, 'period', 'unknown_code'],
  'stuck-part': [{ guard: 'somewhat' }, 'guard', 'unknown_code'],
  event: [{ what_happened: 'x'.repeat(201) }, 'what_happened', 'text_too_long'],
  'action-closed': [{ what_was_done: ' ' }, 'what_was_done', 'blank_text'],
  briefing: [{ topic: 'juggling' }, 'topic', 'unknown_code'],
  'month-close': [{ month: '2026-13' }, 'month', 'bad_text'],
  'finding-acknowledged': [{ until: '2026-02-30' }, 'until', 'bad_date'],
  'entries-confirmed': [{ authorship: 'perhaps' }, 'authorship', 'unknown_code'],
  hold: [{ hold: 'kept' }, 'hold', 'unknown_code'],
};

describe('an entry that does not fit its kind', () => {
  before(prepared);

  for (const [kind, sample] of Object.entries(moreSamples)) {
    test(`is refused: ${kind}`, () => {
      const [change, field, code] = kBad[kind];
      const body = sample();
      const as = kManagers.has(kind) ? 'manager' : 'technician';
      // What hangs on an unreadable choice is not judged, so one fault it stays.
      return isRefused({ ...body, fields: { ...body.fields, ...change } }, `/fields/${field}`, code,
        as);
    });
  }

  test('is refused to a technician where the manager answers for it', async () => {
    for (const kind of kManagers) {
      if (moreSamples[kind]) await isRefused(moreSamples[kind](), '/kind', 'not_allowed');
    }
  });
});

describe('a stuck part', () => {
  test('is opened once and closed once, after', async () => {
    const id = freshId('s');
    await isRefused(closed(id), '/fields/stuck_part', 'not_begun');
    await recorded(opened(id));
    await isRefused(opened(id), '/fields/stuck_part', 'id_used');
    const end = closed(id);
    await recorded(end);
    await isRefused(closed(id), '/fields/stuck_part', 'closed_before');
    await recorded(strikeOut(end.id));
    await recorded(closed(id));
  });
});

describe('an event', () => {
  test('is recorded before what was done about it, and stays', async () => {
    const id = freshId('e');
    await isRefused(acted(id), '/fields/event', 'not_begun');
    const event = happened(id);
    await recorded(event);
    await isRefused(happened(id), '/fields/event', 'id_used');
    const action = acted(id);
    await recorded(action);
    await isRefused(strikeOut(event.id), '/corrects', 'relied_on');
    await recorded(strikeOut(action.id));
    await recorded(strikeOut(event.id));
    await recorded(happened(id));
  });
});
