// Files that go with an entry: sent in first, told by their content, named by an entry, and handed
// out as downloads only.
import assert from 'node:assert/strict';
import { createHash, randomBytes } from 'node:crypto';
import { describe, test } from 'node:test';
import { call, read, record, recorded, session } from './client.mjs';
import { makePng, makePdf } from './files.mjs';
import { exchange, head, host } from './raw.mjs';
import { correction, drain, submission } from './submissions.mjs';

const kPath = '/api/v1/attachments';
const kTypes = { pdf: 'application/pdf', jpeg: 'image/jpeg', png: 'image/png' };
const kBytesMax = 5000000;

const digestOf = (bytes) => createHash('sha256').update(bytes).digest('hex');

const sendIn = (bytes, { as = 'technician', type = kTypes.png } = {}) =>
  call('POST', kPath, { as, body: bytes, headers: { 'Content-Type': type } });

/** The digest of a file that must be taken anew. */
async function sentIn(bytes, options) {
  const answer = await sendIn(bytes, options);
  assert.equal(answer.status, 201, answer.text);
  return answer.json.digest;
}

const check = (attachments) =>
  submission('cylinder-check', { cylinder: 'n1', gauge_pressure_bar: 150 }, { attachments });

const codes = (answer) => answer.json.errors.map((error) => [error.pointer, error.code]);

describe('a file that is sent in', () => {
  test('is told by its content and answered with its digest', async () => {
    const png = makePng();
    const answer = await sendIn(png, { type: kTypes.jpeg });
    assert.equal(answer.status, 201, answer.text);
    assert.deepEqual(answer.json,
      { digest: digestOf(png), media_type: kTypes.png, bytes: png.length });
    const again = await sendIn(png);
    assert.equal(again.status, 200);
    assert.deepEqual(again.json, answer.json);
    await recorded(check([answer.json.digest]));
  });

  test('is refused when it is of another kind or cut off, saying what is taken', async () => {
    const pdf = makePdf();
    const bad = { 'a web page': Buffer.from('<script>alert(1)</script>'),
      nothing: Buffer.alloc(0), 'half a PNG': makePng().subarray(0, 60),
      'a PDF without its end': pdf.subarray(0, pdf.length - 20),
      'random bytes': randomBytes(5000) };
    for (const [name, bytes] of Object.entries(bad)) {
      const answer = await sendIn(bytes);
      assert.equal(answer.status, 422, name);
      assert.match(answer.json.detail, /accepted: a PDF, JPEG or PNG file of at most 5000000 bytes/);
    }
  });

  test('may have 5 000 000 bytes and no more, and a type that is read here', async () => {
    const digest = await sentIn(makePdf(kBytesMax), { type: kTypes.pdf });
    await recorded(check([digest]));
    const large = await sendIn(makePdf(kBytesMax + 1), { type: kTypes.pdf });
    assert.equal(large.status, 413);
    assert.match(large.json.detail, /5000000/);
    for (const type of ['application/json', 'image/svg+xml', 'text/html']) {
      const answer = await sendIn(makePng(), { type });
      assert.equal(answer.status, 415, type);
      assert.match(answer.json.detail, /application\/pdf or image\/jpeg or image\/png/);
    }
  });

  test('is taken from those who record, and from nobody else', async () => {
    assert.equal((await sendIn(makePng(), { as: 'inspector' })).status, 403);
    assert.equal((await sendIn(makePng(), { as: null })).status, 401);
    const digest = await sentIn(makePng(), { as: 'manager' });
    await recorded(check([digest]), 'manager');
  });

  test('that does not arrive whole leaves nothing', async () => {
    const png = makePng();
    const { token } = await session('technician');
    const lines = head(`POST ${kPath} HTTP/1.1`, `Host: ${host}`, `Authorization: Bearer ${token}`,
      `Content-Type: ${kTypes.png}`, `Content-Length: ${png.length}`, 'Connection: close');
    const answer = await exchange('POST', kPath, [lines, png.subarray(0, 40), 200, null]);
    assert.equal(answer.status, 400, answer.text);
    const named = await record(check([digestOf(png)]));
    assert.deepEqual(codes(named), [['/attachments/0', 'unknown_attachment']]);
  });

  test('finds a place: more than two at once are told to come again', async () => {
    const { token } = await session('technician');
    const png = makePng();
    const lines = head(`POST ${kPath} HTTP/1.1`, `Host: ${host}`, `Authorization: Bearer ${token}`,
      `Content-Type: ${kTypes.png}`, `Content-Length: ${png.length}`, 'Connection: close');
    const slow = [0, 1].map(() =>
      exchange('POST', kPath, [lines, png.subarray(0, 40), 1500, png.subarray(40)]));
    await new Promise((resolve) => { setTimeout(resolve, 500); });
    const third = await sendIn(makePng());
    assert.equal(third.status, 503, third.text);
    assert.equal(third.headers['retry-after'], '5');
    const done = await Promise.all(slow);
    assert.deepEqual(done.map(({ status }) => status).sort(), [200, 201]);
    await recorded(check([digestOf(png)]));
  });
});

