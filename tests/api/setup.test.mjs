// The first start: nobody is entered, and the code on the console makes the first manager.
import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import { call, signIn } from './client.mjs';
import { binary } from './transport.mjs';

const kPin = '274913';
const kShownIn = { units: 'metric', number_format: 'point' };

/** A daemon on an empty folder: {address, code, stop}. */
async function startEmpty(folder) {
  const child = spawn(binary(), ['serve', '--data', folder, '--port', '0'],
    { stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = new Promise((resolve) => { child.on('exit', resolve); });
  let told = '';
  await new Promise((resolve, reject) => {
    child.stdout.on('data', (part) => {
      told += part;
      if (/ on http:\/\/\S+\n/.test(told) && /first manager: \S+\n/.test(told)) resolve();
    });
    child.on('exit', () => reject(new Error(`the daemon ended: ${told}`)));
  });
  return {
    address: / on (http:\/\/\S+)\n/.exec(told)[1],
    code: /first manager: (\S+)/.exec(told)[1],
    stop: async () => { child.kill('SIGTERM'); return ended; },
  };
}

describe('a daemon with nobody in it', () => {
  let folder;
  let daemon;
  before(async () => {
    folder = await mkdtemp(join(tmpdir(), 'empty-workshop-'));
    daemon = await startEmpty(folder);
  });
  after(async () => {
    const code = await daemon?.stop();
    await rm(folder, { recursive: true, force: true });
    assert.equal(code, 0);
  });

  const here = (method, path, more = {}) =>
    call(method, path, { address: daemon.address, ...more });
  const setUp = (body) => here('POST', '/api/v1/setup', { body });

  test('says so', async () => {
    const { json } = await here('GET', '/api/v1/people');
    assert.deepEqual(json, { people: [], setup_needed: true, shown_in: kShownIn });
    assert.equal((await here('GET', '/api/v1/health')).json.book_size, 0);
  });

  test('refuses a wrong code and a PIN that is easily guessed', async () => {
    assert.equal((await setUp({ code: 'WRONG234', name: 'Office', pin: kPin })).status, 403);
    for (const pin of ['123456', '111111', '12345', 'abcdef']) {
      const answer = await setUp({ code: daemon.code, name: 'Office', pin });
      assert.equal(answer.status, 422, pin);
      assert.match(answer.json.detail, /a PIN/);
      assert.deepEqual(answer.json.errors.map(({ pointer }) => pointer), ['/pin']);
    }
    assert.equal((await here('GET', '/api/v1/people')).json.setup_needed, true);
  });

  test('takes its first manager, once', async () => {
    const made = await setUp({ code: daemon.code, name: 'Office', pin: kPin });
    assert.equal(made.status, 201, made.text);
    assert.deepEqual(made.json, { id: 'p1', name: 'Office', role: 'manager' });
    const people = await here('GET', '/api/v1/people');
    assert.deepEqual(people.json, { people: [made.json], setup_needed: false,
      shown_in: kShownIn });
    const again = await setUp({ code: daemon.code, name: 'Another', pin: kPin });
    assert.equal(again.status, 409);
    assert.equal(again.json.type, '/problems/already-set-up');
    assert.equal(again.json.title, 'The first person is entered already');
  });

  test('then lets the manager in, with an empty book in UTC', async () => {
    const { status, json } = await signIn('p1', kPin, daemon.address);
    assert.equal(status, 201);
    const levels = await here('GET', '/api/v1/levels', { as: json });
    assert.deepEqual(levels.json.levels, []);
    assert.match(levels.json.as_of, /Z$|\+00:00$/);
    const report = await here('GET', '/api/v1/reports/waste-month.json?month=2026-01',
      { as: json });
    assert.equal(report.status, 200, report.text);
    assert.equal(report.json.site, null);
    assert.deepEqual(report.json.containers, []);
  });
});
