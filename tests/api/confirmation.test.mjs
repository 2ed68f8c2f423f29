// Weighty acts want the PIN again where it was shown longer ago than five minutes.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { call, personOf, read, signIn } from './client.mjs';
import { confirmedLongAgo } from './stale.mjs';
import { correction, freshId, newContainer, strikeOut, submission } from './submissions.mjs';
import { demo } from './transport.mjs';

const kConfirmation = '/api/v1/session/confirmation';
const manager = personOf('manager');

const idOf = async (as) => (await read('/api/v1/sessions', as)).sessions
  .find((one) => one.is_this).id;
const begun = async ({ id, pin }) => (await signIn(id, pin)).json;
async function stale(person = manager) {
  const session = await begun(person);
  await confirmedLongAgo(demo.folder, await idOf(session));
  return session;
}
const confirm = (as, pin) => call('POST', kConfirmation, { as, body: { pin } });

// Each with something that would be refused for its content, were it looked at.
const kWeighty = [
  ['adding a person', 'POST', '/people', { name: '', role: 'technician', pin: '1' }],
  ['a new PIN', 'PUT', `/people/${manager.id}/pin`, { pin: '1' }],
  ['who is active', 'PUT', '/people/p99999/active', { active: false }],
  ['a pairing code', 'POST', '/devices/pairing', { name: '' }],
  ['the end of a pairing', 'DELETE', '/devices/d99999'],
  ['a passphrase', 'PUT', '/session/passphrase', { passphrase: '1' }],
  ['a token', 'POST', '/tokens', { name: '' }],
  ['the end of a token', 'DELETE', '/tokens/t99999'],
  ['an inspector\'s access', 'PUT', '/people/p99999/inspection', { scope: '' }],
  ['its end', 'DELETE', '/people/p99999/inspection'],
  ['local rules', 'PUT', '/rules/local', { toml: 'x' }],
  ['a calendar', 'POST', '/calendar', {}],
  ['its withdrawal', 'DELETE', '/calendar'],
  ['a signed report', 'POST', '/reports/none', { month: 'x' }],
  ['an import', 'POST', '/register/import', { toml: 'x' }],
];

describe('a session whose PIN was shown long ago', () => {
  let old;
  before(async () => { old = await stale(); });

  for (const [what, method, path, body] of kWeighty) {
    test(`is asked for it before ${what}`, async () => {
      const answer = await call(method, `/api/v1${path}`, { as: old, body });
      assert.equal(answer.status, 403, answer.text);
      assert.equal(answer.json.type, '/problems/confirmation-needed');
    });
  }

  test('is asked for it before the end of another\'s session, and not before that of its own',
    async () => {
      const technician = await begun(personOf('technician'));
      const refused = await call('DELETE', `/api/v1/sessions/${await idOf(technician)}`, { as: old });
      assert.equal(refused.json.type, '/problems/confirmation-needed');
      const own = await idOf(await begun(manager));
      assert.equal((await call('DELETE', `/api/v1/sessions/${own}`, { as: old })).status, 204);
    });

  test('is asked for it before what its form says, alone and among others', async () => {
    const workshop = submission('register-change', { thing_class: 'workshop', thing: 'site',
      act: 'changed', emergency_phone: '+49 30 555 0100' });
    const send = (body, as) => call('POST', '/api/v1/entries', { as, body });
    const alone = await send(workshop, old);
    assert.equal(alone.status, 403, alone.text);
    assert.equal(alone.json.type, '/problems/confirmation-needed');
    const can = newContainer(freshId('v'));
    const { json: { results } } = await send([workshop, can], old);
    assert.deepEqual(results.map(({ status }) => status), [403, 201]);
    assert.equal(results[0].problem.type, '/problems/confirmation-needed');
    assert.equal((await send(correction(can.id, { name: 'Other can' }), old)).status, 403);
    const fresh = await begun(manager);
    assert.equal((await send(workshop, fresh)).status, 201);
    assert.equal((await send(workshop, old)).status, 200); // it stands in the book already
    const hold = (act) => submission('hold', { hold: act, authority: 'Court of Auburg, 7 C 12',
      scope: 'All records of 2025' });
    const placed = hold('placed');
    assert.equal((await send(placed, old)).status, 201);
    assert.equal((await send(strikeOut(placed.id), old)).status, 403);
    const lifted = hold('lifted');
    assert.equal((await send(lifted, old)).status, 403);
    assert.equal((await send(lifted, fresh)).status, 201);
  });

  test('reads and records as before', async () => {
    const session = await read('/api/v1/session', old);
    assert.equal(session.confirmed_until, null);
    assert.equal((await call('GET', '/api/v1/levels', { as: old })).status, 200);
    assert.equal((await call('POST', '/api/v1/entries', { as: old, body: {} })).status, 422);
  });

  test('is confirmed by the right PIN only, and goes on under another token', async () => {
    const wrong = await confirm(old, '640318');
    assert.equal(wrong.status, 403);
    assert.equal(wrong.json.type, '/problems/forbidden');
    const right = await confirm(old, manager.pin);
    assert.equal(right.status, 200, right.text);
    assert.match(right.headers['set-cookie'][0], /^__Host-benchwarden_session=.*; HttpOnly; SameSite=Strict;/);
    assert.ok(right.headers['set-cookie'][0].includes(right.json.token));
    assert.equal((await call('GET', '/api/v1/session', { as: old })).status, 401);
    const left_s = (Date.parse(right.json.confirmed_until) - Date.now()) / 1000;
    assert.ok(left_s > 280 && left_s <= 301, right.json.confirmed_until);
    const done = await call('POST', '/api/v1/devices/pairing',
      { as: right.json, body: { name: freshId('Tablet ') } });
    assert.equal(done.status, 201, done.text);
  });
});

describe('confirming', () => {
  test('is nothing for nobody, and lifts no role', async () => {
    assert.equal((await call('POST', kConfirmation, { body: { pin: manager.pin } })).status, 401);
    const technician = personOf('technician');
    const session = await begun(technician);
    assert.equal((await confirm(session, manager.pin)).status, 403);
    const { json } = await confirm(session, technician.pin);
    assert.equal(json.role, 'technician');
    const refused = await call('POST', '/api/v1/devices/pairing', { as: json, body: { name: 'T' } });
    assert.equal(refused.json.type, '/problems/forbidden');
  });
});
