// Bad input: each has a clear answer that names the field, the value and what would be taken, and
// leaves no entry.
import assert from 'node:assert/strict';
import { after, before, beforeEach, afterEach, describe, test } from 'node:test';
import { bookSize, call, record, recorded, session } from './client.mjs';
import { exchange, head, host } from './raw.mjs';
import { drain, freshId, newContainer, retirement, strikeOut, uuid } from './submissions.mjs';

const kPath = '/api/v1/entries';
const kJson = 'Content-Type: application/json';
const kTenMegabytes = 10 * 1024 * 1024;

let size;
beforeEach(async () => { size = await bookSize(); });
afterEach(async () => { assert.equal(await bookSize(), size, 'an entry was left in the book'); });

/** Fails unless the problem is `type`, and its detail holds every one of `words`. */
function isProblem(answer, status, type, ...words) {
  assert.equal(answer.status, status, answer.text);
  const problem = JSON.parse(answer.text);
  assert.equal(problem.type, `/problems/${type}`);
  for (const word of words) assert.ok(problem.detail.includes(word), `${word}: ${answer.text}`);
}

/** Fails unless exactly one fault is named, there, so, in a sentence with all of `words`. */
async function isRefused(body, pointer, code, ...words) {
  const { status, json, text } = await record(body);
  assert.equal(status, 422, text);
  assert.equal(json.type, '/problems/refused');
  assert.deepEqual(json.errors.map((error) => [error.pointer, error.code]), [[pointer, code]]);
  const [{ detail }] = json.errors;
  for (const word of words) assert.ok(detail.includes(word), `"${word}" is not in: ${detail}`);
}

describe('a body that cannot be read', () => {
  const cases = {
    'not JSON': ['container=w1&volume_ml=62', 'not JSON at byte 1'],
    'nothing at all': ['', 'not JSON'],
    'half an entry': [JSON.stringify(drain()).slice(0, -9), 'not JSON at byte'],
    'an entry and something behind it': [`${JSON.stringify(drain())}]`, 'not JSON at byte'],
    'nested 20,000 deep': ['['.repeat(20000) + ']'.repeat(20000), 'nested deeper than'],
    'nested 20,000 deep and never closed': ['{"a":'.repeat(12000), 'nested deeper than'],
    'the same member twice': [JSON.stringify(drain()).replace('"volume_ml":62',
      '"volume_ml":62,"volume_ml":63'), "'volume_ml'", 'twice'],
    'the same member twice, once in escapes': [JSON.stringify(drain()).replace('"volume_ml":62',
      '"volume_ml":62,"volume_m\\u006c":63'), "'volume_ml'", 'twice'],
    'NaN without quotes': [JSON.stringify(drain()).replace(':62', ':NaN'), 'not JSON at byte'],
    'a number with a plus': [JSON.stringify(drain()).replace(':62', ':+62'), 'not JSON at byte'],
    'a number larger than any': [JSON.stringify(drain()).replace(':62', ':1e400'), 'at byte'],
    'a byte order mark': [`\uFEFF${JSON.stringify(drain())}`, 'byte order mark'],
    'a lone surrogate': [JSON.stringify(drain({ note: 'x' })).replace('"x"', '"\\ud800"'),
      'not JSON'],
    'bytes that are not UTF-8': [Buffer.concat([Buffer.from('{"id":"'), Buffer.from([0xff, 0xfe]),
      Buffer.from('"}')]), 'not JSON at byte'],
    'an overlong encoding': [Buffer.concat([Buffer.from('{"id":"'), Buffer.from([0xc0, 0xaf]),
      Buffer.from('"}')]), 'not JSON at byte'],
  };
  for (const [name, [body, ...words]] of Object.entries(cases)) {
    test(name, async () => isProblem(await record(body), 400, 'malformed', ...words));
  }

  test('of another type than JSON', async () => {
    const headers = { 'Content-Type': 'text/plain' };
    const answer = await call('POST', kPath, { as: 'technician', body: drain(), headers });
    isProblem(answer, 415, 'unsupported-media-type', 'application/json');
  });
});

