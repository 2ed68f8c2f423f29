// The parts of the outbox that need no page: waiting, what an answer means, what goes together.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Backoff } from '../../forms/app/src/backoff.js';
import { firstBatch, needOf, outcomeOf, ready, sentBody, withFollowers } from
  '../../forms/app/src/outcome.js';

const row = (id, more = {}) => ({ id, state: 'waiting', device: null, device_seq: null, person: 'p2',
  claimed: false, offset: null, body: { id, corrects: more.corrects }, ...more });
const ids = (rows) => rows.map(({ id }) => id);

test('waits grow from one second to a minute and stay there until an answer came', () => {
  const backoff = new Backoff(() => 0.5);
  const waits = Array.from({ length: 9 }, () => backoff.next());
  assert.deepEqual(waits, [1000, 2000, 4000, 8000, 16000, 32000, 60000, 60000, 60000]);
  backoff.reset();
  assert.equal(backoff.next(), 1000);
});

test('waits are a quarter off to either side, and as long as the daemon asked for', () => {
  assert.equal(new Backoff(() => 0).next(), 750);
  assert.equal(new Backoff(() => 1).next(), 1250);
  assert.equal(new Backoff(() => 0.5).next(30000), 30000);
});

test('only what says something of the entry ends its waiting', () => {
  for (const status of [200, 201]) assert.equal(outcomeOf(status), 'accepted');
  for (const status of [401, 408, 425, 429, 500, 503]) assert.equal(outcomeOf(status), 'again');
  for (const status of [400, 403, 404, 413, 422]) assert.equal(outcomeOf(status), 'refused');
  assert.equal(outcomeOf(409, { type: '/problems/id-conflict' }), 'refused');
  assert.equal(outcomeOf(409, { type: '/problems/in-progress' }), 'again');
});

test('a correction never goes with what it corrects, nor before what was refused', () => {
  const rows = [row('a'), row('b'), row('c', { corrects: 'b' }), row('d')];
  assert.deepEqual(ids(firstBatch(rows)), ['a', 'b']);
  const refused = [row('a', { state: 'attention' }), row('b', { corrects: 'a' }),
    row('c', { corrects: 'b' }), row('d')];
  assert.deepEqual(ids(ready(refused)), ['d']);
  assert.deepEqual(withFollowers(refused, 'a'), ['a', 'b', 'c']);
});

test('what corrects an entry that may not go waits with it', () => {
  const rows = [row('a'), row('b', { corrects: 'a', person: 'p3' }), row('c', { person: 'p3' })];
  assert.deepEqual(ids(ready(rows, ({ person }) => person === 'p3')), ['c']);
});

test('a person has to see to what was refused, and to what only a paired tablet may send', () => {
  const people = [{ id: 'p2' }];
  assert.equal(needOf(row('a', { state: 'attention' }), true, people), 'refused');
  assert.equal(needOf(row('a', { claimed: true }), true, people), null);
  assert.equal(needOf(row('a', { claimed: true }), false, people), 'unclaimed');
  assert.equal(needOf(row('a'), false, people), null);
  assert.equal(needOf(row('a', { person: 'p9' }), false, people), 'stranded');
  assert.equal(needOf(row('a', { person: 'p9' }), true, people), null); // it is sent, and refused
  assert.equal(needOf(row('a', { person: 'p9' }), false, []), null); // nobody is known yet
});

test('a request holds at most twenty entries, and fewer where they are long', () => {
  const many = Array.from({ length: 30 }, (_, index) => row(String(index)));
  assert.equal(firstBatch(many).length, 20);
  const long = many.map((one) => ({ ...one, body: { id: one.id, note: 'x'.repeat(20000) } }));
  assert.equal(firstBatch(long).length, 2);
  assert.equal(firstBatch(many, 1).length, 1);
});

test('an entry names its person, and on a paired tablet its own number', () => {
  const claimed = row('a', { device: 'd1', device_seq: 7, claimed: true, offset: 40 });
  assert.deepEqual(sentBody(claimed, 'd1', 99), { id: 'a', corrects: undefined,
    clock_offset_ms: 40, device_seq: 7, person: 'p2', claimed: true });
  assert.deepEqual(sentBody(row('b'), null, 99), { id: 'b', corrects: undefined, person: 'p2',
    clock_offset_ms: 99 });
  assert.deepEqual(sentBody(row('c'), null, null), { id: 'c', corrects: undefined, person: 'p2' });
  const later = sentBody(row('d', { device: 'd1', device_seq: 8 }), 'd2', 40);
  assert.equal(later.device_seq, undefined); // it is of a pairing that has ended
});
