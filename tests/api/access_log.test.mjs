// What succeeded at the gate stands in the book; refusals stand in a bounded log, and a day of them is
// one entry.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { after, before, describe, test } from 'node:test';
import { bookSize, call, personOf, read, signIn } from './client.mjs';
import { proxiedDaemon } from './own_daemon.mjs';
import { pairedCookie } from './paired.mjs';
import { freshId } from './submissions.mjs';

const manager = personOf('manager');
const day = (ahead) => new Date(Date.now() + ahead * 86400000).toISOString().slice(0, 10);

/** The access changes that a piece of work told the book, without what is new each time. */
async function toldBy(work) {
  const from = await bookSize();
  await work();
  const { entries } = await read(`/api/v1/entries?kind=access-change&cursor=${from}`);
  return entries.map(({ fields, person }) => {
    assert.equal(person, 'machine');
    return fields;
  });
}
const as = 'manager';
const by = { account: manager.id, done_by: manager.id };

describe('the book is told, in ids', () => {
  test('of people, their role, PIN and access', async () => {
    const name = freshId('Trainee ');
    let id;
    const told = await toldBy(async () => {
      ({ json: { id } } = await call('POST', '/api/v1/people',
        { as, body: { name, role: 'technician', pin: '482917' } }));
      await call('PUT', `/api/v1/people/${id}/pin`, { as, body: { pin: '736205' } });
      await call('PUT', `/api/v1/people/${id}/active`, { as, body: { active: false } });
      await call('PUT', `/api/v1/people/${id}/active`, { as, body: { active: true } });
    });
    const about = { account: id, done_by: manager.id };
    assert.deepEqual(told, [{ access_act: 'person-added', ...about, account_role: 'technician' },
      { access_act: 'pin-reset', ...about }, { access_act: 'deactivated', ...about },
      { access_act: 'activated', ...about }]);
    assert.ok(!JSON.stringify(told).includes(name));
  });

  test('of devices, tokens and sessions ended by a manager', async () => {
    const told = await toldBy(async () => {
      const cookie = await pairedCookie();
      const { json: { device } } = await call('GET', '/api/v1/device', { headers: { Cookie: cookie } });
      await call('DELETE', `/api/v1/devices/${device.id}`, { as });
      const { json: token } = await call('POST', '/api/v1/tokens', { as,
        body: { name: freshId('Script '), scope: 'reads', last_day: day(9) } });
      await call('DELETE', `/api/v1/tokens/${token.id}`, { as });
      const technician = personOf('technician');
      const { json: session } = await signIn(technician.id, technician.pin);
      const { sessions } = await read('/api/v1/sessions', session);
      await call('DELETE', `/api/v1/sessions/${sessions.find((one) => one.is_this).id}`, { as });
    });
    assert.deepEqual(told.map(({ access_act }) => access_act),
      ['device-paired', 'device-ended', 'token-made', 'token-ended', 'session-ended']);
    const [paired, ended, made, over, session] = told;
    assert.match(paired.access_thing, /^d\d+$/);
    assert.deepEqual(ended, { ...by, access_act: 'device-ended', access_thing: paired.access_thing });
    assert.deepEqual(made, { ...by, access_act: 'token-made', access_thing: made.access_thing,
      access_scope: 'reads', access_until: day(9) });
    assert.equal(over.access_thing, made.access_thing);
    assert.deepEqual(session, { access_act: 'session-ended', access_thing: session.access_thing,
      account: personOf('technician').id, done_by: manager.id });
  });

  test('of an inspector\'s access', async () => {
    const told = await toldBy(async () => {
      const { json: { id } } = await call('POST', '/api/v1/people', { as,
        body: { name: freshId('Visitor '), role: 'inspector', pin: '482917' } });
      await call('PUT', `/api/v1/people/${id}/inspection`, { as,
        body: { first_day: day(0), last_day: day(3), scope: 'waste' } });
      await call('DELETE', `/api/v1/people/${id}/inspection`, { as });
    });
    const [added, given, ended] = told;
    assert.equal(added.account_role, 'inspector');
    assert.deepEqual(given, { access_act: 'inspection-given', access_thing: given.access_thing,
      access_scope: 'waste', access_until: day(3), account: added.account, done_by: manager.id });
    assert.equal(ended.access_thing, given.access_thing);
  });

  test('of nothing that was refused', async () => {
    assert.deepEqual(await toldBy(async () => {
      await signIn(manager.id, '640318');
      await call('POST', '/api/v1/people', { as, body: { name: '', role: 'technician', pin: '1' } });
      await call('POST', '/api/v1/devices', { body: { code: 'WRONG' } });
    }), []);
  });
});

