// Tokens for scripts: what they are good for, what never, and how they end.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { operations } from './contract.mjs';
import { call, personOf, read, session } from './client.mjs';
import { drain, freshId } from './submissions.mjs';

const kTokens = '/api/v1/tokens';
const day = (ahead) => new Date(Date.now() + ahead * 86400000).toISOString().slice(0, 10);
const make = (body) => call('POST', kTokens, { as: 'manager',
  body: { name: freshId('Script '), scope: 'reads', last_day: day(30), ...body } });
async function token(scope) {
  const answer = await make({ scope });
  assert.equal(answer.status, 201, answer.text);
  return { ...answer.json, token: answer.json.secret };
}

// What a token with entries is good for; all else is refused.
const kGood = new Set(['listEntries', 'listFindingsAbout', 'listForms', 'listThings',
  'showCheckpoint', 'showEntry',
  'showInclusion', 'showForm', 'showHistory', 'showLevels', 'showThing', 'calculate',
  'listCalculations', 'showDue', 'showFindings', 'listRules', 'listPacks', 'listCollections',
  'proposeHandovers', 'listMonths', 'showMonth', 'showRetention', 'fetchFile', 'listUnconfirmed',
  'previewReport_csv', 'previewReport_html', 'previewReport_json', 'previewReport_pdf',
  'previewReport_svg', 'showIssuedReport', 'showIssuedFigures', 'showBackups', 'listCheckpoints',
  'showConsistency', 'getProofFile']);
const kRecords = new Set(['record', 'sendFile']);

describe('a token', () => {
  let reads;
  let records;
  before(async () => { [reads, records] = [await token('reads'), await token('reads-and-entries')]; });

  const filled = (path) => path.replace('{kind}', 'transfer').replace('{class}/{id}', 'tools/h1')
    .replace('{name}', 'waste-month').replace('{class}', 'stream').replace(/\{\w+\}/, 'none');
  for (const { id, method, path, operation } of operations) {
    if (operation.security.length === 0) continue;
    test(`and ${id}`, async () => {
      const body = method === 'POST' || method === 'PUT' ? {} : undefined;
      const headers = id === 'sendFile' ? { 'Content-Type': 'image/png' } : {};
      const status = async (as) => (await call(method, filled(path), { as, body, headers })).status;
      for (const [as, good] of [[reads, kGood.has(id)], [records, kGood.has(id) || kRecords.has(id)]]) {
        assert.equal(await status(as) !== 403, good, `${as.scope}: ${await status(as)}`);
      }
    });
  }

  test('records in the name of its maker, without a PIN', async () => {
    const body = drain();
    const answer = await call('POST', '/api/v1/entries', { as: records, body });
    assert.equal(answer.status, 201, answer.text);
    const entry = await read(`/api/v1/entries/${body.id}`, reads);
    assert.equal(entry.person, personOf('manager').id);
    assert.equal(entry.person_verified, false);
    const own = drain({}, { person: personOf('technician').id });
    assert.equal((await call('POST', '/api/v1/entries', { as: records, body: own })).status, 422);
  });

  test('goes as a bearer token only, in no cookie and no query', async () => {
    const headers = { Cookie: `__Host-benchwarden_session=${reads.secret}` };
    assert.equal((await call('GET', '/api/v1/levels', { headers })).status, 401);
    assert.equal((await call('GET', `/api/v1/levels?token=${reads.secret}`)).status, 401);
    const { token: bearer } = await session('manager');
    assert.equal((await call('GET', '/api/v1/levels', { as: { token: `bwt_${bearer}` } })).status, 401);
  });

  test('is listed with its last use and without its secret, and ends when it is ended', async () => {
    const one = await token('reads');
    assert.match(one.secret, /^bwt_[\w-]{43}$/);
    assert.equal((await call('GET', '/api/v1/levels', { as: one })).status, 200);
    const answer = await call('GET', kTokens, { as: 'manager' });
    const listed = answer.json.tokens.find(({ id }) => id === one.id);
    assert.ok(listed.last_used_at);
    assert.ok(!answer.text.includes(one.secret));
    assert.equal((await call('DELETE', `${kTokens}/${one.id}`, { as: 'manager' })).status, 204);
    assert.equal((await call('GET', '/api/v1/levels', { as: one })).status, 401);
    assert.equal((await call('DELETE', `${kTokens}/t99999`, { as: 'manager' })).status, 404);
  });

  test('wants a name, a scope and a last day within a year', async () => {
    const refused = async (body, pointer) => {
      const { status, json } = await make(body);
      assert.equal(status, 422);
      assert.equal(json.errors[0].pointer, pointer);
    };
    await refused({ name: ' ' }, '/name');
    await refused({ name: reads.name }, '/name');
    await refused({ scope: 'everything' }, '/scope');
    for (const last_day of [day(368), day(-2), 'soon', '']) await refused({ last_day }, '/last_day');
  });
});
