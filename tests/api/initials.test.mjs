// A workshop may show the initials of its people in place of their names.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { call } from './client.mjs';
import { proxiedDaemon } from './own_daemon.mjs';
import { submission } from './submissions.mjs';

describe('with names_shown = "initials"', () => {
  let daemon;
  let as;
  before(async () => {
    daemon = await proxiedDaemon('names_shown = "initials"\n');
    const [{ id, passphrase }] = daemon.persons;
    const answer = await ask('POST', '/api/v1/session', { body: { person: id, passphrase } });
    assert.equal(answer.json.name, 'O. (p1)');
    as = answer.json;
  });
  after(() => daemon?.stop());
  const ask = (method, path, options = {}) =>
    call(method, path, { address: daemon.address, ...options });
  const ok = async (method, path, options) => {
    const answer = await ask(method, path, { as, ...options });
    assert.ok(answer.status < 300, answer.text);
    return answer.json;
  };

  test('nobody learns a name before signing in', async () => {
    const { people } = await ok('GET', '/api/v1/people', { as: undefined });
    assert.deepEqual(people.map((one) => one.name), ['O. (p1)', 'B. A. (p2)', 'V. (p3)']);
  });

  test('entries and reports have initials', async () => {
    const room = submission('register-change', { thing_class: 'room', thing: 'bench-room',
      act: 'added', name: 'Bench room', volume_m3: 60 });
    const { id } = await ok('POST', '/api/v1/entries', { body: room });
    assert.equal((await ok('GET', `/api/v1/entries/${id}`)).person_name, 'O. (p1)');
    const { text } = await ask('GET', '/api/v1/reports/audit-pack.html?from=2026-01-01&to=2026-12-31', { as });
    assert.match(text, /O\. \(p1\)/);
    assert.doesNotMatch(text, /Office|Bench A|Visitor/);
  });

  test('managers see whom they let in', async () => {
    const { people } = await ok('GET', '/api/v1/people/accounts');
    assert.deepEqual(people.map((one) => one.name), ['Office', 'Bench A', 'Visitor']);
  });
});