const kYesterday = `
import sqlite3, sys
with sqlite3.connect(sys.argv[1], timeout=20) as access:
    for table, column in (('refusal', 'at_ms'), ('sign_in', 'at_ms'), ('access_count', 'slot_ms')):
        access.execute(f'UPDATE {table} SET {column} = {column} - 86400000')
`;

describe('a day of sign-ins and refusals', () => {
  let daemon;
  before(async () => { daemon = await proxiedDaemon(); });
  after(() => daemon?.stop());

  test('is one entry, however much was tried', async () => {
    const ask = (method, path, options) => call(method, path, { address: daemon.address, ...options });
    const [office] = daemon.persons;
    const enter = (body) => ask('POST', '/api/v1/session', { body });
    await enter({ person: office.id, passphrase: office.passphrase });
    await enter({ person: office.id, passphrase: 'seven tall reeds' });
    await enter({ person: 'p99', passphrase: 'seven tall reeds' });
    const { json: technician } = await enter({ person: 'p2', passphrase: daemon.persons[1].passphrase });
    await ask('GET', '/api/v1/tokens', { as: technician });
    for (let tries = 0; tries < 70; tries += 1) {
      await ask('GET', '/api/v1/health', { headers: { Host: 'other.example' } });
      await ask('POST', '/api/v1/session', { body: {}, headers: { Origin: 'http://other.example' } });
    }
    await enter({ person: office.id, pin: office.pin });
    await ask('POST', '/api/v1/devices', { body: { code: 'WRONG' } });
    await daemon.restart(() => execFileSync('/usr/bin/python3',
      ['-B', '-c', kYesterday, `${daemon.folder}/access.db`]));
    const { json: session } = await enter({ person: office.id, passphrase: office.passphrase });
    const { json: { entries } } = await ask('GET', '/api/v1/entries?kind=access-day', { as: session });
    assert.equal(entries.length, 1);
    const { log_day, log_digest, log_line_count: lines, ...counts } = entries[0].fields;
    assert.ok(lines >= 54 && lines <= 144, `${lines} lines`); // 50 of a flood between two writings
    assert.equal(log_day, day(-1));
    assert.match(log_digest, /^[0-9a-f]{64}$/);
    assert.deepEqual(counts, { sign_in_count: 2, wrong_secret_count: 1, unknown_person_count: 1,
      locked_out_count: 0, other_refusal_count: 2, wrong_role_count: 1, foreign_host_count: 70, foreign_origin_count: 70,
      too_many_count: 0 });
    // As if it had ended after the book was told and before the counts were forgotten.
    await daemon.restart(() => execFileSync('/usr/bin/python3',
      ['-B', '-c', kYesterday, `${daemon.folder}/access.db`]));
    const { json: again } = await enter({ person: office.id, passphrase: office.passphrase });
    const { json: after } = await ask('GET', '/api/v1/entries?kind=access-day', { as: again });
    assert.equal(after.entries.length, 1);
  });

  test('people entered on the machine are told by the daemon', async () => {
    const { json: session } = await call('POST', '/api/v1/session', { address: daemon.address,
      body: { person: 'p1', passphrase: daemon.persons[0].passphrase } });
    const { json } = await call('GET', '/api/v1/entries?kind=access-change',
      { address: daemon.address, as: session });
    const acts = json.entries.map(({ fields }) =>
      `${fields.done_by} ${fields.access_act} ${fields.account}`);
    assert.deepEqual(acts.slice(0, 3), ['machine person-added p1', 'machine passphrase-set p1',
      'machine person-added p2']);
  });
});
