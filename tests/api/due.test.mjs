// What is due, and the calendar feed: read by a calendar library, opened by its secret alone.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, test } from 'node:test';
import { promisify } from 'node:util';
import ICAL from 'ical.js';
import { call, read, recorded, signIn } from './client.mjs';
import { drain, freshId, newContainer, strikeOut, submission } from './submissions.mjs';
import { binary, demo } from './transport.mjs';

const kFeed = '/api/v1/calendar';
const run = promisify(execFile);

const planned = (collection, day, fields = {}) =>
  submission('collection', { collection, stage: 'planned', planned_date: day, ...fields });

async function made(as = 'manager') {
  const answer = await call('POST', kFeed, { as, body: {} });
  assert.equal(answer.status, 201, answer.text);
  return answer.json.path;
}

async function events(path) {
  const answer = await call('GET', path);
  assert.equal(answer.status, 200, answer.text);
  const calendar = new ICAL.Component(ICAL.parse(answer.text));
  return calendar.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
}

const uids = async (path) => new Map((await events(path)).map((one) => [one.summary, one.uid]));
/** The sentences as the calendar has them: it calls persons by their ids. */
const sentencesOf = ({ items }) => items.map(({ subject, sentence }) => {
  const [thingClass, id] = subject.split('/');
  return thingClass === 'person' ? sentence.replace(/^[^:]+/, id) : sentence;
});

describe('what is due', () => {
  test('is a planned collection, in a sentence, until it is struck out', async () => {
    const collection = freshId('c');
    const entry = planned(collection, '2031-02-28', { loads: [{ container: 'w2', volume_ml: 10 }] });
    const { seq } = await recorded(entry);
    const { items } = await read('/api/v1/due', 'technician');
    const item = items.find((one) => one.subject === `collection/${collection}`);
    const [{ name }] = (await read('/api/v1/register/container')).things
      .filter((thing) => thing.id === 'w2').map((thing) => thing.attributes ?? thing);
    assert.deepEqual(item, {
      day: '2031-02-28', rule: 'planned-collection', subject: `collection/${collection}`, part: '', confidence: null,
      sentence: `Collection ${collection} of ${name}: planned for 28 February 2031`,
      citation: `Entry ${seq} of the book`,
      entry: seq,
    });
    await recorded(strikeOut(entry.id));
    const { items: left } = await read('/api/v1/due');
    assert.ok(!left.some((one) => one.subject === `collection/${collection}`));
  });

  test('stands by day, for an inspector too', async () => {
    await recorded(planned(freshId('c'), '2031-06-02'));
    await recorded(planned(freshId('c'), '2031-05-01'));
    const { today, items } = await read('/api/v1/due', 'inspector');
    assert.match(today, /^\d{4}-\d\d-\d\d$/);
    const days = items.map((item) => item.day);
    assert.ok(days.length >= 2);
    assert.deepEqual(days, [...days].sort());
  });

  test('need not be sent again unchanged', async () => {
    const { headers } = await call('GET', '/api/v1/due', { as: 'manager' });
    const again = { 'If-None-Match': headers.etag };
    const same = await call('GET', '/api/v1/due', { as: 'manager', headers: again });
    assert.equal(same.status, 304);
    await recorded(planned(freshId('c'), '2031-07-01'));
    const other = await call('GET', '/api/v1/due', { as: 'manager', headers: again });
    assert.equal(other.status, 200);
  });
});

