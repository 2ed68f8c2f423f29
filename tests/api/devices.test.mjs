// Paired tablets: the one-time code, the cookie, what they may hand in, and how a pairing ends.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { call, personOf, read, record, recorded } from './client.mjs';
import { drain, freshId, newContainer } from './submissions.mjs';
import { demo } from './transport.mjs';

const kDevices = '/api/v1/devices';
const kEntries = '/api/v1/entries';
const kOrigin = new URL(demo.address).origin;

async function pairing(name = freshId('Tablet ')) {
  const answer = await call('POST', `${kDevices}/pairing`, { as: 'manager', body: { name } });
  assert.equal(answer.status, 201, answer.text);
  return { name, ...answer.json };
}

const pair = (code) => call('POST', kDevices, { body: { code } });

/** A tablet that was paired: {id, name, cookie}; `send` posts from its browser. */
async function pairedTablet() {
  const { name, code } = await pairing();
  const answer = await pair(code);
  assert.equal(answer.status, 201, answer.text);
  const [cookie] = answer.headers['set-cookie'];
  return { ...answer.json, name, cookie: cookie.split(';')[0], setCookie: cookie };
}
const from = (tablet, more = {}) => ({ Cookie: tablet.cookie, Origin: kOrigin, ...more });
const sendFrom = (tablet, body) => call('POST', kEntries, { body, headers: from(tablet) });
const seenAs = async (tablet) =>
  (await call('GET', '/api/v1/device', { headers: { Cookie: tablet.cookie } })).json.device;
const listed = async (id) => (await read(kDevices)).devices.find((one) => one.id === id);

function refusedWith(answer, ...faults) {
  assert.equal(answer.status, 422, answer.text);
  assert.deepEqual(answer.json.errors.map(({ pointer, code }) => `${pointer} ${code}`), faults);
}

describe('a pairing code', () => {
  test('pairs one browser, once', async () => {
    const { name, code, ends_at, address, qr, set_up } = await pairing();
    assert.equal(address, `${demo.address}/#/pair/${code.replace('-', '')}`);
    const left_s = (Date.parse(ends_at) - Date.now()) / 1000;
    assert.ok(left_s > 500 && left_s <= 600, ends_at);
    const page = new URL(set_up.address);
    assert.equal(page.hostname, new URL(demo.address).hostname);
    assert.equal(page.port, new URL(process.env.BENCHWARDEN_SET_UP).port);
    assert.match(set_up.ca_fingerprint, /^([0-9A-F]{2}:){31}[0-9A-F]{2}$/);
    assert.ok(set_up.qr.every((row) => row.length === set_up.qr.length));
    assert.ok(qr.length >= 21 && qr.every((row) => row.length === qr.length));
    assert.ok(qr[0].startsWith('1111111') && qr[0].endsWith('1111111'));

    const answer = await pair(code.toLowerCase());
    assert.equal(answer.status, 201, answer.text);
    assert.equal(answer.json.name, name);
    assert.match(answer.headers['set-cookie'][0], new RegExp('^__Host-benchwarden_device=[\\w-]{43}; ' +
      'HttpOnly; SameSite=Strict; Path=/; Max-Age=34560000; Secure$'));
    assert.equal((await pair(code)).status, 403);
  });

  test('outlasts a stranger\'s tries, and says nothing else than that it does not fit', async () => {
    const { code } = await pairing();
    const details = new Set();
    for (let tries = 0; tries < 50; tries += 1) {
      const wrong = await pair('WRONG');
      assert.equal(wrong.status, 403);
      assert.equal(wrong.headers['set-cookie'], undefined);
      details.add(wrong.json.detail);
    }
    assert.equal((await pair(code)).status, 201);
    const spent = await pair(code);
    assert.equal(spent.status, 403);
    details.add(spent.json.detail);
    assert.equal(details.size, 1, [...details].join(' | '));
  });

  test('is replaced by the next', async () => {
    const first = await pairing();
    const second = await pairing();
    assert.equal((await pair(first.code)).status, 403);
    assert.equal((await pair(second.code)).status, 201);
  });

  test('wants a name that no paired tablet has', async () => {
    const tablet = await pairedTablet();
    for (const name of ['', ' ', 'x'.repeat(81), tablet.name]) {
      const answer = await call('POST', `${kDevices}/pairing`, { as: 'manager', body: { name } });
      assert.equal(answer.status, 422, name);
      assert.equal(answer.json.errors[0].pointer, '/name');
    }
  });
});

