// Inspectors' access: from a day to a day, for a part of the book, to read only.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { operations } from './contract.mjs';
import { call, personOf, read, recorded, session, signIn } from './client.mjs';
import { makePng } from './files.mjs';
import { correction, freshId, submission } from './submissions.mjs';

const kPin = '482917';
const day = (ahead) => new Date(Date.now() + ahead * 86400000).toISOString().slice(0, 10);
const put = (id, body) => call('PUT', `/api/v1/people/${id}/inspection`, { as: 'manager',
  body: { first_day: day(0), last_day: day(6), scope: 'everything', ...body } });
const end = (id) => call('DELETE', `/api/v1/people/${id}/inspection`, { as: 'manager' });

async function inspector() {
  const { json } = await call('POST', '/api/v1/people', { as: 'manager',
    body: { name: freshId('Visitor '), role: 'inspector', pin: kPin } });
  return json.id;
}
async function reading(scope) {
  const id = await inspector();
  assert.equal((await put(id, { scope })).status, 200);
  const { json } = await signIn(id, kPin);
  return { id, ...json };
}

describe('an inspector', () => {
  test('signs in on the days that were given only', async () => {
    const id = await inspector();
    const refused = async () => {
      const { status, json } = await signIn(id, kPin);
      assert.equal(status, 403);
      assert.equal(json.type, '/problems/no-access-now');
    };
    await refused();
    assert.equal((await put(id, { first_day: day(2), last_day: day(4) })).status, 200);
    await refused();
    const given = await put(id, {});
    assert.equal(given.status, 200, given.text);
    const { json: session } = await signIn(id, kPin);
    assert.deepEqual(session.inspection, given.json);
    const { people } = await read('/api/v1/people/accounts');
    assert.deepEqual(people.find((one) => one.id === id).inspection, given.json);
    assert.equal((await end(id)).status, 204);
    assert.equal((await call('GET', '/api/v1/session', { as: session })).status, 401);
    await refused();
  });

  test('gets 30 days at most, and what is asked must make sense', async () => {
    const id = await inspector();
    const refused = async (body, pointer, who = id) => {
      const { status, json } = await put(who, body);
      assert.equal(status, 422, JSON.stringify(body));
      assert.equal(json.errors[0].pointer, pointer);
    };
    assert.equal((await put(id, { last_day: day(29) })).status, 200);
    await refused({ last_day: day(30) }, '/last_day');
    await refused({ first_day: day(3), last_day: day(2) }, '/last_day');
    await refused({ first_day: day(-5), last_day: day(-3) }, '/last_day');
    await refused({ last_day: 'soon' }, '/last_day');
    await refused({ first_day: '' }, '/first_day');
    await refused({ scope: 'all' }, '/scope');
    await refused({}, '/id', personOf('technician').id);
    assert.equal((await put('p99999', {})).status, 404);
    assert.equal((await end('p99999')).status, 404);
  });
});

// What is let in to by what the entry is that the path names.
const kByEntry = ['showEntry', 'showInclusion', 'getProofFile', 'fetchFile', 'showIssuedReport',
  'showIssuedFigures'];
// What inspectors of a part are let in to; with everything they are let in to all that inspectors are.
const kBoth = ['showCheckpoint', 'listCheckpoints', 'showConsistency', 'listForms', 'showForm', 'listCalculations', 'calculate', 'listRules',
  'listPacks', 'showSession', 'signOut', 'confirmSession', 'listSessions', 'endSession', 'listEntries'];
const kScopes = {
  waste: [...kBoth, 'listCollections', 'proposeHandovers', 'showLevels', 'listMonths', 'showMonth'],
  'cylinders-and-tools': [...kBoth],
};
const kNamed = { // with a name in the path
  waste: { '/register/container': 200, '/register/cylinder': 403, '/register/person': 403,
    '/register/workshop': 200, '/history/cylinder/n1': 403, '/reports/waste-month.json?month=2026-10': 200,
    '/reports/cylinder-history.json?subject=n1': 403, '/reports/audit-pack.json': 403,
    '/entries?kind=oil-drained&limit=1': 200, '/entries?kind=cylinder-check&limit=1': 403,
    '/entries?kind=briefing&limit=1': 403, '/entries?subject=container/w1&limit=1': 200,
    '/entries?subject=cylinder/n1&limit=1': 403, '/entries?subject=person/p1': 403 },
  'cylinders-and-tools': { '/register/container': 403, '/register/cylinder': 200,
    '/register/workshop': 200, '/history/cylinder/n1': 200, '/reports/waste-month.json?month=2026-10': 403,
    '/reports/cylinder-history.json?subject=n1': 200, '/levels': 403,
    '/entries?kind=oil-drained&limit=1': 403, '/entries?kind=cylinder-check&limit=1': 200,
    '/entries?subject=container/w1&limit=1': 403, '/entries?subject=cylinder/n1&limit=1': 200 },
};

