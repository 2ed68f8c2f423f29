// What the office is told of backups. That the daemon makes them: tests/daemon.
import assert from 'node:assert/strict';
import { test } from 'node:test';
import { call, read } from './client.mjs';

test('a daemon without a folder for backups says that it makes none, and the rules say so', async () => {
  for (const as of ['manager', 'inspector']) {
    assert.deepEqual(await read('/api/v1/backups', as),
      { scheduled: false, newest: null, failure: null });
  }
  const { findings } = await read('/api/v1/findings', 'inspector');
  const [found, ...others] = findings.filter((one) => one.rule === 'own.backup-age');
  assert.deepEqual(others, []);
  assert.deepEqual([found.severity, found.values.limit], ['due', { value: '3', unit: 'd' }]);
});

test('where backups fail is for the office alone', async () => {
  assert.equal((await call('GET', '/api/v1/backups', { as: 'technician' })).status, 403);
  assert.equal((await call('GET', '/api/v1/backups')).status, 401);
});
