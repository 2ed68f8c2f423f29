// What somebody on the network without a sign-in, and a technician with one, may try: each is refused,
// and the book is as it was. Which guard refuses which stands in DEVELOPERS.md.
import assert from 'node:assert/strict';
import tls from 'node:tls';
import { after, before, describe, test } from 'node:test';
import { operations } from './contract.mjs';
import { bookSize, call, personOf, read, record, session, signIn } from './client.mjs';
import { happened } from './kind_samples.mjs';
import { proxiedDaemon } from './own_daemon.mjs';
import { exchange, head, host } from './raw.mjs';
import { drain, freshId, newContainer, retirement } from './submissions.mjs';
import { demo, kHere, send } from './transport.mjs';

const kOrigin = new URL(demo.address).origin;
const kEntries = '/api/v1/entries';
const kLevels = '/api/v1/levels';
const kSession = '/api/v1/session';
const technician = personOf('technician');

/** Fails unless the answer has that status. */
const is = (answer, ...statuses) =>
  assert.ok(statuses.includes(answer.status), `${answer.status} ${answer.text}`);
const cookieOf = ({ token }) => `__Host-benchwarden_session=${token}`;

let size;
before(async () => { size = await bookSize(); });
after(async () => { assert.equal(await bookSize(), size, 'something was recorded'); });

describe('a technician with a session', () => {
  const kNotTheirs = ['issueReport', 'showCalendarFeed', 'makeCalendarFeed', 'endCalendarFeed',
    'importThings', 'putLocalPack', 'checkPack', 'beginPairing', 'endDevice', 'listAccounts',
    'addPerson', 'setActive', 'setPin', 'listTokens', 'makeToken', 'endToken', 'giveInspection',
    'endInspection', 'listDevices', 'previewReport_csv', 'previewReport_html', 'previewReport_json',
    'previewReport_pdf', 'previewReport_svg', 'showIssuedReport'];
  for (const id of kNotTheirs) {
    test(`calls ${id}`, async () => {
      const { method, path } = operations.find((one) => one.id === id);
      const body = ['POST', 'PUT'].includes(method) ? {} : undefined;
      const answer = await call(method, path.replace(/\{\w+\}/g, 'none'), { as: 'technician', body });
      is(answer, 403);
      assert.equal(answer.json.type, '/problems/forbidden');
    });
  }

  test('records in the name of the manager', async () => {
    const answer = await record(drain({}, { person: personOf('manager').id }));
    is(answer, 422);
  });
  test('changes the register', async () => {
    is(await record({ ...drain(), kind: 'register-change', fields: { thing_class: 'stream',
      thing: 'x1', act: 'retired' } }), 422);
  });
  test('records what only the daemon records', async () => {
    is(await record({ ...drain(), kind: 'access-change',
      fields: { access_act: 'person-added', account: 'p1', done_by: 'p1' } }), 422);
  });
  test('gives themselves a role while signing in', async () => {
    const { id, pin } = technician;
    is(await call('POST', kSession, { body: { person: id, pin, role: 'manager' } }), 422);
  });
  test('ends the session of the manager', async () => {
    const { sessions } = await read('/api/v1/sessions', 'manager');
    const id = sessions.find((one) => one.is_this).id;
    is(await call('DELETE', `/api/v1/sessions/${id}`, { as: 'technician' }), 404);
    is(await call('GET', kSession, { as: 'manager' }), 200);
  });
  test('turns a GET into a DELETE by a header', async () => {
    const headers = { 'X-HTTP-Method-Override': 'DELETE', 'X-Method-Override': 'DELETE' };
    is(await call('GET', kSession, { as: 'technician', headers }), 200);
    is(await call('GET', kSession, { as: 'technician' }), 200);
  });
  test('sets members of the prototype', async () => {
    is(await record(`{"__proto__":{"role":"manager"},${JSON.stringify(drain()).slice(1)}`), 422);
  });
});

