// Who may do what: PINs and lock-out, sessions, the cookie's Origin rule, and the roles of every
// operation.
import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { after, before, describe, test } from 'node:test';
import { operations } from './contract.mjs';
import { call, personOf, read, session, signIn } from './client.mjs';
import { drain, freshId } from './submissions.mjs';
import { binary, demo } from './transport.mjs';

const kPin = '482917';
const kOtherPin = '736205';
const kWrongPin = '640318';
const kSession = '/api/v1/session';

/** `benchwarden person …` on the machine itself, beside the running daemon. */
const person = (...words) => execFileSync(binary(),
  ['person', '--data', demo.folder, ...words], { encoding: 'utf8' });

function added(name) {
  const told = person('add', '--name', name, '--role', 'technician', '--pin', kPin);
  return /entered (p\d+) /.exec(told)[1];
}

describe('a person entered on the machine', () => {
  let id;
  before(() => { id = added(freshId('Trainee ')); });
  after(() => person('deactivate', id));

  test('signs in with the PIN and is told who they are', async () => {
    const { status, json, headers } = await signIn(id, kPin);
    assert.equal(status, 201);
    assert.equal(json.person, id);
    assert.equal(json.role, 'technician');
    const [cookie] = headers['set-cookie'];
    assert.match(cookie,
      /^__Host-benchwarden_session=[\w-]+; HttpOnly; SameSite=Strict; Path=\/; Max-Age=\d+; Secure$/);
    const who = await call('GET', kSession, { as: json });
    const { token, expires_at, ...rest } = json;
    const { expires_at: later, ...again } = who.json;
    assert.deepEqual(again, { ...rest, has_passphrase: false });
    assert.ok(Date.parse(later) >= Date.parse(expires_at));
    assert.ok(cookie.includes(token));
  });

  test('is not let in with a wrong PIN, and nobody learns whether they exist', async () => {
    const wrong = await signIn(id, kWrongPin);
    assert.equal(wrong.status, 403);
    const unknown = await signIn('p99999', kWrongPin);
    assert.equal(unknown.status, 403);
    assert.deepEqual(unknown.json, wrong.json);
    assert.equal(wrong.headers['set-cookie'], undefined);
    assert.equal((await signIn(id, kPin)).status, 201);
  });

  test('is locked out after five wrong PINs, also for the right one, until a new PIN', async () => {
    for (let tries = 0; tries < 5; tries += 1) {
      assert.equal((await signIn(id, kWrongPin)).status, 403);
    }
    for (const pin of [kWrongPin, kPin]) {
      const locked = await signIn(id, pin);
      assert.equal(locked.status, 429);
      assert.equal(locked.json.type, '/problems/locked-out');
      const wait_s = Number(locked.headers['retry-after']);
      assert.ok(wait_s >= 1 && wait_s <= 30, locked.headers['retry-after']);
    }
    const { json } = await call('GET', '/api/v1/people');
    assert.ok(json.people.some((one) => one.id === id), 'others still see them');

    person('reset-pin', id, '--pin', kOtherPin);
    assert.equal((await signIn(id, kOtherPin)).status, 201);
    assert.equal((await signIn(id, kPin)).status, 403);
  });

  test('loses the session with a new PIN, and every way in when deactivated', async () => {
    const before = (await signIn(id, kOtherPin)).json;
    person('reset-pin', id, '--pin', kPin);
    const deadline = Date.now() + 5000;
    let status = 200;
    while (status === 200 && Date.now() < deadline) {
      ({ status } = await call('GET', kSession, { as: before }));
    }
    assert.equal(status, 401);
    person('deactivate', id);
    assert.equal((await signIn(id, kPin)).status, 403);
    const { json } = await call('GET', '/api/v1/people');
    assert.ok(!json.people.some((one) => one.id === id));
  });
});

describe('what is sent to sign in', () => {
  test('must be a person and a PIN, as text, and nothing else', async () => {
    const bad = [[{ person: 'p1' }, '/pin'], [{ person: 'p1', pin: 274913 }, '/pin'],
      [{ person: 'p1', pin: '274913', role: 'manager' }, '/role']];
    for (const [body, pointer] of bad) {
      const answer = await call('POST', kSession, { body });
      assert.equal(answer.status, 422);
      assert.deepEqual(answer.json.errors.map((error) => error.pointer), [pointer]);
    }
    assert.equal((await call('POST', kSession, { body: '[]' })).status, 400);
  });
});