describe('an entry that does not fit its form', () => {
  const field = (name) => `/fields/${name}`;
  const cases = {
    'an unknown field': [{ colour: 'brown' }, field('colour'), 'unknown_field', 'colour',
      'volume_ml'],
    'a negative volume': [{ volume_ml: -62 }, field('volume_ml'), 'impossible', 'Volume', '-62',
      '0.001 … 20\u202f000'],
    'a volume of nothing': [{ volume_ml: 0 }, field('volume_ml'), 'impossible', '0\u00a0mL', '0.001'],
    'an impossible volume': [{ volume_ml: 20000.001 }, field('volume_ml'), 'impossible',
      '20\u202f000.001', '0.001 … 20\u202f000'],
    'NaN as text': [{ volume_ml: 'NaN' }, field('volume_ml'), 'text_for_number', 'NaN'],
    'a number as text': [{ volume_ml: '62' }, field('volume_ml'), 'text_for_number',
      "'62' was given as text"],
    'too many places': [{ volume_ml: 62.0625 }, field('volume_ml'), 'too_many_places', '62.0625',
      '3'],
    'an unknown unit': [{ volume_ml: { value: 62, unit: 'psi' } }, '/fields/volume_ml/unit',
      'unknown_unit', 'psi', 'ml'],
    'an unknown container': [{ container: 'w9' }, field('container'), 'unknown_thing', 'w9',
      'container'],
    'a container that is no id': [{ container: '../w1' }, field('container'), 'bad_id', '../w1'],
    'an unknown choice': [{ fluid: 'water' }, field('fluid'), 'unknown_code', 'water',
      'mineral-oil'],
    'a control character': [{ note: 'a\u0007b' }, field('note'), 'hidden_sign', 'U+0007'],
    'a sign that turns the text': [{ note: '12\u202e34' }, field('note'), 'hidden_sign', 'U+202E'],
    'a text too long': [{ note: 'x'.repeat(501) }, field('note'), 'text_too_long', '500'],
    'a list for a number': [{ volume_ml: [62] }, field('volume_ml'), 'not_a_number', '[62]'],
  };
  for (const [name, [fields, ...wanted]] of Object.entries(cases)) {
    test(name, () => isRefused(drain(fields), ...wanted));
  }

  test('a volume in exponents or of a hundred digits, as written', async () => {
    const text = JSON.stringify(drain({ volume_ml: 12345 }));
    for (const token of ['6.2e1', '9'.repeat(100), `62.${'0'.repeat(2000)}1`]) {
      const { status, json } = await record(text.replace('12345', token));
      assert.equal(status, 422, token);
      assert.equal(json.errors[0].pointer, '/fields/volume_ml');
    }
  });

  test('every fault is named at once', async () => {
    const { json } = await record({ id: 'x', kind: 'oil-drained', occurred_at: 'yesterday',
      fields: { volume_ml: -1, colour: 'brown' }, weight: 3 });
    assert.deepEqual(json.errors.map((error) => `${error.pointer} ${error.code}`), [
      '/id bad_id', '/occurred_at bad_time', '/weight unknown_member',
      '/fields/container missing', '/fields/volume_ml impossible', '/fields/colour unknown_field']);
  });

  test('an unknown kind, no object, and what only the daemon records', async () => {
    await isRefused(drain({}, { kind: 'oil' }), '/kind', 'unknown_kind', "'oil'", 'oil-drained');
    const { status, json } = await record('"oil"');
    assert.equal(status, 422);
    assert.equal(json.errors[0].code, 'not_an_object');
    const issued = await record(drain({}, { kind: 'report-issued' }), 'manager');
    assert.equal(issued.json.errors[0].code, 'not_allowed');
  });

  test('a date in the future', () =>
    isRefused(drain({}, { occurred_at: new Date(Date.now() + 15 * 60000).toISOString() }),
      '/occurred_at', 'in_future', 'Accepted: ≤ 2'));

  test('a date before there were such workshops, and one that is none', async () => {
    await isRefused(drain({}, { occurred_at: '1999-12-31T23:59:59Z' }), '/occurred_at', 'bad_time',
      '1999-12-31', '2000-01-01');
    await isRefused(drain({}, { occurred_at: '2026-02-30T10:00:00Z' }), '/occurred_at', 'bad_time',
      '2026-02-30', 'RFC 3339');
    await isRefused(drain({}, { occurred_at: '2026-02-03 10:00' }), '/occurred_at', 'bad_time');
  });

  test('a change of the register by a technician', async () => {
    const { status, json } = await record(newContainer(freshId('x')));
    assert.equal(status, 422);
    assert.deepEqual(json.errors.map(({ pointer, code }) => [pointer, code]),
      [['/kind', 'not_allowed']]);
    assert.match(json.errors[0].detail, /register-change.*manager/);
  });
});

describe('a retired container', () => {
  const can = freshId('x');
  before(async () => {
    await recorded(newContainer(can), 'manager');
    await recorded(retirement(can), 'manager');
  });
  test('takes no new entries', () =>
    isRefused(drain({ container: can }), '/fields/container', 'retired_thing', can));
});

describe('an id that was used before', () => {
  const first = drain({ volume_ml: 61 });
  before(() => recorded(first));
  after(() => recorded(strikeOut(first.id)));

  test('is refused with other content, and the first content stays', async () => {
    for (const other of [
      { ...first, fields: { ...first.fields, volume_ml: 60 } },
      { ...first, fields: { ...first.fields, note: 'more' } },
      { ...first, fields: { ...first.fields, colour: 'brown' } },
      { ...first, urgent: true },
      { ...first, occurred_at: new Date(Date.parse(first.occurred_at) - 1000).toISOString() },
      { ...first, kind: 'level-reading', fields: { container: 'w2', reading_method: 'dip',
        volume_ml: 61 } },
    ]) {
      isProblem(await record(other), 409, 'id-conflict', 'other content', 'no. ');
    }
    const { json } = await call('GET', `${kPath}/${first.id}`, { as: 'inspector' });
    assert.deepEqual(json.fields, first.fields);
  });
});