describe('another name or page', () => {
  const get = (...lines) => exchange('GET', kLevels,
    [head(`GET ${kLevels} HTTP/1.1`, ...lines, 'Connection: close')]);
  const names = { 'of a stranger': 'other.example', 'that only begins as ours': `${host}.other.example`,
    'that holds an address of ours': '127.0.0.1.other.example', 'with a user before it': `a@${host}`,
    'of this machine on another port': 'other.example:8417' };
  for (const [what, name] of Object.entries(names)) {
    test(`Host: a name ${what}`, async () => is(await get(`Host: ${name}`), 421, 400));
  }
  test('no Host', async () => is(await get('X: y'), 400));
  test('two Hosts, ours first', async () => is(await get(`Host: ${host}`, 'Host: other.example'), 400));
  test('a whole address as the target, of another host', async () => is(await exchange('GET', kLevels,
    [head('GET http://other.example/api/v1/levels HTTP/1.1', `Host: ${host}`, 'Connection: close')]),
  400));
  test('X-Forwarded-Host is not believed', async () => {
    is(await get('Host: other.example', `X-Forwarded-Host: ${host}`), 421);
  });
  test('rebinding: a name of theirs that points here, with an Origin to match', async () => {
    const answer = await call('POST', kEntries, { body: drain(), headers: { Host: 'evil.example',
      Origin: 'https://evil.example', Cookie: cookieOf(await session('technician')) } });
    is(answer, 421);
  });

  const origins = { null: 'null', 'of a stranger': 'https://other.example', 'in the clear':
    kOrigin.replace('https', 'http'), 'that begins as ours': `${kOrigin}.other.example`,
  'on another port': kOrigin.replace(/:\d+$/, ':1'), 'with a path': `${kOrigin}/`, empty: '' };
  for (const [what, Origin] of Object.entries(origins)) {
    test(`Origin: ${what}`, async () => {
      const Cookie = cookieOf(await session('technician'));
      is(await call('POST', kEntries, { body: drain(), headers: { Cookie, Origin } }), 403);
    });
  }
  test('a cookie without Origin', async () => {
    const headers = { Cookie: cookieOf(await session('technician')) };
    is(await call('POST', kEntries, { body: drain(), headers }), 403);
  });
  test('a request that a browser says another site began', async () => {
    const headers = { Cookie: cookieOf(await session('technician')), Origin: kOrigin,
      'Sec-Fetch-Site': 'cross-site' };
    is(await call('POST', kEntries, { body: drain(), headers }), 403);
  });
  for (const type of ['text/plain', 'application/x-www-form-urlencoded', 'multipart/form-data']) {
    test(`a form of another page, as ${type}`, async () => {
      const headers = { Cookie: cookieOf(await session('technician')), Origin: kOrigin,
        'Content-Type': type };
      is(await call('POST', kEntries, { body: drain(), headers }), 415);
    });
  }
  test('asking beforehand whether another page may', async () => {
    const answer = await send('OPTIONS', kEntries, { headers: { Origin: 'https://other.example',
      'Access-Control-Request-Method': 'POST' } });
    is(answer, 405);
    assert.ok(!Object.keys(answer.headers).some((name) => name.startsWith('access-control')));
  });
  test('TRACE', async () => is(await exchange('TRACE', kLevels,
    [head(`TRACE ${kLevels} HTTP/1.1`, `Host: ${host}`, 'Connection: close')]), 405));
});

