// Rule packs: the built-in ones to copy, a pack of the workshop's own on top of them, what is kept
// until when, and acknowledgements of findings.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { after, before, describe, test } from 'node:test';
import { bookSize, call, read, record, recorded } from './client.mjs';
import { ago, freshId, newContainer, strikeOut, submission } from './submissions.mjs';

const kLocal = '/api/v1/rules/local';
const sha256 = (text) => createHash('sha256').update(text).digest('hex');
const put = (toml, as = 'manager') => call('PUT', kLocal, { as, body: { toml } });

const pack = (days, name = 'ours') => `pack = "${name}"
title = "Our rules"
edition = "2026-11-01"
remarks = "Stricter than what the law asks for."
[[rules]]
id = "ours.clock"
kind = "storage-clock"
citation = "our permit, condition 4"
edition = "2026"
confidence = "from-memory"
sentence = "So many days."
clears = "Emptying it."
figures = { limit = { value = "${days}", unit = "d" } }
`;

async function filled(occurredAt = ago(0), volume = 5000) {
  const container = freshId('l');
  await recorded(newContainer(container), 'manager');
  const body = submission('oil-drained', { container, volume_ml: volume },
    { confirmed: ['volume_ml'], occurred_at: occurredAt });
  const receipt = await recorded(body);
  const { findings } = await read(`/api/v1/entries/${body.id}/findings`);
  return { container, findings, ...receipt };
}