/** The path of a file that was sent in. */
async function sentIn() {
  const { json } = await call('POST', '/api/v1/attachments', { as: 'technician', body: makePng(),
    headers: { 'Content-Type': 'image/png' } });
  return { digest: json.digest, path: `/attachments/${json.digest}` };
}
async function issued(name, body) {
  const { status, json, text } = await call('POST', `/api/v1/reports/${name}`, { as: 'manager', body });
  assert.equal(status, 201, text);
  return json.id;
}
let made = null;
/** Of either part an entry, its correction and a report, by their ids, and files that those name. */
function samples() {
  made ??= (async () => {
    const [one, late, two] = [await sentIn(), await sentIn(), await sentIn()];
    const check = await recorded(submission('cylinder-check',
      { cylinder: 'n1', gauge_pressure_bar: 150 }, { attachments: [one.digest] }));
    const added = await recorded({ ...correction(check.id, {}, 'The certificate came'),
      attachments: [late.digest] });
    const history = await issued('cylinder-history', { subject: 'n1' });
    const test = await recorded(submission('container-inspection', { container: 'w1',
      closed: 'yes', label_legible: 'yes', leak_free: 'yes', damage: 'none', bund_dry: 'yes' },
    { attachments: [two.digest] }));
    const month = await issued('waste-month', { month: '2026-01' });
    await issued('waste-month', { month: '2026-02' }); // signs what stands before it
    const report = (id) => [`/reports/issued/${id}.pdf`, `/reports/issued/${id}.json`];
    await session('manager');
    return {
      'cylinders-and-tools': { entries: [check.id, added.id, history],
        files: [one.path, late.path, ...report(history)] },
      waste: { entries: [test.id, month], files: [two.path, ...report(month)] },
    };
  })();
  return made;
}

for (const [scope, allowed] of Object.entries(kScopes)) {
  describe(`an inspector of ${scope}`, () => {
    let who;
    before(async () => { who = await reading(scope); });

    test('is let in to nothing but what lies in it', async () => {
      const filled = (path) => path.replace(/\{\w+\}/g, 'none');
      for (const { id, method, path, operation } of operations) {
        if (operation.security.length === 0 || id === 'signOut' || id === 'setPassphrase') continue;
        const body = method === 'POST' || method === 'PUT' ? {} : undefined;
        const headers = id === 'sendFile' ? { 'Content-Type': 'image/png' } : {};
        const { status } = await call(method, filled(path), { as: who, body, headers });
        const isKnown = allowed.includes(id) || kByEntry.includes(id);
        assert.equal(status !== 403, isKnown, `${id}: ${status}`);
      }
    });

    for (const [path, wanted] of Object.entries(kNamed[scope])) {
      test(`and ${path}`, async () => {
        const { status } = await call('GET', `/api/v1${path}`, { as: who });
        assert.equal(status, wanted);
      });
    }

    test('finds no other entries in the list, and none by its id', async () => {
      const { entries } = await read('/api/v1/entries?limit=500', who);
      const seen = new Set(entries.map(({ kind }) => kind));
      assert.ok(seen.size > 0);
      const ours = scope === 'waste' ? 'oil-drained' : 'cylinder-check';
      const others = scope === 'waste' ? 'cylinder-check' : 'oil-drained';
      assert.ok(seen.has(ours) && !seen.has(others) && !seen.has('register-change'));
      const first = async (kind) =>
        (await read(`/api/v1/entries?kind=${kind}&limit=1`)).entries[0].id;
      assert.equal((await call('GET', `/api/v1/entries/${await first(ours)}`, { as: who })).status, 200);
      assert.equal((await call('GET', `/api/v1/entries/${await first(others)}`, { as: who })).status,
        403);
    });

    test('is given pages that tell nothing of what lies between', async () => {
      const kind = scope === 'waste' ? 'oil-drained' : 'cylinder-check';
      const all = (await read('/api/v1/entries?limit=500', who)).entries.map(({ seq }) => seq);
      const first = await read('/api/v1/entries?limit=1', who);
      assert.deepEqual(first.entries.map(({ seq }) => seq), [all[0]]);
      assert.equal(first.next_cursor, String(all[0]));
      const nobodys = await read('/api/v1/entries?person=p99999&limit=1', who);
      assert.deepEqual(nobodys, { entries: [], next_cursor: null });
      assert.ok((await read(`/api/v1/entries?kind=${kind}&limit=1`, who)).entries.length === 1);
    });

    test('is given the proof of what it sees, of corrections too, and of nothing else', async () => {
      const { waste: inWaste, 'cylinders-and-tools': ofGas } = await samples();
      const [ours, others] = scope === 'waste' ? [inWaste, ofGas] : [ofGas, inWaste];
      const status = async (path) => (await call('GET', `/api/v1${path}`, { as: who })).status;
      for (const id of ours.entries) {
        for (const end of ['', '/proof', '/tlog-proof']) {
          assert.equal(await status(`/entries/${id}${end}`), 200, end);
        }
        assert.equal(await status(`/entries/${id}/findings`), 403, 'findings are of everything');
      }
      for (const id of others.entries) {
        for (const end of ['', '/proof', '/tlog-proof']) {
          assert.equal(await status(`/entries/${id}${end}`), 403, end);
        }
      }
      for (const [path, wanted] of [...ours.files.map((one) => [one, 200]),
        ...others.files.map((one) => [one, 403])]) {
        assert.equal(await status(path), wanted, path);
      }
    });

    test('changes nothing', async () => {
      const { status } = await call('POST', '/api/v1/entries', { as: who, body: {} });
      assert.equal(status, 403);
    });
  });
}