describe('sessions and secrets', () => {
  const levels = (headers) => call('GET', kLevels, { headers });
  test('a session chosen beforehand is not taken over at signing in', async () => {
    const chosen = 'A'.repeat(43);
    const { id, pin } = technician;
    const { json } = await call('POST', kSession, { body: { person: id, pin },
      headers: { Cookie: `__Host-benchwarden_session=${chosen}`, Origin: kOrigin } });
    assert.notEqual(json.token, chosen);
    is(await levels({ Cookie: `__Host-benchwarden_session=${chosen}` }), 401);
  });
  test('a session that was signed out', async () => {
    const { json } = await signIn(technician.id, technician.pin);
    await call('DELETE', kSession, { as: json });
    is(await levels({ Authorization: `Bearer ${json.token}` }), 401);
    is(await levels({ Cookie: cookieOf(json) }), 401);
  });
  test('the listed id of a session', async () => {
    const { sessions: [{ id }] } = await read('/api/v1/sessions');
    is(await levels({ Authorization: `Bearer ${id}` }), 401);
  });
  test('a session in the query', async () => {
    const { token } = await session('technician');
    is(await call('GET', `${kLevels}?token=${token}`), 401, 422);
  });
  test('a session in the cookie of a device, and the other way round', async () => {
    const { token } = await session('technician');
    is(await levels({ Cookie: `__Host-benchwarden_device=${token}` }), 401);
  });
  test('two session cookies', async () => {
    const cookie = cookieOf(await session('technician'));
    is(await levels({ Cookie: `${cookie}; ${cookie}` }), 400);
  });
  test('a bearer token beside a cookie: the cookie is not looked at', async () => {
    is(await levels({ Authorization: 'Bearer none', Cookie: cookieOf(await session('manager')) }), 401);
  });
  test('Basic', async () => is(await levels({ Authorization:
    `Basic ${Buffer.from(`${technician.id}:${technician.pin}`).toString('base64')}` }), 401));
  test('a pairing code a second time', async () => {
    const { json: { code } } = await call('POST', '/api/v1/devices/pairing',
      { as: 'manager', body: { name: `Tablet ${Date.now()}` } });
    const { json: { id } } = await call('POST', '/api/v1/devices', { body: { code } });
    is(await call('POST', '/api/v1/devices', { body: { code } }), 403);
    await call('DELETE', `/api/v1/devices/${id}`, { as: 'manager' });
    size += 2; // told of pairing and its end
  });
  test('a set-up code once somebody is entered', async () => is(await call('POST', '/api/v1/setup',
    { body: { code: 'ABCDEFGH', name: 'Intruder', pin: '482917' } }), 409));
  test('the secret of a calendar', async () => is(await send('GET',
    `/api/v1/calendar/${'A'.repeat(43)}.ics`), 404));
});

describe('paths', () => {
  const paths = ['/../../etc/passwd', '/%2e%2e/%2e%2e/etc/passwd', '/..%2f..%2fetc%2fpasswd',
    '/app.js/../../access.db', '/./access.db', '//access.db', '/access.db', '/pepper',
    '/tls/server.pem', '/app.js%00.html', '/api/v1/attachments/..%2f..%2faccess.db',
    '/api/v1/reports/issued/..%2f..%2fpepper.pdf', '/api/v1/register/..%2f..%2fbook.db', '\\..\\pepper'];
  for (const path of paths) {
    test(path, async () => {
      const { token } = await session('manager');
      const answer = await exchange('GET', path, [head(`GET ${path} HTTP/1.1`, `Host: ${host}`,
        `Authorization: Bearer ${token}`, 'Connection: close')]);
      is(answer, 400, 404);
    });
  }
});