describe('a session', () => {
  const { id, pin } = personOf('technician');

  test('ends with signing out, and the cookie is taken back', async () => {
    const { json } = await signIn(id, pin);
    const out = await call('DELETE', kSession, { as: json });
    assert.equal(out.status, 204);
    assert.match(out.headers['set-cookie'][0], /^__Host-benchwarden_session=; .*Max-Age=0/);
    assert.equal((await call('GET', kSession, { as: json })).status, 401);
    assert.equal((await call('DELETE', kSession, { as: json })).status, 401);
  });

  test('in a cookie reads freely and writes only from a page of ours', async () => {
    const { token } = await session('technician');
    const cookie = { Cookie: `__Host-benchwarden_session=${token}` };
    const post = (headers) => call('POST', '/api/v1/entries',
      { body: drain({ volume_ml: -1 }), headers: { ...cookie, ...headers } });
    assert.equal((await call('GET', kSession, { headers: cookie })).status, 200);
    const ours = new URL(demo.address).origin;
    assert.equal((await post({ Origin: ours })).status, 422); // read, and refused for its content
    for (const headers of [{}, { Origin: 'http://other.example' }, { Origin: 'null' },
      { Origin: ours.replace('https:', 'http:') },
      { Origin: ours, 'Sec-Fetch-Site': 'cross-site' }]) {
      const answer = await post(headers);
      assert.equal(answer.status, 403, JSON.stringify(headers));
      assert.equal(answer.json.type, '/problems/forbidden');
    }
    const out = await call('DELETE', kSession, { headers: cookie });
    assert.equal(out.status, 403);
  });

  test('is one cookie or one token, never two', async () => {
    const { token } = await session('technician');
    const twice = `__Host-benchwarden_session=${token}; __Host-benchwarden_session=${token}`;
    assert.equal((await call('GET', kSession, { headers: { Cookie: twice } })).status, 400);
    const basic = { Authorization: `Basic ${token}` };
    assert.notEqual((await call('GET', kSession, { headers: basic })).status, 200);
  });
});

// For each operation what becomes of a harmless call by nobody, and by each role.
const kOpen = { nobody: true, technician: true, manager: true, inspector: true };
const kAny = { ...kOpen, nobody: false };
const kWriters = { ...kAny, inspector: false };
const kReaders = { ...kAny, technician: false };
const kManager = { ...kReaders, inspector: false };
const kRoles = {
  getEmergency: kOpen, getHealth: kOpen, getOpenApi: kOpen, listPeople: kOpen, setUp: kOpen,
  signIn: kOpen, readCalendar: kOpen, showDevice: kOpen, pairDevice: kOpen,
  listEntries: kAny, listForms: kAny, listThings: kAny, showCheckpoint: kAny, showEntry: kAny,
  showInclusion: kAny, listCheckpoints: kAny, showConsistency: kAny, getProofFile: kAny,
  showForm: kAny, showHistory: kAny, showLevels: kAny, showSession: kAny, showThing: kAny,
  signOut: kAny, calculate: kAny, listCalculations: kAny, showDue: kAny, showFindings: kAny,
  listRules: kAny, listPacks: kAny, listCollections: kAny, proposeHandovers: kAny,
  listMonths: kAny, showMonth: kAny, showRetention: kAny, fetchFile: kAny,
  listFindingsAbout: kAny, listUnconfirmed: kAny, listSessions: kAny, endSession: kAny,
  confirmSession: kAny, setPassphrase: kAny,
  record: kWriters, sendFile: kWriters,
  previewReport_csv: kReaders, previewReport_html: kReaders, previewReport_json: kReaders,
  previewReport_pdf: kReaders, previewReport_svg: kReaders, showIssuedReport: kReaders,
  showIssuedFigures: kReaders,
  listDevices: kReaders,
  showBackups: kReaders,
  showDiagnostics: kManager,
  issueReport: kManager, showCalendarFeed: kManager, makeCalendarFeed: kManager,
  endCalendarFeed: kManager,
  importThings: kManager, putLocalPack: kManager, checkPack: kManager,
  listTokens: kManager, makeToken: kManager, endToken: kManager,
  giveInspection: kManager, endInspection: kManager,
  beginPairing: kManager, endDevice: kManager, listAccounts: kManager, addPerson: kManager,
  setActive: kManager, setPin: kManager,
};

