// How the program runs, as somebody is told who cannot see the machine; held to what else it says and
// to the system it runs on.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { release } from 'node:os';
import { bookSize, call, read } from './client.mjs';

test('sizes, times and versions are those of the book and of this machine', async () => {
  const before = Date.now();
  const told = await read('/api/v1/diagnostics');
  assert.equal(told.book.entries, await bookSize());
  assert.equal(told.book.tallied, told.book.entries);
  const checkpoint = await read('/api/v1/book/checkpoint');
  assert.equal(told.book.root, Buffer.from(checkpoint.root, 'base64').toString('hex'));
  const health = await read('/api/v1/health');
  assert.equal(told.program.version, health.version);
  assert.match(told.machine.system, new RegExp(`^Linux ${release().replaceAll('.', '\\.')} `));
  assert.ok(Math.abs(Date.parse(told.machine.now) - before) < 60000, told.machine.now);
  assert.ok(Date.parse(told.machine.started_at) <= Date.parse(told.machine.now));
  assert.ok(told.machine.disk_free_bytes <= told.machine.disk_bytes);
  assert.ok(told.machine.open_files < told.machine.open_files_max);
  assert.ok(told.book.files.find(({ name }) => name === 'book.db').bytes > 100000);
});

test('requests are counted by how they were answered', async () => {
  const { requests: before } = await read('/api/v1/diagnostics');
  assert.equal((await call('GET', '/api/v1/entries/none-such', { as: 'manager' })).status, 404);
  const { requests: after, connections } = await read('/api/v1/diagnostics');
  assert.ok(after.refused > before.refused);
  assert.ok(after.succeeded > before.succeeded);
  assert.ok(after.slowest.ms >= before.slowest.ms);
  assert.match(after.slowest.path, /^\//);
  assert.ok(connections.admitted > 0);
});

test('nothing in it names a person, and it is for managers', async () => {
  const { text } = await call('GET', '/api/v1/diagnostics', { as: 'manager' });
  const { people } = (await call('GET', '/api/v1/people')).json;
  assert.ok(people.length > 2);
  for (const { name } of people) assert.ok(!text.includes(name), name);
  for (const as of ['technician', 'inspector']) {
    assert.equal((await call('GET', '/api/v1/diagnostics', { as })).status, 403, as);
  }
});