describe('the calendar feed', () => {
  test('holds the list of what is due, as a calendar library reads it', async () => {
    const [collection, can] = [freshId('c'), freshId('x')];
    const name = 'Fässchen, klein; "A\\B" – Öl für die Süßwasserpumpe €€€€€€€€€€€€€€€€€€€€€€€€€';
    await recorded(newContainer(can, { name }), 'manager');
    const loads = [{ container: can, volume_ml: 10 }];
    const plan = planned(collection, '2032-02-29', { loads });
    const { recorded_at: at } = await recorded({ ...plan, confirmed: ['loads/0/volume_ml'] });
    const path = await made();
    const due = await read('/api/v1/due');
    const found = await events(path);
    assert.deepEqual(found.map((one) => one.summary), sentencesOf(due));
    const one = found.find((event) => event.summary.includes(collection));
    assert.ok(one.summary.includes(name), one.summary);
    assert.equal(one.startDate.toString(), '2032-02-29');
    assert.equal(one.startDate.isDate, true);
    assert.equal(one.endDate.toString(), '2032-03-01');
    const stamp = one.component.getFirstPropertyValue('dtstamp').toJSDate().toISOString();
    assert.equal(stamp.slice(0, 19), new Date(at).toISOString().slice(0, 19));
    const { headers, text } = await call('GET', path);
    assert.equal(headers['content-type'], 'text/calendar; charset=utf-8');
    assert.equal(headers['cache-control'], 'private, no-cache');
    const calendar = new ICAL.Component(ICAL.parse(text));
    assert.equal(calendar.getFirstPropertyValue('version'), '2.0');
    assert.equal(calendar.getFirstPropertyValue('method'), null);
    const refresh = calendar.getFirstProperty('refresh-interval');
    assert.equal(refresh.type, 'duration');
    assert.equal(ICAL.Duration.fromString(refresh.getFirstValue().toString()).toSeconds(), 6 * 3600);
    for (const person of demo.persons) assert.ok(!text.includes(person.name), person.name);
  });

  test('keeps its UIDs, also when the book grows and days move', async () => {
    const [moved, other] = [freshId('c'), freshId('c')];
    await recorded(planned(moved, '2031-09-01'));
    const path = await made();
    const first = await uids(path);
    assert.equal(new Set(first.values()).size, first.size);
    assert.deepEqual(await uids(path), first);
    await recorded(drain()); // days of forecasts may move by it
    assert.deepEqual([...(await uids(path)).values()].sort(), [...first.values()].sort());
    await recorded(planned(other, '2031-08-01'));
    await recorded(planned(moved, '2031-09-15'));
    const second = await uids(path);
    const uidOf = (map, text) => [...map].find(([summary]) => summary.includes(text))[1];
    assert.equal(uidOf(second, moved), uidOf(first, moved));
    assert.notEqual(uidOf(second, other), uidOf(second, moved));
  });

  test('answers 304 until something in it changes', async () => {
    const path = await made();
    const { headers: { etag } } = await call('GET', path);
    const get = () => call('GET', path, { headers: { 'If-None-Match': etag } });
    assert.equal((await get()).status, 304);
    await recorded(submission('hold', { hold: 'placed', authority: 'Agency', scope: 'all' }),
      'manager');
    assert.equal((await get()).status, 304);
    await recorded(planned(freshId('c'), '2031-10-01'));
    assert.equal((await get()).status, 200);
  });

  test('is told of, without its secret', async () => {
    const path = await made();
    const { json, text } = await call('GET', kFeed, { as: 'manager' });
    assert.ok(Date.now() - Date.parse(json.made_at) < 60000);
    assert.ok(!text.includes(path.slice(kFeed.length + 1, -4)));
  });

  test('ends when a new one is made, and when it is ended', async () => {
    const first = await made();
    const second = await made();
    assert.equal((await call('GET', first)).status, 404);
    assert.equal((await call('GET', second)).status, 200);
    assert.equal((await call('DELETE', kFeed, { as: 'manager' })).status, 204);
    assert.equal((await call('GET', second)).status, 404);
    assert.deepEqual((await call('GET', kFeed, { as: 'manager' })).json, { made_at: null });
    assert.equal((await call('DELETE', kFeed, { as: 'manager' })).status, 204);
  });

  test('answers every wrong secret alike', async () => {
    const path = await made();
    const near = path.replace(/.\.ics$/, (end) => (end[0] === 'A' ? 'B.ics' : 'A.ics'));
    const answers = await Promise.all([near, `${kFeed}/x.ics`, `${kFeed}/${'x'.repeat(9000)}.ics`]
      .map((wrong) => call('GET', wrong)));
    for (const answer of answers) {
      assert.equal(answer.status, 404);
      assert.equal(answer.text, answers[0].text);
    }
  });

  test('takes nothing in the body', async () => {
    const answer = await call('POST', kFeed, { as: 'manager', body: { name: 'mine' } });
    assert.equal(answer.status, 422);
    assert.equal(answer.json.errors[0].pointer, '/name');
  });

  test('ends with the person who made it', async () => {
    const pin = '830617';
    const person = async (...words) => (await run(binary(),
      ['person', ...words, '--data', demo.folder])).stdout;
    await person('add', '--name', 'Feed office', '--role', 'manager', '--pin', pin);
    const { people } = await read('/api/v1/people');
    const { id } = people.find((one) => one.name === 'Feed office');
    const path = await made((await signIn(id, pin)).json);
    assert.equal((await call('GET', path)).status, 200);
    await person('deactivate', id);
    assert.equal((await call('GET', path)).status, 404);
    await person('activate', id);
    assert.equal((await call('GET', path)).status, 404);
    await person('deactivate', id);
  });

  test('leaves its secret in no log and no file', async () => {
    const path = await made();
    const secret = path.slice(kFeed.length + 1, -'.ics'.length);
    assert.equal(secret.length, 43);
    const calls = [path, `${path}?x=1`, `${path}x`, `${path}/x`, path.replace('.ics', '')];
    for (const target of calls) await call('GET', target);
    await call('POST', path, { as: 'manager', body: {} });
    const files = readdirSync(demo.folder).filter((name) => /\.log$|\.db|\.txt$/.test(name));
    assert.ok(files.includes('serve.log') && files.includes('access.db'), files.join());
    for (const name of files) {
      assert.ok(!readFileSync(join(demo.folder, name)).includes(secret), name);
    }
    assert.match(readFileSync(join(demo.folder, 'serve.log'), 'utf8'), /^Benchwarden /);
  });
});
