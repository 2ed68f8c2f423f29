// The parts of the tablet page that need no page: numbers as text, ids, drafts.
import assert from 'node:assert/strict';
import { webcrypto } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { test } from 'node:test';
import { changesBetween } from '../../forms/app/src/corrections.js';
import { grouped, isDecimal, plain, shift } from '../../forms/app/src/decimal.js';
import {
  draftOf, firstValues, isWritten, lastValues, missing, pageFields, sortFaults, submission,
} from '../../forms/app/src/draft.js';
import { pressed } from '../../forms/app/src/keys.js';
import { lastMonths, withDays, withOffset } from '../../forms/app/src/time.js';
import { echo, litres } from '../../forms/app/src/units.js';
import { uuid7 } from '../../forms/app/src/uuid.js';
import { momentOn, onClock } from '../../forms/app/src/zone.js';
import { texts } from '../../forms/app/texts.js';

globalThis.crypto ??= webcrypto; // a browser has it; Node 18 does not by itself

const ml = { id: 'ml', symbol: 'mL' };
const spaced = (text) => text.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');

const form = {
  kind: 'oil-drained',
  fields: [
    { name: 'container', type: 'id', thing_class: 'container', required: true },
    { name: 'volume_ml', type: 'quantity', unit: ml, required: true },
    { name: 'fluid', type: 'code', options: [{ code: 'mineral-oil', label: 'Mineral oil' }] },
    { name: 'measured_by', type: 'code', options: [{ code: 'jug', label: 'Jug' }] },
    { name: 'contamination', type: 'code', options: [{ code: 'none', label: 'None' }] },
    { name: 'water_share', type: 'text', when: [{ field: 'contamination', codes: ['water'] }] },
    { name: 'note', type: 'text' },
  ],
};
const kMoment = 1645557742000; // the example of RFC 9562, appendix A.6
const filled = { container: 'w1', volume_ml: '62.', fluid: 'mineral-oil', measured_by: 'jug',
  contamination: 'none' };

test('an id is written where no register holds it, and chosen otherwise', () => {
  assert.equal(isWritten({ type: 'id', thing_class: 'stuck-part' }), true);
  assert.equal(isWritten({ type: 'id', class_field: 'thing_class' }), true);
  assert.equal(isWritten({ type: 'id', thing_class: 'container' }), false);
  assert.equal(isWritten({ type: 'text' }), false);
});

test('the point of a decimal moves exactly, both ways', () => {
  assert.equal(shift('1250', -3), '1.25');
  assert.equal(shift('1', -3), '0.001');
  assert.equal(shift('0.062', 3), '62');
  assert.equal(shift('-12345.5', -3), '-12.3455');
  assert.equal(shift('0', -3), '0');
});

test('zeros that say nothing are dropped', () => {
  assert.equal(plain('007.50'), '7.5');
  assert.equal(plain('-0'), '0');
  assert.equal(plain('100'), '100');
});

test('an unfinished number is no decimal', () => {
  for (const text of ['', '-', '62.', '.5', '1e3', '1,5']) assert.equal(isDecimal(text), false);
  for (const text of ['0', '62', '-1.5']) assert.equal(isDecimal(text), true);
});

test('five digits and more are grouped, four are not', () => {
  assert.equal(grouped('1250'), '1250');
  assert.equal(spaced(grouped('1234567.125')), '1 234 567.125');
});

test('a volume is echoed in litres', () => {
  assert.equal(spaced(echo('1250', ml)), '1250 mL = 1.25 L');
  assert.equal(spaced(echo('12', { id: '1', symbol: '' })), '12');
  assert.equal(spaced(litres(84312.5)), '84.3125 L');
});

test('the keypad keeps at most three places and seven digits, and one point', () => {
  const type = (keys) => [...keys].reduce((text, key) => pressed(text, key), '');
  assert.equal(type('0062'), '62');
  assert.equal(type('1.23456'), '1.234');
  assert.equal(type('1.2.3'), '1.23');
  assert.equal(type('.5'), '0.5');
  assert.equal(type('123456789'), '1234567');
  assert.equal(pressed('62', 'back'), '6');
  assert.equal(pressed(pressed('5', 'sign'), 'sign'), '5');
});

test('an unusual number is said in words', () => {
  const say = (text) => texts.confirm.words(text, ml);
  assert.equal(say('12500'), 'Twelve thousand five hundred millilitres');
  assert.equal(say('6001.5'), 'Six thousand and one point five millilitres');
  assert.equal(say('0.05'), 'Zero point zero five millilitres');
  assert.equal(say('-21'), 'Minus twenty-one millilitres');
});

test('ids are UUIDs of version 7, in order of time and never the same', () => {
  const ids = Array.from({ length: 100 }, () => uuid7(kMoment));
  for (const id of ids) {
    assert.match(id, /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/);
    assert.equal(id.slice(0, 13), '017f22e2-79b0');
  }
  assert.equal(new Set(ids).size, ids.length);
  assert.ok(uuid7(kMoment) < uuid7(kMoment + 1));
});

test('a moment carries the offset of this machine and names the same instant', () => {
  const date = new Date(kMoment);
  assert.match(withOffset(date), /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d[+-]\d\d:\d\d$/);
  assert.equal(Date.parse(withOffset(date)), date.getTime());
});

test('months are counted back over the turn of the year', () => {
  assert.deepEqual(lastMonths(new Date(2026, 0, 31), 3), ['2026-01', '2025-12', '2025-11']);
});

test('a draft starts with the last container, fluid and measure, never with a finding', () => {
  const last = { fields: { ...filled, volume_ml: 62, note: 'dark' } };
  assert.deepEqual(firstValues(form, last),
    { container: 'w1', fluid: 'mineral-oil', measured_by: 'jug' });
  assert.deepEqual(firstValues(form, null), {});
});