describe('the wrong person', () => {
  test('an inspector records nothing', async () =>
    isProblem(await record(drain(), 'inspector'), 403, 'forbidden', 'role'));

  test('a technician issues no report', async () => {
    const answer = await call('POST', '/api/v1/reports/waste-month',
      { as: 'technician', body: { month: '2026-01' } });
    isProblem(answer, 403, 'forbidden', 'role');
  });

  test('nobody records anything without a session', async () => {
    const answer = await call('POST', kPath, { body: drain() });
    isProblem(answer, 401, 'unauthenticated', 'Sign in');
    assert.equal(answer.headers['www-authenticate'], 'Bearer');
    const made_up = { Authorization: `Bearer ${'A'.repeat(43)}` };
    isProblem(await call('POST', kPath, { body: drain(), headers: made_up }), 401,
      'unauthenticated');
  });
});

describe('bytes that are no clean request', () => {
  let token;
  let body;
  before(async () => {
    ({ token } = await session('technician'));
    body = Buffer.from(JSON.stringify(drain({}, { id: uuid() })));
  });

  const post = (lines, parts) => exchange('POST', kPath,
    [head(`POST ${kPath} HTTP/1.1`, kJson, `Authorization: Bearer ${token}`, ...lines), ...parts]);
  const length = () => `Content-Length: ${body.length}`;

  test('a Host that is not the server\'s', async () => {
    for (const name of ['workshop.example', '127.0.0.1.example', 'localhost@127.0.0.1']) {
      isProblem(await post([`Host: ${name}`, length()], [body]), 421, 'misdirected', 'name');
    }
  });

  test('two Hosts, and none', async () => {
    isProblem(await post([`Host: ${host}`, `Host: ${host}`, length()], [body]), 400, 'malformed',
      'Host');
    isProblem(await post([length()], [body]), 400, 'malformed', 'Host');
  });

  test('both Content-Length and Transfer-Encoding', async () => {
    const chunked = [`${body.length.toString(16)}\r\n`, body, '\r\n0\r\n\r\n'];
    isProblem(await post([`Host: ${host}`, length(), 'Transfer-Encoding: chunked'], chunked), 400,
      'malformed', 'Content-Length', 'Transfer-Encoding');
  });

  test('Transfer-Encoding alone', async () => {
    const chunked = [`${body.length.toString(16)}\r\n`, body, '\r\n0\r\n\r\n'];
    isProblem(await post([`Host: ${host}`, 'Transfer-Encoding: chunked'], chunked), 501,
      'transfer-encoding', 'Content-Length');
  });

  test('two Content-Lengths, equal or not', async () => {
    for (const other of [length(), 'Content-Length: 5']) {
      isProblem(await post([`Host: ${host}`, length(), other], [body]), 400, 'malformed',
        'Content-Length', 'more than once');
    }
  });

  test('no Content-Length', async () =>
    isProblem(await post([`Host: ${host}`], [body]), 411, 'length-required', 'Content-Length'));

  test('a Content-Length that is no plain number', async () => {
    for (const value of ['-5', '+5', '0x20', '5, 5']) {
      const answer = await post([`Host: ${host}`, `Content-Length: ${value}`], [body]);
      // Some of these the HTTP library drops by itself, without an answer.
      if (answer.status !== 0) isProblem(answer, 400, 'malformed', 'Content-Length');
    }
  });

  test('a body of ten megabytes', async () => {
    const megabyte = Buffer.alloc(1024 * 1024, 0x20);
    const answer = await post([`Host: ${host}`, `Content-Length: ${kTenMegabytes}`],
      [300, ...Array.from({ length: 10 }, () => megabyte)]);
    isProblem(answer, 413, 'too-large', '65536');
  });

  test('a body that ends before its length', async () => {
    // The request is never finished, so the body is waited for until its deadline.
    const answer = await post([`Host: ${host}`, `Content-Length: ${body.length + 40}`], [body]);
    isProblem(answer, 408, 'timed-out', 'in time');
  });

  test('a body that drips is cut by the deadline', async () => {
    const drops = Array.from({ length: 100 }, (_, i) => [body.subarray(i, i + 1), 250]).flat();
    const answer = await post([`Host: ${host}`, length()], drops);
    isProblem(answer, 408, 'timed-out', 'in time');
    assert.ok(answer.after_ms > 8000 && answer.after_ms < 14000, `${answer.after_ms} ms`);
  });

  test('a head that drips is cut by the deadline', async () => {
    const drops = [...`POST ${kPath} HTTP/1.1\r\nHost: ${host}\r\nX-Slow: ${'a'.repeat(200)}`]
      .flatMap((byte) => [byte, 100]);
    const answer = await exchange('POST', kPath, drops);
    assert.notEqual(answer.status, 201);
    assert.ok(answer.closed_ms > 3000 && answer.closed_ms < 9000, `${answer.closed_ms} ms`);
  });

  test('and the daemon still answers', async () => {
    const answer = await call('GET', '/api/v1/health');
    assert.equal(answer.status, 200);
  });
});