describe('an entry with files', () => {
  test('hands them out to everybody signed in, as downloads that cannot run', async () => {
    const pdf = makePdf(3000);
    const digest = await sentIn(pdf, { type: kTypes.pdf });
    const { id } = await recorded(check([digest]));
    for (const as of ['technician', 'manager', 'inspector']) {
      const answer = await call('GET', `${kPath}/${digest}`, { as });
      assert.equal(answer.status, 200);
      assert.deepEqual(answer.bytes, pdf);
      assert.equal(answer.headers['content-type'], kTypes.pdf);
      assert.equal(answer.headers['content-disposition'],
        `attachment; filename="${digest.slice(0, 16)}.pdf"`);
      assert.equal(answer.headers['x-content-type-options'], 'nosniff');
      assert.equal(answer.headers['content-security-policy'], "default-src 'none'; sandbox");
    }
    assert.equal((await call('GET', `${kPath}/${digest}`)).status, 401);
    const entry = await read(`/api/v1/entries/${id}`);
    assert.deepEqual(entry.attachments, [digest]);
    assert.deepEqual(entry.attached, [{ digest, media_type: kTypes.pdf, bytes: pdf.length }]);
  });

  test('is refused for a file that was not sent in, named twice, or not taken', async () => {
    const digest = await sentIn(makePng());
    assert.deepEqual(codes(await record(check(['0'.repeat(64)]))),
      [['/attachments/0', 'unknown_attachment']]);
    assert.deepEqual(codes(await record(check([digest, digest]))),
      [['/attachments/1', 'named_twice']]);
    const elsewhere = await record(drain({}, { attachments: [digest] }));
    assert.deepEqual(codes(elsewhere), [['/attachments', 'field_not_applicable']]);
    assert.match(elsewhere.json.errors[0].detail, /collection, .*cylinder-check/);
    await recorded(check([digest]));
  });

  test('gets a certificate that came late by a correction', async () => {
    const { id } = await recorded(check([]));
    const digest = await sentIn(makePng());
    await recorded({ ...correction(id, {}, 'The certificate came'), attachments: [digest] });
    const { corrections } = await read(`/api/v1/entries/${id}`);
    assert.deepEqual(corrections.map((later) => later.attached.map((file) => file.digest)),
      [[digest]]);
  });

  test('of nothing but its digest is found under no other name', async () => {
    const waiting = await sentIn(makePng());
    for (const name of [waiting, '0'.repeat(64), 'A'.repeat(64), 'x']) {
      assert.equal((await call('GET', `${kPath}/${name}`, { as: 'manager' })).status, 404, name);
    }
    await recorded(check([waiting]));
  });

  test('issued as a report is had from the address of reports only', async () => {
    const issued = await call('POST', '/api/v1/reports/waste-month',
      { as: 'manager', body: { month: '2026-01' } });
    const { digest } = issued.json;
    const answer = await call('GET', `${kPath}/${digest}`, { as: 'manager' });
    assert.equal(answer.status, 404);
    assert.match(answer.json.detail, /reports\/issued/);
  });
});

describe('files that no entry names', () => {
  test('are refused once twenty wait', async () => {
    const digests = [];
    let answer;
    do {
      answer = await sendIn(makePng());
      if (answer.status === 201) digests.push(answer.json.digest);
    } while (answer.status === 201 && digests.length < 30);
    assert.equal(answer.status, 503, answer.text);
    assert.match(answer.json.detail, /accepted: 20 of 50000000 bytes/);
    for (let i = 0; i < digests.length; i += 5) await recorded(check(digests.slice(i, i + 5)));
    await recorded(check([await sentIn(makePng())]));
  });
});
