// The API as a program uses it: calls whose answers are held to the contract, and sessions.
import assert from 'node:assert/strict';
import { hold } from './contract.mjs';
import { demo, send } from './transport.mjs';

const sessions = new Map(); // by role

/** Headers that authenticate: "manager" and the like, a session, or nobody. */
async function credentials(as) {
  if (!as) return {};
  const { token } = typeof as === 'string' ? await session(as) : as;
  return { Authorization: `Bearer ${token}` };
}

/** `send` by somebody, held to the contract. JSON answers get `json`. A role's own session shows its
 *  PIN again where that is wanted. */
export async function call(method, path, options = {}) {
  const answer = await callOnce(method, path, options);
  const { as } = options;
  if (typeof as !== 'string' || answer.json?.type !== '/problems/confirmation-needed') return answer;
  const { pin } = personOf(as);
  const confirmed = await callOnce('POST', '/api/v1/session/confirmation', { as, body: { pin } });
  sessions.set(as, Promise.resolve(confirmed.json));
  return callOnce(method, path, options);
}

async function callOnce(method, path, { as, body, headers = {}, address } = {}) {
  const all = { ...(await credentials(as)), ...headers };
  const answer = await send(method, path, { body, headers: all, address });
  hold(method, path, answer, body);
  if (/json/.test(answer.headers['content-type'] ?? '')) answer.json = JSON.parse(answer.text);
  return answer;
}

/** The JSON of a call that must succeed. */
export async function read(path, as = 'manager') {
  const answer = await call('GET', path, { as });
  assert.equal(answer.status, 200, answer.text);
  return answer.json;
}

/** The first person of a role in the demo. */
export function personOf(role) {
  const person = demo.persons.find((one) => one.role === role);
  assert.ok(person, `the demo has no ${role}`);
  return person;
}

export function signIn(person, pin, address) {
  return call('POST', '/api/v1/session', { body: { person, pin }, address });
}

/** The session of the first person of a role, made once. */
export function session(role) {
  if (!sessions.has(role)) {
    const { id, pin } = personOf(role);
    sessions.set(role, signIn(id, pin).then((answer) => {
      assert.equal(answer.status, 201, answer.text);
      return answer.json;
    }));
  }
  return sessions.get(role);
}

export async function bookSize() {
  return (await call('GET', '/api/v1/health')).json.book_size;
}

export function record(body, as = 'technician') {
  return call('POST', '/api/v1/entries', { as, body });
}

/** The receipt of an entry that must be taken anew. */
export async function recorded(body, as = 'technician') {
  const answer = await record(body, as);
  assert.equal(answer.status, 201, answer.text);
  return answer.json;
}