describe('heads and bodies', () => {
  const post = (lines, parts, method = 'POST') => exchange(method, kEntries,
    [head(`POST ${kEntries} HTTP/1.1`, `Host: ${host}`, 'Connection: close',
      'Content-Type: application/json', ...lines), ...parts]);
  const refusals = {
    'a length and chunks': [['Content-Length: 5', 'Transfer-Encoding: chunked'], ['0\r\n\r\n'], 400],
    chunks: [['Transfer-Encoding: chunked'], ['0\r\n\r\n'], 501],
    'two lengths': [['Content-Length: 2', 'Content-Length: 40'], ['{}'], 400],
    'a negative length': [['Content-Length: -1'], [], 400],
    'no length': [[], [], 411],
    'a body of a gigabyte, as it says': [['Content-Length: 1073741824'], ['{'], 413],
    'a field with a blank in its name': [['X A: b', 'Content-Length: 2'], ['{}'], 400],
    'a control byte in a field': [['X-A: b\u0001', 'Content-Length: 2'], ['{}'], 400],
    'a hundred and fifty fields': [Array.from({ length: 150 }, (_, i) => `X-${i}: y`), [], 400],
    'a field of nine kilobytes': [[`X-A: ${'b'.repeat(9000)}`], [], 400],
  };
  for (const [what, [lines, parts, ...statuses]] of Object.entries(refusals)) {
    test(what, async () => {
      const { token } = await session('technician');
      const isPocos = /fields|kilobytes/.test(what); // refused before any code of ours: no problem
      const answer = isPocos ? await bare(lines) : await post([`Authorization: Bearer ${token}`,
        ...lines], parts);
      is(answer, ...statuses);
    });
  }
  /** The status of what the library refuses with a bare answer. */
  function bare(lines) {
    const { hostname, port } = new URL(demo.address);
    return new Promise((resolve) => {
      const socket = tls.connect({ host: kHere, port: Number(port), servername: hostname });
      let text = '';
      socket.on('data', (part) => { text += part; });
      socket.on('error', () => {});
      socket.on('close', () => resolve({ status: Number(text.split(' ')[1]), text }));
      socket.write(head(`GET ${kLevels} HTTP/1.1`, `Host: ${host}`, ...lines));
    });
  }
  test('a second request hidden in the body of the first', async () => {
    const hidden = head(`DELETE ${kSession} HTTP/1.1`, `Host: ${host}`);
    const answer = await exchange('GET', kLevels, [head(`GET ${kLevels} HTTP/1.1`, `Host: ${host}`,
      `Content-Length: ${hidden.length}`), hidden]);
    is(answer, 400);
    assert.equal(answer.text.match(/HTTP\/1\.1/g), null, 'one answer');
  });
  test('an answer split by what was asked', async () => {
    const answer = await exchange('GET', '/x', [head('GET /x%0d%0aSet-Cookie:%20a=b HTTP/1.1',
      `Host: ${host}`, 'Connection: close')]);
    is(answer, 404);
    assert.equal(answer.headers['set-cookie'], undefined);
  });
  test('JSON nested 20,000 deep', async () => is(await record('['.repeat(20000)), 400));
  test('an array of 201 entries', async () => is(await record(Array(201).fill({})), 413));
  test('a head that drips', async () => {
    const drops = [...head(`GET ${kLevels} HTTP/1.1`, `Host: ${host}`)].flatMap((c) => [c, 400]);
    const answer = await exchange('GET', kLevels, drops.slice(0, 60));
    assert.ok(answer.closed_ms < 12000, `open for ${answer.closed_ms} ms`);
    assert.notEqual(answer.status, 200);
  });
  test('a body that drips', async () => {
    const { token } = await session('technician');
    const answer = await post([`Authorization: Bearer ${token}`, 'Content-Length: 200'],
      Array.from({ length: 60 }, () => ['{', 400]).flat());
    assert.ok(answer.closed_ms < 20000, `open for ${answer.closed_ms} ms`);
    assert.notEqual(answer.status, 201);
  });
});

describe('the connection', () => {
  const shake = (options) => new Promise((resolve) => {
    const { hostname, port } = new URL(demo.address);
    const socket = tls.connect({ host: kHere, port: Number(port), servername: hostname, ...options });
    socket.on('secureConnect', () => { resolve(socket.getProtocol()); socket.destroy(); });
    socket.on('error', (error) => resolve(error.code));
  });
  test('TLS 1.1 and 1.0', async () => {
    for (const version of ['TLSv1.1', 'TLSv1']) {
      const told = await shake({ minVersion: version, maxVersion: version,
        ciphers: 'DEFAULT@SECLEVEL=0' });
      assert.match(told, /PROTOCOL_VERSION$/, told); // no cipher that is taken belongs to them, either
    }
    assert.equal(await shake({}), 'TLSv1.3');
  });
  test('a cipher without forward secrecy, or without a tag', async () => {
    for (const ciphers of ['AES128-GCM-SHA256', 'ECDHE-ECDSA-AES128-SHA']) {
      const told = await shake({ maxVersion: 'TLSv1.2', ciphers });
      assert.match(told, /^E|ERR_/, `${ciphers}: ${told}`);
    }
  });
  test('HTTP in the clear', async () => {
    is(await send('GET', kLevels, { address: demo.address.replace('https', 'http') }), 400);
  });
  test('a certificate of another name is none', async () => {
    assert.equal(await shake({ servername: 'other.example' }), 'ERR_TLS_CERT_ALTNAME_INVALID');
  });
});

