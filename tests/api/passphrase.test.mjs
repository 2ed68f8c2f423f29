// A PIN is enough on paired devices and on the machine itself only; from elsewhere it takes a
// passphrase. "Elsewhere" is a daemon behind a proxy on its machine.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { call, personOf, read, signIn } from './client.mjs';
import { proxiedDaemon } from './own_daemon.mjs';
import { freshId } from './submissions.mjs';

const kPhrase = 'seven tall reeds';
const kSession = '/api/v1/session';
const kPut = `${kSession}/passphrase`;

describe('from elsewhere', () => {
  let daemon;
  let office;
  before(async () => {
    daemon = await proxiedDaemon();
    [office] = daemon.persons;
  });
  after(() => daemon?.stop());

  const ask = (method, path, options = {}) =>
    call(method, path, { address: daemon.address, ...options });
  const enter = (body, headers) => ask('POST', kSession, { body, headers });

  /** A session of the manager and the cookie of a tablet paired by it. */
  async function pairedTablet() {
    const { json: as } = await enter({ person: office.id, passphrase: office.passphrase });
    const { json: { code } } = await ask('POST', '/api/v1/devices/pairing',
      { as, body: { name: freshId('Tablet ') } });
    const answer = await ask('POST', '/api/v1/devices', { body: { code } });
    return { as, id: answer.json.id, cookie: answer.headers['set-cookie'][0].split(';')[0] };
  }
  const on = (cookie) => ({ Cookie: cookie, Origin: daemon.address });

  test('a PIN is not even looked at, right or wrong, and the browser is told before', async () => {
    const { json } = await ask('GET', '/api/v1/device');
    assert.equal(json.sign_in_by, 'passphrase');
    for (const pin of [office.pin, '640318']) {
      const answer = await enter({ person: office.id, pin });
      assert.equal(answer.status, 403);
      assert.equal(answer.json.type, '/problems/passphrase-needed');
    }
    const unknown = await enter({ person: 'p99', pin: office.pin });
    assert.equal(unknown.json.type, '/problems/passphrase-needed');
  });

  test('the passphrase lets in, and no other text', async () => {
    const right = await enter({ person: office.id, passphrase: office.passphrase });
    assert.equal(right.status, 201, right.text);
    const { json: { sessions } } = await ask('GET', '/api/v1/sessions', { as: right.json });
    assert.equal(sessions.find((one) => one.is_this).place, 'elsewhere');
    for (const passphrase of [office.pin, kPhrase, '']) {
      const wrong = await enter({ person: office.id, passphrase });
      assert.equal(wrong.json.type, '/problems/forbidden', passphrase);
    }
    const both = await enter({ person: office.id, passphrase: kPhrase, pin: office.pin });
    assert.equal(both.status, 422);
  });

  test('a PIN is enough on a paired tablet, until its pairing ends', async () => {
    const { as, id, cookie } = await pairedTablet();
    const { json } = await ask('GET', '/api/v1/device', { headers: { Cookie: cookie } });
    assert.equal(json.sign_in_by, 'pin');
    const [, bench] = daemon.persons;
    const entered = await enter({ person: bench.id, pin: bench.pin }, on(cookie));
    assert.equal(entered.status, 201, entered.text);
    assert.equal((await ask('DELETE', `/api/v1/devices/${id}`, { as })).status, 204);
    const again = await enter({ person: bench.id, pin: bench.pin }, on(cookie));
    assert.equal(again.json.type, '/problems/passphrase-needed');
    assert.equal((await ask('GET', kSession, { as: entered.json })).status, 401);
  });

  test('wrong passphrases shut nobody out of a paired tablet', async () => {
    const { cookie } = await pairedTablet();
    const [, bench] = daemon.persons;
    let status = 403;
    for (let tries = 0; status === 403; tries += 1) {
      ({ status } = await enter({ person: bench.id, passphrase: kPhrase }));
      assert.ok(tries < 10);
    }
    assert.equal(status, 429);
    const right = await enter({ person: bench.id, passphrase: bench.passphrase });
    assert.equal(right.json.type, '/problems/locked-out');
    const tablet = await enter({ person: bench.id, pin: bench.pin }, on(cookie));
    assert.equal(tablet.status, 201, tablet.text);
  });

  test('a PIN confirms nothing', async () => {
    const { json: as } = await enter({ person: office.id, passphrase: office.passphrase });
    const pin = await ask('POST', `${kSession}/confirmation`, { as, body: { pin: office.pin } });
    assert.equal(pin.json.type, '/problems/passphrase-needed');
    const phrase = await ask('POST', `${kSession}/confirmation`,
      { as, body: { passphrase: office.passphrase } });
    assert.equal(phrase.status, 200, phrase.text);
  });
});

describe('a passphrase', () => {
  const { id, pin } = personOf('technician');
  const set = (as, passphrase) => call('PUT', kPut, { as, body: { passphrase } });

  test('is set by its owner when signed in, and ends their other sessions', async () => {
    const [one, other] = [(await signIn(id, pin)).json, (await signIn(id, pin)).json];
    assert.equal((await read(kSession, one)).has_passphrase, false);
    const answer = await set(one, kPhrase);
    assert.equal(answer.status, 204, answer.text);
    assert.equal((await read(kSession, one)).has_passphrase, true);
    assert.equal((await call('GET', kSession, { as: other })).status, 401);
    const entered = await call('POST', kSession, { body: { person: id, passphrase: kPhrase } });
    assert.equal(entered.status, 201, entered.text);
  });

  test('has 12 characters or more, and is not told again', async () => {
    const { json } = await signIn(id, pin);
    for (const bad of ['seven reeds', 'aaaaaaaaaaaaaaaa', 'x'.repeat(129), 12]) {
      const answer = await set(json, bad);
      assert.equal(answer.status, 422, answer.text);
      assert.equal(answer.json.errors[0].pointer, '/passphrase');
      assert.ok(typeof bad !== 'string' || !answer.text.includes(bad));
    }
    assert.equal((await call('PUT', kPut, { body: { passphrase: kPhrase } })).status, 401);
  });
});
