// What was recorded without a PIN: who has to answer for it, and how the answer shows.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { call, personOf, read, record, recorded } from './client.mjs';
import { pairedCookie, recordedWithoutPin } from './paired.mjs';
import { drain, freshId, newContainer, strikeOut, submission } from './submissions.mjs';

const kUnconfirmed = '/api/v1/entries/unconfirmed';
const can = freshId('u');
const technician = personOf('technician');
let cookie;

const claim = () =>
  recordedWithoutPin(cookie, technician, drain({ container: can, volume_ml: 5 }));
const answer = (authorship, ...seqs) => submission('entries-confirmed',
  { authorship, confirmed_entries: seqs.map((seq) => ({ entry_number: seq })) });

async function unconfirmed(as) {
  const { status, json, text } = await call('GET', kUnconfirmed, { as });
  assert.equal(status, 200, text);
  return json.entries.map(({ seq }) => seq);
}

async function shown(id) {
  const { person_verified, confirmed_by, authorship } = await read(`/api/v1/entries/${id}`);
  return [person_verified, confirmed_by, authorship];
}

async function refused(body, as, ...faults) {
  const { status, json, text } = await record(body, as);
  assert.equal(status, 422, text);
  assert.deepEqual(json.errors.map(({ pointer, code }) => `${pointer} ${code}`), faults);
}

describe('an entry without a PIN', () => {
  before(async () => {
    await recorded(newContainer(can), 'manager');
    cookie = await pairedCookie();
  });

  test('is listed to its person, to managers and to inspectors until it is answered for', async () => {
    const { id, seq } = await claim();
    for (const as of ['technician', 'manager', 'inspector']) {
      assert.ok((await unconfirmed(as)).includes(seq), as);
    }
    const receipt = await recorded(answer('mine', seq));
    assert.deepEqual(await shown(id), [false, receipt.seq, 'mine']);
    for (const as of ['technician', 'manager']) {
      assert.ok(!(await unconfirmed(as)).includes(seq), as);
    }
  });

  test('is not listed to another technician, who cannot answer for it', async () => {
    const { id, seq } = await recordedWithoutPin(cookie, personOf('manager'),
      drain({ container: can, volume_ml: 5 }));
    assert.ok(!(await unconfirmed('technician')).includes(seq));
    await refused(answer('mine', seq), 'technician',
      '/fields/confirmed_entries/0/entry_number others_entry');
    assert.deepEqual(await shown(id), [false, null, null]);
  });

  test('is disowned, which shows in the report of the month until the answer is taken back', async () => {
    const { id, seq } = await claim();
    const body = answer('not-mine', seq);
    const receipt = await recorded(body);
    assert.deepEqual(await shown(id), [false, receipt.seq, 'not-mine']);
    const { occurred_at: when } = await read(`/api/v1/entries/${id}`);
    const report = `/api/v1/reports/waste-month.json?month=${when.slice(0, 7)}`;
    const inQuality = async (list) => (await read(report)).data_quality[list]
      .find(({ entry }) => entry === seq);
    assert.equal((await inQuality('disowned')).confirmed_by, receipt.seq);
    assert.equal(await inQuality('unconfirmed'), undefined);
    await refused(strikeOut(body.id), 'manager', '/corrects others_entry');
    await recorded(strikeOut(body.id));
    assert.deepEqual(await shown(id), [false, null, null]);
    assert.ok(await inQuality('unconfirmed'));
  });

  test('is not answered for without a PIN', async () => {
    const { seq } = await claim();
    await assert.rejects(recordedWithoutPin(cookie, technician, answer('mine', seq)),
      /pin_needed/);
  });
});