describe('a paired tablet', () => {
  let tablet;
  const can = freshId('v');
  const [technician, manager, inspector] = ['technician', 'manager', 'inspector'].map(personOf);
  const numbered = (number, more) => drain({ container: can, volume_ml: 5 },
    { device_seq: number, person: technician.id, claimed: true, ...more });
  const entryOf = (id) => read(`${kEntries}/${id}`);

  before(async () => {
    await recorded(newContainer(can), 'manager');
    tablet = await pairedTablet();
  });

  test('is told what it is, and its cookie is renewed', async () => {
    assert.deepEqual(await seenAs(tablet), { id: tablet.id, name: tablet.name });
    const again = await call('GET', '/api/v1/device', { headers: { Cookie: tablet.cookie } });
    assert.equal(again.headers['set-cookie'][0], tablet.setCookie);
    const none = await call('GET', '/api/v1/device');
    assert.deepEqual(none.json, { device: null, sign_in_by: 'pin' });
    assert.equal(none.headers['set-cookie'], undefined);
    assert.equal(await seenAs({ cookie: `__Host-benchwarden_device=${'A'.repeat(43)}` }), null);
  });

  test('hands in an entry without a session, in the name of a person', async () => {
    const body = numbered(1);
    const answer = await sendFrom(tablet, body);
    assert.equal(answer.status, 201, answer.text);
    const entry = await entryOf(body.id);
    assert.equal(entry.person, technician.id);
    assert.equal(entry.person_verified, false);
    assert.equal(entry.device, tablet.id);
    assert.equal(entry.device_seq, 1);
  });

  test('is named by what a person signed in records on it', async () => {
    const { pin, id } = technician;
    const session = await call('POST', '/api/v1/session',
      { body: { person: id, pin }, headers: from(tablet) });
    assert.equal(session.status, 201, session.text);
    const cookie = `${session.headers['set-cookie'][0].split(';')[0]}; ${tablet.cookie}`;
    const both = { cookie };
    const own = drain({ container: can, volume_ml: 5 }, { device_seq: 2, person: id });
    const others = numbered(3, { person: manager.id });
    assert.equal((await sendFrom(both, own)).status, 201);
    assert.equal((await sendFrom(both, others)).status, 201);
    const [first, second] = [await entryOf(own.id), await entryOf(others.id)];
    assert.deepEqual([first.person, first.person_verified, first.device],
      [id, true, tablet.id]);
    assert.deepEqual([second.person, second.person_verified, second.device],
      [manager.id, false, tablet.id]);
  });

  test('hands in an array, whoever is signed in on it', async () => {
    const session = await call('POST', '/api/v1/session',
      { body: { person: inspector.id, pin: inspector.pin }, headers: from(tablet) });
    const both = { cookie: `${session.headers['set-cookie'][0].split(';')[0]}; ${tablet.cookie}` };
    const bodies = [numbered(4), drain({ container: can })];
    const { status, json } = await sendFrom(both, bodies);
    assert.equal(status, 200);
    assert.deepEqual(json.results.map((one) => one.status), [201, 422]);
    assert.equal(json.results[1].problem.errors[0].code, 'not_allowed');
  });

  test('is answered as the first time when it sends the same again, as is anybody', async () => {
    const body = numbered(5);
    const first = (await sendFrom(tablet, body)).json;
    const again = await sendFrom(tablet, body);
    assert.equal(again.status, 200);
    assert.equal(again.json.seq, first.seq);
    assert.equal((await record(body, 'manager')).status, 200);
    const other = await sendFrom(tablet, { ...body, fields: { ...body.fields, volume_ml: 6 } });
    assert.equal(other.status, 409);
  });

  test('has no say in the name of nobody, of an inspector, or where a PIN is needed', async () => {
    refusedWith(await sendFrom(tablet, numbered(6, { person: 'p99999' })),
      '/person unknown_person');
    refusedWith(await sendFrom(tablet, numbered(6, { person: null })), '/person missing');
    refusedWith(await sendFrom(tablet, numbered(6, { person: inspector.id })),
      '/kind not_allowed');
    refusedWith(await sendFrom(tablet, { ...newContainer(freshId('v')), person: manager.id }),
      '/kind pin_needed');
    refusedWith(await sendFrom(tablet, numbered(6, { person: 7, claimed: 'yes' })),
      '/person wrong_type', '/claimed wrong_type');
  });

  test('has no say in the name of a person who is not active any more', async () => {
    const body = { name: freshId('Trainee '), role: 'technician', pin: '482917' };
    const { id } = (await call('POST', '/api/v1/people', { as: 'manager', body })).json;
    assert.equal((await sendFrom(tablet, numbered(6, { person: id }))).status, 201);
    await call('PUT', `/api/v1/people/${id}/active`, { as: 'manager', body: { active: false } });
    refusedWith(await sendFrom(tablet, numbered(7, { person: id })), '/person unknown_person');
  });

  test('reads nothing without a session, and writes only from a page of ours', async () => {
    const levels = await call('GET', '/api/v1/levels', { headers: { Cookie: tablet.cookie } });
    assert.equal(levels.status, 401);
    for (const headers of [{ Cookie: tablet.cookie }, from(tablet, { Origin: 'null' }),
      from(tablet, { Origin: 'http://other.example' }),
      from(tablet, { 'Sec-Fetch-Site': 'cross-site' })]) {
      const answer = await call('POST', kEntries, { body: numbered(7), headers });
      assert.equal(answer.status, 403, JSON.stringify(headers));
    }
    const twice = { Cookie: `${tablet.cookie}; ${tablet.cookie}`, Origin: kOrigin };
    assert.equal((await call('POST', kEntries, { body: numbered(7), headers: twice })).status, 400);
    const png = Buffer.from('89504e470d0a1a0a', 'hex');
    const file = await call('POST', '/api/v1/attachments',
      { body: png, headers: from(tablet, { 'Content-Type': 'image/png' }) });
    assert.equal(file.status, 401);
  });

  test('is listed with what never arrived of its own numbers, and what came twice', async () => {
    for (const number of [9, 12, 12]) {
      assert.equal((await sendFrom(tablet, numbered(number))).status, 201);
    }
    const one = await listed(tablet.id);
    assert.equal(one.name, tablet.name);
    assert.equal(one.paired_by, manager.id);
    assert.equal(one.ended_at, null);
    assert.equal(one.last_device_seq, 12);
    assert.deepEqual(one.missing, [{ from: 7, to: 8 }, { from: 10, to: 11 }]);
    assert.deepEqual(one.repeated, [12]);
    assert.equal((await read(kDevices, 'inspector')).devices.length,
      (await read(kDevices)).devices.length);
  });

  test('is let in no more once its pairing has ended, and stays listed', async () => {
    const other = await pairedTablet();
    assert.equal((await sendFrom(other, numbered(1))).status, 201);
    for (let times = 0; times < 2; times += 1) {
      const ended = await call('DELETE', `${kDevices}/${other.id}`, { as: 'manager' });
      assert.equal(ended.status, 204);
    }
    assert.equal((await sendFrom(other, numbered(2))).status, 401);
    assert.equal(await seenAs(other), null);
    const one = await listed(other.id);
    assert.ok(Date.parse(one.ended_at) >= Date.parse(one.paired_at));
    assert.equal(one.entries, 1);
    const unknown = await call('DELETE', `${kDevices}/d99999`, { as: 'manager' });
    assert.equal(unknown.status, 404);
    const { changes } = await read('/api/v1/people/accounts');
    assert.deepEqual(changes.filter((line) => line.device === other.name)
      .map(({ by, what }) => `${by} ${what}`),
    [`${manager.id} device-ended`, `${manager.id} device-paired`]);
  });
});

describe('a browser that is not paired', () => {
  test('records in no other name, and nothing without a PIN', async () => {
    refusedWith(await record(drain({}, { person: personOf('manager').id })),
      '/person not_paired');
    refusedWith(await record(drain({}, { claimed: true })), '/person not_paired');
    const nobody = await call('POST', kEntries,
      { body: drain({}, { person: personOf('technician').id, claimed: true }) });
    assert.equal(nobody.status, 401);
    const own = drain({}, { person: personOf('technician').id, claimed: false });
    assert.equal((await record(own)).status, 201);
  });
});
