// Sessions: who sees which, and how they are ended.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { call, personOf, read, signIn } from './client.mjs';
import { pairedCookie } from './paired.mjs';
import { demo } from './transport.mjs';

const kSessions = '/api/v1/sessions';
const [technician, manager] = ['technician', 'manager'].map(personOf);

const begun = async ({ id, pin }) => {
  const answer = await signIn(id, pin);
  assert.equal(answer.status, 201, answer.text);
  return answer.json;
};
const own = async (as) => (await read(kSessions, as)).sessions.find((one) => one.is_this);
const alive = async (as) => (await call('GET', '/api/v1/session', { as })).status === 200;
const end = (id, as) => call('DELETE', `${kSessions}/${id}`, { as });

describe('the list of sessions', () => {
  test('shows to a manager everybody\'s, to others their own', async () => {
    const [bench, office] = [await begun(technician), await begun(manager)];
    const mine = (await read(kSessions, bench)).sessions;
    assert.ok(mine.every((one) => one.person === technician.id));
    const all = (await read(kSessions, office)).sessions;
    assert.ok(all.some((one) => one.person === technician.id));
    assert.deepEqual(all.filter((one) => one.is_this).map((one) => one.person), [manager.id]);
    const one = await own(bench);
    assert.equal(one.place, 'machine');
    assert.equal(one.device, null);
    assert.ok(Date.parse(one.last_seen_at) >= Date.parse(one.began_at));
  });

  test('names the paired tablet a session was begun on', async () => {
    const cookie = await pairedCookie();
    const headers = { Cookie: cookie, Origin: new URL(demo.address).origin };
    const { json } = await call('POST', '/api/v1/session',
      { body: { person: technician.id, pin: technician.pin }, headers });
    const one = await own(json);
    assert.equal(one.place, 'device');
    const { json: { device } } = await call('GET', '/api/v1/device', { headers: { Cookie: cookie } });
    assert.deepEqual(one.device, device);
  });
});

describe('a session is ended', () => {
  test('by its own person', async () => {
    const [one, other] = [await begun(technician), await begun(technician)];
    const { id } = await own(one);
    assert.equal((await end(id, other)).status, 204);
    assert.ok(!await alive(one));
    assert.ok(await alive(other));
    assert.equal((await end(id, other)).status, 404);
  });

  test('by a manager, whoever it is of, and that is told', async () => {
    const [one, office] = [await begun(technician), await begun(manager)];
    const { id } = await own(one);
    assert.equal((await end(id, office)).status, 204);
    assert.ok(!await alive(one));
    const { changes: [line] } = await read('/api/v1/people/accounts');
    assert.deepEqual({ ...line, at: '' }, { at: '', by: manager.id, person: technician.id,
      what: 'session-ended', device: null, thing: id });
  });

  test('by nobody else, who is told what is told of one that is none', async () => {
    const [bench, office] = [await begun(technician), await begun(manager)];
    const { id } = await own(office);
    const refused = await end(id, bench);
    assert.equal(refused.status, 404);
    assert.deepEqual(refused.json, (await end('s999999', bench)).json);
    assert.ok(await alive(office));
  });
});
