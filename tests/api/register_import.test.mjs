// Things under care from a TOML file: the dry run, all or nothing, and the limit of the body.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { bookSize, call, read } from './client.mjs';

const kPath = '/api/v1/register/import';
const kRooms = `
[[thing]]
class = "room"
id = "annex"
name = "Annex"
volume_m3 = "30"

[[thing]]
class = "stream"
id = "used-oil"
name = "Used damper oil"
`;

const send = (body, as = 'manager') => call('POST', kPath, { as, body });

describe('things under care from a file', () => {
  test('are shown by a dry run, recorded once, and then known', async () => {
    const before = await bookSize();
    const dry = await send({ toml: kRooms, dry_run: true });
    assert.equal(dry.status, 200, dry.text);
    assert.deepEqual(dry.json, { recorded: false, faults: [], things: [
      { thing_class: 'room', thing: 'annex', act: 'added', fields: ['name', 'volume_m3'] },
      { thing_class: 'stream', thing: 'used-oil', act: 'unchanged', fields: [] }] });
    assert.equal(await bookSize(), before);

    const done = await send({ toml: kRooms });
    assert.equal(done.status, 200, done.text);
    assert.deepEqual(done.json, { ...dry.json, recorded: true });
    assert.equal(await bookSize(), before + 1);
    assert.equal((await read('/api/v1/register/room/annex')).attributes.name, 'Annex');

    const again = await send({ toml: kRooms });
    assert.deepEqual(again.json.things.map(({ act }) => act), ['unchanged', 'unchanged']);
    assert.equal(await bookSize(), before + 1);
  });

  test('bring nothing into the book when one of them cannot be', async () => {
    const toml = kRooms.replace('annex', 'barn').replace('used-oil', 'Used Oil');
    const before = await bookSize();
    const dry = await send({ toml, dry_run: true });
    assert.equal(dry.status, 200);
    assert.deepEqual(dry.json.things, []);
    assert.ok(dry.json.faults.length > 0);
    const [fault] = dry.json.faults.filter(({ field }) => field === 'thing');
    assert.deepEqual([fault.line, fault.thing, fault.code], [10, 'stream/Used Oil', 'bad_id']);
    const refused = await send({ toml });
    assert.equal(refused.status, 422);
    assert.equal(refused.json.errors.length, dry.json.faults.length);
    assert.ok(refused.json.errors.some(({ detail }) => detail.startsWith('file:10: ')));
    assert.equal(await bookSize(), before);
  });

  test('are refused with the limit when the file is too long', async () => {
    const { status, json } = await send({ toml: `# ${'x'.repeat(65536)}` });
    assert.equal(status, 413);
    assert.match(json.detail, /65536 bytes/);
  });

  test('come in a body with these members only', async () => {
    for (const [body, pointer] of [[{}, '/toml'], [{ toml: 7 }, '/toml'],
      [{ toml: kRooms, dry_run: 'yes' }, '/dry_run'], [{ toml: kRooms, file: 'a' }, '/file']]) {
      const { status, json } = await send(body);
      assert.equal(status, 422, pointer);
      assert.deepEqual(json.errors.map((error) => error.pointer), [pointer]);
    }
    assert.equal((await send([])).status, 400);
  });
});