test('what the first page asks is missing until it is given', () => {
  assert.deepEqual(missing(form, {}),
    ['container', 'volume_ml', 'fluid', 'measured_by', 'contamination']);
  assert.deepEqual(missing(form, filled), []);
  assert.deepEqual(missing(form, { ...filled, volume_ml: '-' }), ['volume_ml']);
});

test('a field is asked only where its condition holds', () => {
  const names = (values) => pageFields(form, values, 'more').map(({ name }) => name);
  assert.deepEqual(names(filled), ['note']);
  assert.deepEqual(names({ ...filled, contamination: 'water' }), ['water_share', 'note']);
});

test('a submission holds numbers as numbers and leaves out what is open or does not apply', () => {
  const values = { ...filled, water_share: 'half', note: '' };
  assert.deepEqual(submission(form, values, { id: 'i', occurredAt: 't', confirmed: [] }), {
    id: 'i',
    kind: 'oil-drained',
    occurred_at: 't',
    fields: { ...filled, volume_ml: 62 },
  });
  const again = { id: 'i', occurredAt: 't', confirmed: ['volume_ml'] };
  assert.deepEqual(submission(form, values, again).confirmed, ['volume_ml']);
});

test('faults are sorted to their fields, to be confirmed, and about the whole', () => {
  const sorted = sortFaults([
    { pointer: '/fields/volume_ml', code: 'needs_confirmation', detail: 'unusual' },
    { pointer: '/fields/container', code: 'unknown', detail: 'no such container' },
    { pointer: '/occurred_at', code: 'future', detail: 'in the future' },
  ]);
  assert.deepEqual(sorted.byField, { container: 'no such container' });
  assert.deepEqual(sorted.confirm.map(({ name, detail }) => [name, detail]),
    [['volume_ml', 'unusual']]);
  assert.deepEqual(sorted.general, ['in the future']);
});

test('the last values are distinct, newest first, without what was struck out', () => {
  const entry = (volume, corrections = []) => ({ fields: { volume_ml: volume }, corrections });
  const struck = entry(999, [{ fields: { action: 'struck-out' } }]);
  const entries = [entry(40), entry(62), entry(110), struck, entry(62), entry(85)];
  const volume = form.fields[1];
  assert.deepEqual(lastValues(entries, volume, 3).map(({ text }) => text), ['85', '62', '110']);
  const typed = { ...entry(1250), as_read: { volume_ml: { value: 1.25, unit: 'l' } } };
  assert.deepEqual(lastValues([typed], volume, 1), [{ text: '1.25', unit: 'l' }]);
});

test('a correction says what differs, and empties what is none any more', () => {
  const stood = { container: 'w1', volume_ml: 1850, contamination: 'water', water_share: 'half',
    note: 'x' };
  const before = draftOf(form.fields, stood);
  assert.equal(before.volume_ml, '1850');
  assert.deepEqual(changesBetween(form, before, before), {});
  assert.deepEqual(changesBetween(form, before, { ...before, volume_ml: '185', note: '' }),
    { volume_ml: 185, cleared: [{ cleared_field: 'note' }] });
  // What no longer applies falls away by itself.
  assert.deepEqual(changesBetween(form, before, { ...before, contamination: 'none' }),
    { contamination: 'none' });
});

test('rows of a corrected list are replaced as a whole', () => {
  const list = { name: 'loads', type: 'list', columns: [
    { name: 'container', type: 'id', thing_class: 'container' },
    { name: 'volume_ml', type: 'quantity', unit: ml }] };
  const before = draftOf([list], { loads: [{ container: 'w1', volume_ml: 10 }] });
  assert.deepEqual(before, { loads: [{ container: 'w1', volume_ml: '10' }] });
  const after = { loads: [...before.loads, { container: 'w2', volume_ml: '5' }] };
  assert.deepEqual(changesBetween({ fields: [list] }, before, after),
    { loads: [{ container: 'w1', volume_ml: 10 }, { container: 'w2', volume_ml: 5 }] });
});

test('a chosen moment has the offset of the workshop, on both sides of a clock change', () => {
  const zone = 'Europe/London';
  assert.equal(momentOn('2026-10-25', '00:30', zone), '2026-10-25T00:30:00+01:00');
  assert.equal(momentOn('2026-10-25', '02:30', zone), '2026-10-25T02:30:00+00:00');
  assert.equal(momentOn('2026-03-29', '00:59', zone), '2026-03-29T00:59:00+00:00');
  assert.equal(momentOn('2026-03-29', '02:00', zone), '2026-03-29T02:00:00+01:00');
  assert.equal(momentOn('2026-07-01', '08:00', 'America/New_York'), '2026-07-01T08:00:00-04:00');
  assert.equal(momentOn('2026-07-01', '08:00', 'Asia/Kolkata'), '2026-07-01T08:00:00+05:30');
  assert.equal(onClock('2026-07-01T08:00:05.250Z', zone), '2026-07-01T09:00:05+01:00');
});

test('days in a sentence of the daemon are written as people write them', () => {
  assert.equal(spaced(withDays('R1: due by 2026-12-18 (182 days).')), 'R1: due by 18 Dec 2026 (182 days).');
});

test('every text that a screen asks for is there', () => {
  const folder = new URL('../../forms/app/src/', import.meta.url);
  const missing = readdirSync(folder).flatMap((file) => {
    const source = readFileSync(new URL(file, folder), 'utf8');
    return [...source.matchAll(/\btexts\.(\w+)\.(\w+)/g)]
      .filter(([, group, name]) => !(name in Object(texts[group])))
      .map(([asked]) => `${file}: ${asked}`);
  });
  assert.deepEqual(missing, []);
});