describe('rule packs', () => {
  after(() => put(''));

  test('are there with their texts, to be copied', async () => {
    const { built_in: builtIn, local } = await read('/api/v1/rules/packs', 'inspector');
    assert.equal(local, null);
    assert.deepEqual(builtIn.map((one) => one.pack).sort(),
      ['england', 'eu-generic', 'standards', 'us-federal', 'workshop']);
    for (const one of builtIn) {
      assert.equal(sha256(one.toml), one.digest);
      assert.match(one.toml, /\[\[rules\]\]/);
    }
    const inForce = builtIn.filter((one) => one.in_force).map((one) => one.pack);
    assert.ok(inForce.includes('workshop') && inForce.includes('standards'), inForce.join());
  });

  test('of the workshop\'s own judge on top of the others, and are kept', async () => {
    const { container } = await filled();
    const toml = pack(30);
    const { status, json, text } = await put(toml);
    assert.equal(status, 200, text);
    assert.equal(json.local.digest, sha256(toml));
    assert.equal(json.local.toml, toml);
    const { entries } = await read('/api/v1/entries?kind=rules-adopted&limit=500');
    const adoption = entries.find((one) => one.seq === json.seq);
    assert.equal(adoption.fields.layer, 'local');
    assert.equal(adoption.fields.digest, sha256(toml));
    assert.deepEqual(adoption.attachments, [sha256(toml)]);
    const { items } = await read('/api/v1/due');
    const item = items.find((one) => one.rule === 'ours.clock' &&
                                     one.subject === `container/${container}`);
    assert.match(item.sentence, /30.days end on \d{4}-\d\d-\d\d/);
    assert.equal(item.confidence, 'from-memory');
    const { rules, packs } = await read('/api/v1/rules');
    assert.equal(packs.at(-1).digest, sha256(toml));
    assert.ok(rules.some((one) => one.rule === 'ours.clock' && one.pack_digest === sha256(toml)));
  });

  test('judge a book of before by what was in force then', async () => {
    await put(pack(30));
    const size = await bookSize();
    await put(pack(20));
    const packsAt = async (query) => (await read(`/api/v1/findings${query}`)).packs.at(-1).digest;
    assert.equal(await packsAt(`?known_at=${size}`), sha256(pack(30)));
    assert.equal(await packsAt(''), sha256(pack(20)));
  });

  test('are withdrawn by an empty text', async () => {
    await put(pack(30));
    const { json } = await put('');
    assert.equal(json.local, null);
    assert.ok(!(await read('/api/v1/rules')).rules.some((one) => one.rule === 'ours.clock'));
    assert.equal((await put('')).status, 409);
  });

  test('are refused with line and reason of every fault, and nothing of them is used', async () => {
    await put(pack(30));
    const size = await bookSize();
    const faulty = pack('many').replace('storage-clock', 'moon-phase') + 'extra = 1\n';
    for (const [toml, reason] of [[faulty, /^line 5: .*moon-phase/], ['pack = ', /^line 1: /],
      [pack(30, 'england'), /built in; accepted: another name/]]) {
      const { status, json, text } = await put(toml);
      assert.equal(status, 422, text);
      assert.ok(json.errors.every((one) => one.pointer === '/toml' && one.code === 'bad_pack'));
      assert.ok(json.errors.some((one) => reason.test(one.detail)), text);
    }
    assert.equal(await bookSize(), size);
    assert.ok((await read('/api/v1/rules')).rules.some((one) => one.rule === 'ours.clock'));
  });

  test('are looked through for faults without being put in force', async () => {
    const size = await bookSize();
    const check = (toml, as = 'manager') => call('POST', '/api/v1/rules/check', { as, body: { toml } });
    assert.deepEqual((await check(pack(30))).json,
      { pack: { pack: 'ours', title: 'Our rules', edition: '2026-11-01', rules: 1 }, faults: [] });
    const { status, json } = await check(pack(-30));
    assert.equal(status, 200);
    assert.equal(json.pack, null);
    assert.deepEqual(json.faults, [{ line: 13, detail: 'figure \'limit\' is \'-30\', accepted: '
      + 'a whole number from 0 to 3650' }]);
    assert.equal((await check(pack(30), 'technician')).status, 403);
    assert.equal(await bookSize(), size);
  });

  test('tell of every figure how well it is known', async () => {
    const { rules } = await read('/api/v1/rules');
    const oxygen = rules.find((one) => one.rule === 'std.o2.osha');
    assert.deepEqual(oxygen.figures.limit, { value: '19.5', unit: 'percent', confidence: 'text-seen' });
    assert.equal(oxygen.figures.baseline.confidence, 'own-rule');
    assert.equal(oxygen.confidence, 'text-seen', 'whatever figure of the workshop stands beside it');
    assert.match(oxygen.says, /20\.9 % before is a figure of the workshop's own/);
    const zoned = (rule) => rules.find((one) => one.rule === rule).confidence;
    assert.equal(zoned('std.asme.zoned'), 'second-hand');
    assert.equal(zoned('std.asme.zoned_c_d'), 'from-memory');
  });

  test('are put in force by managers alone', async () => {
    assert.equal((await put(pack(30), 'technician')).status, 403);
    assert.equal((await put(pack(30), 'inspector')).status, 403);
    const adoption = submission('rules-adopted', { pack: 'ours', edition: '1', layer: 'local',
      digest: sha256('') });
    const { status, json } = await record(adoption, 'manager');
    assert.equal(status, 422);
    assert.equal(json.errors[0].code, 'not_allowed');
  });
});

describe('an acknowledgement', () => {
  let key;
  let raised;
  const acknowledge = (finding, more = {}) => submission('finding-acknowledged',
    { finding, reason_given: 'collection ordered', ...more });
  const standing = async () => (await read('/api/v1/findings')).findings
    .find((one) => one.key === key);
  before(async () => {
    raised = await filled(ago(0), 9500);
    key = raised.findings.find((one) => one.rule === 'own.working-limit').key;
  });

  test('is shown in the finding, which stays', async () => {
    assert.equal((await standing()).acknowledged_by_entry, null);
    const { seq } = await recorded(acknowledge(key), 'manager');
    assert.equal((await standing()).acknowledged_by_entry, seq);
    const action = submission('action-closed', { about: 'finding', finding: key,
      what_was_done: 'emptied into the drum', effective: 'no' });
    const { seq: closed } = await recorded(action);
    assert.equal((await standing()).action_closed_by_entry, closed);
  });

  test('lapses on the day it names', async () => {
    const { today } = await read('/api/v1/months');
    await recorded(acknowledge(key, { until: today }), 'manager');
    assert.equal((await standing()).acknowledged_by_entry, null);
  });

  test('of what does not stand is refused, and says what is accepted', async () => {
    const size = await bookSize();
    for (const body of [acknowledge('own.working-limit container/none over 2026-01-01T00:00:00Z'),
      submission('action-closed', { about: 'finding', finding: 'f-1', what_was_done: 'looked',
        effective: 'yes' })]) {
      const { status, json } = await record(body, 'manager');
      assert.equal(status, 422);
      assert.deepEqual(json.errors.map((one) => [one.pointer, one.code]),
        [['/fields/finding', 'unknown_finding']]);
      assert.match(json.errors[0].detail, /Accepted: .*findings/);
    }
    assert.equal(await bookSize(), size);
    await recorded(strikeOut(raised.id));
    const { status, json } = await record(acknowledge(key), 'manager');
    assert.equal(status, 422);
    assert.equal(json.errors[0].code, 'unknown_finding');
  });
});

test('holds of authorities are told with what is kept', async () => {
  const authority = `Agency ${freshId('h')}`;
  const hold = (state, more = {}) => submission('hold', { hold: state, authority, ...more });
  const { seq } = await recorded(hold('placed', { scope: 'all of 2026' }), 'manager');
  const { holds, kept } = await read('/api/v1/retention', 'inspector');
  assert.ok(holds.some((one) => one.entry === seq && one.authority === authority));
  for (const rule of kept) {
    assert.ok(rule.citation.length > 3);
    assert.ok(rule.entries.every((one) => one.until === null), 'a hold has no end');
  }
  await recorded(hold('lifted'), 'manager');
  assert.ok(!(await read('/api/v1/retention')).holds.some((one) => one.authority === authority));
});