describe('what a paper makes of what was written', () => {
  const kScript = '<script>alert(1)</script>';
  const kFormula = '=HYPERLINK("https://other.example","x")';
  const can = freshId('x');
  const today = new Date().toISOString().slice(0, 10);
  const paper = async (format) => (await call('GET',
    `/api/v1/reports/audit-pack.${format}?from=${today}&to=${today}`, { as: 'manager' })).text;
  before(async () => {
    const { fields, ...body } = happened(freshId('e'));
    is(await record({ ...body, fields: { ...fields, what_happened: kScript } }), 201);
    is(await record(newContainer(can, { name: kFormula }), 'manager'), 201);
    size += 3; // with the end of that container
  });
  test('HTML stays text', async () => {
    const text = await paper('html');
    assert.ok(!text.includes(kScript));
    assert.ok(text.includes('&lt;script&gt;'), 'it is there, as text');
  });
  test('a formula stays text in CSV', async () => {
    const { text } = await call('GET', `/api/v1/reports/label.csv?subject=container/${can}`,
      { as: 'manager' });
    assert.match(text, /(^|[,\r\n])"?'=HYPERLINK/m, 'it is there, as text');
    assert.doesNotMatch(text, /(^|[,\r\n])"?=HYPERLINK/m, 'no cell begins with it');
    is(await record(retirement(can), 'manager'), 201);
  });
});

describe('from elsewhere', () => {
  let daemon;
  before(async () => { daemon = await proxiedDaemon('host_names = ["book.example"]\n'); });
  after(() => daemon?.stop());
  const ask = (method, path, options) => call(method, path, { address: daemon.address, ...options });
  const enter = (body) => ask('POST', kSession, { body });

  test('the right PIN', async () => {
    const [{ id, pin }] = daemon.persons;
    const answer = await enter({ person: id, pin });
    assert.equal(answer.json.type, '/problems/passphrase-needed');
  });
  test('guessing a passphrase', async () => {
    const [, { id, passphrase }] = daemon.persons;
    for (let tries = 0; tries < 5; tries += 1) {
      is(await enter({ person: id, passphrase: `guess number ${tries}!` }), 403);
    }
    is(await enter({ person: id, passphrase }), 429);
  });
  test('guessing who is entered', async () => {
    const wrong = await enter({ person: 'p1', passphrase: 'guess number 1!' });
    const unknown = await enter({ person: 'p77', passphrase: 'guess number 1!' });
    assert.deepEqual(unknown.json, wrong.json);
  });
  test('an inspector to whom no access was given', async () => {
    const [, , { id, passphrase }] = daemon.persons;
    assert.equal((await enter({ person: id, passphrase })).json.type, '/problems/no-access-now');
  });
  test('a page of plain HTTP under a name that a proxy speaks TLS for', async () => {
    const [{ id, passphrase }] = daemon.persons;
    const under = (origin) => ask('POST', kSession,
      { body: { person: id, passphrase }, headers: { Host: 'book.example', Origin: origin } });
    is(await under('http://book.example'), 403);
    const { status, headers } = await under('https://book.example');
    assert.equal(status, 201);
    assert.match(headers['set-cookie'][0], /^__Host-benchwarden_session=.*; Secure$/);
    assert.match(headers['strict-transport-security'], /^max-age=\d+$/);
  });
  test('a flood of requests', async () => {
    const [{ id, passphrase }] = daemon.persons;
    const { json: session } = await enter({ person: id, passphrase });
    let answer = { status: 0 };
    for (let asked = 0; asked < 3000 && answer.status !== 429; asked += 1) {
      answer = await send('GET', '/api/v1/device', { address: daemon.address });
    }
    is(answer, 429);
    assert.equal(JSON.parse(answer.text).type, '/problems/too-many-requests');
    assert.ok(Number(answer.headers['retry-after']) >= 1);
    const signedIn = await ask('GET', kSession, { as: session });
    assert.equal(signedIn.status, 200, 'who is signed in is counted apart');
  });
});