describe('the roles', () => {
  const filled = (path) => path.replace('{kind}', 'transfer').replace('{class}/{id}', 'tools/h1')
    .replace('{name}', 'waste-month').replace('{class}', 'stream').replace(/\{\w+\}/, 'none');

  async function statusFor(role, { id, method, path }) {
    let as = role === 'nobody' ? undefined : role;
    if (as && id === 'signOut') { // of a session of its own, not of the one the others need
      const { id: who, pin } = personOf(role);
      as = (await signIn(who, pin)).json;
    }
    const body = method === 'POST' || method === 'PUT' ? {} : undefined;
    const headers = id === 'sendFile' ? { 'Content-Type': 'image/png' } : {};
    return (await call(method, filled(path), { as, body, headers })).status;
  }

  test('are stated here for every operation of the document', () => {
    const ids = operations.map((operation) => operation.id);
    assert.deepEqual(ids.sort(), Object.keys(kRoles).sort());
  });

  for (const operation of operations) {
    test(`of ${operation.id}`, async () => {
      for (const [role, allowed] of Object.entries(kRoles[operation.id])) {
        const status = await statusFor(role, operation);
        const refused = role === 'nobody' ? 401 : 403;
        if (allowed) {
          assert.ok(status !== 401 && status !== 403, `${role}: ${status}`);
        } else {
          assert.equal(status, refused, role);
        }
      }
    });
    test(`of ${operation.id} are those of the document`, () => {
      const open = operation.operation.security.length === 0;
      assert.equal(open, kRoles[operation.id].nobody);
    });
  }
});

describe('what a path or query cannot name', () => {
  const refused = async (path, pointer, ...says) => {
    const answer = await call('GET', `/api/v1${path}`, { as: 'manager' });
    assert.equal(answer.status, 422, path);
    assert.equal(answer.json.errors[0].pointer, pointer);
    for (const words of says) assert.ok(answer.json.detail.includes(words), answer.json.detail);
  };

  test('a name that the call does not read', async () => {
    for (const path of ['/health', '/people', '/forms', '/forms/oil-drained', '/book/checkpoint',
      '/history/cylinder/n1', '/emergency', '/openapi.json', '/session']) {
      await refused(`${path}?as_of=2026-01-01T00:00:00Z`, '/query/as_of', 'accepted: no query');
    }
    await refused('/levels?at=1', '/query/at', 'accepted: as_of, known_at');
  });

  test('a size that the book has not had', async () => {
    const { json: { size } } = await call('GET', '/api/v1/book/checkpoint', { as: 'manager' });
    await refused(`/levels?known_at=${size + 1000}`, '/query/known_at', `accepted: 0 to ${size}`);
    for (const path of ['levels', 'findings', 'register/container', 'register/container/w1',
      'retention']) {
      const { status } = await call('GET', `/api/v1/${path}?known_at=${size}`, { as: 'manager' });
      assert.equal(status, 200, path);
    }
  });

  test('a class that no register has', async () => {
    for (const path of ['/register/zz', '/register/zz/w1']) {
      const { status, json } = await call('GET', `/api/v1${path}`, { as: 'manager' });
      assert.equal(status, 404);
      assert.match(json.detail, /'zz'; accepted: workshop, stream, container, /);
    }
  });
});

describe('the pages of the register', () => {
  test('are there for an inspector', async () => {
    const { things } = await read('/api/v1/register/cylinder', 'inspector');
    assert.deepEqual(things.map((thing) => thing.id), ['n1', 'n2']);
    const one = await read('/api/v1/register/cylinder/n1', 'inspector');
    assert.deepEqual(one, things[0]);
    const none = await call('GET', '/api/v1/register/cylinder/n9', { as: 'inspector' });
    assert.equal(none.status, 404);
    assert.match(none.json.detail, /cylinder 'n9'/);
  });
});
