// The accounts of people, as their manager keeps them over the network.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { call, personOf, read, signIn } from './client.mjs';
import { freshId } from './submissions.mjs';

const kPeople = '/api/v1/people';
const kPin = '482917';
const kOtherPin = '736205';

const add = (body) => call('POST', kPeople, { as: 'manager', body });
const put = (id, what, body) => call('PUT', `${kPeople}/${id}/${what}`, { as: 'manager', body });

function refusedAt(answer, pointer, says) {
  assert.equal(answer.status, 422, answer.text);
  assert.deepEqual(answer.json.errors.map((error) => error.pointer), [pointer]);
  assert.match(answer.json.errors[0].detail, says);
}

describe('a person entered by a manager', () => {
  const name = freshId('Trainee ');
  const office = personOf('manager').id;
  let id;
  before(async () => {
    const answer = await add({ name, role: 'technician', pin: kPin });
    assert.equal(answer.status, 201, answer.text);
    id = answer.json.id;
    assert.deepEqual(answer.json, { id, name, role: 'technician', active: true, inspection: null });
  });

  test('signs in, and is among the names and the accounts', async () => {
    assert.equal((await signIn(id, kPin)).status, 201);
    const { people } = (await call('GET', kPeople)).json;
    assert.deepEqual(people.find((one) => one.id === id), { id, name, role: 'technician' });
    const accounts = await read(`${kPeople}/accounts`);
    assert.deepEqual(accounts.people.find((one) => one.id === id),
      { id, name, role: 'technician', active: true, inspection: null });
    const [line] = accounts.changes;
    assert.deepEqual({ ...line, at: '' },
      { at: '', by: office, person: id, what: 'person-added', device: null, thing: null });
  });

  test('gets a new PIN, which ends the sessions', async () => {
    const session = (await signIn(id, kPin)).json;
    const answer = await put(id, 'pin', { pin: kOtherPin });
    assert.equal(answer.status, 200, answer.text);
    assert.equal(answer.json.id, id);
    assert.equal((await call('GET', '/api/v1/session', { as: session })).status, 401);
    assert.equal((await signIn(id, kPin)).status, 403);
    assert.equal((await signIn(id, kOtherPin)).status, 201);
    const { refusals } = await read(`${kPeople}/accounts`);
    assert.deepEqual({ ...refusals[0], at: '' }, { at: '', person: id, reason: 'wrong-pin',
      address: '127.0.0.1' });
  });

  test('is let in no more when not active, and again when active', async () => {
    const session = (await signIn(id, kOtherPin)).json;
    const left = await put(id, 'active', { active: false });
    assert.equal(left.status, 200, left.text);
    assert.equal(left.json.active, false);
    assert.equal((await call('GET', '/api/v1/session', { as: session })).status, 401);
    assert.equal((await signIn(id, kOtherPin)).status, 403);
    refusedAt(await put(id, 'pin', { pin: kPin }), '/pin', /not active/);
    assert.equal((await put(id, 'active', { active: true })).json.active, true);
    assert.equal((await signIn(id, kOtherPin)).status, 201);
    assert.equal((await put(id, 'active', { active: false })).status, 200);
  });
});

describe('what is sent of a person', () => {
  const good = () => ({ name: freshId('Trainee '), role: 'technician', pin: kPin });

  test('names what cannot be used', async () => {
    refusedAt(await add({ ...good(), name: '' }), '/name', /1 to 80 characters/);
    refusedAt(await add({ ...good(), name: personOf('technician').name }), '/name',
      /has that name/);
    refusedAt(await add({ ...good(), role: 'owner' }), '/role',
      /'owner'.*technician, manager, inspector/);
    refusedAt(await add({ ...good(), pin: '123456' }), '/pin', /PIN/);
    refusedAt(await add({ ...good(), pin: 482917 }), '/pin', /must be text/);
    refusedAt(await add({ ...good(), colour: 'red' }), '/colour', /not known/);
    const { id } = personOf('technician');
    refusedAt(await put(id, 'pin', { pin: '1' }), '/pin', /PIN/);
    for (const active of [undefined, 'yes', null, 1]) {
      refusedAt(await put(id, 'active', { active }), '/active', /true or false/);
    }
    refusedAt(await put(id, 'active', { active: true, pin: kPin }), '', /'active' alone/);
    assert.equal((await put(id, 'active', 'true')).status, 400);
  });

  test('names nobody unknown', async () => {
    assert.equal((await put('p99999', 'pin', { pin: kPin })).status, 404);
    assert.equal((await put('p99999', 'active', { active: false })).status, 404);
  });

  test('leaves the last active manager in', async () => {
    const { people } = await read(`${kPeople}/accounts`);
    const managers = people.filter((one) => one.role === 'manager' && one.active);
    assert.equal(managers.length, 1);
    refusedAt(await put(managers[0].id, 'active', { active: false }), '/active',
      /last active manager/);
  });
});
