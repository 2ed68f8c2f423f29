// The OpenAPI document: sound in itself, and about this daemon and no other.
import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import { promisify } from 'node:util';
import { document, faultsAt, operations } from './contract.mjs';
import { call, read } from './client.mjs';
import { newerNode } from './newer_node.mjs';
import { drain } from './submissions.mjs';
import { send } from './transport.mjs';

const run = promisify(execFile);
const require = createRequire(import.meta.url);

const kQuiet = { REDOCLY_TELEMETRY: 'off', REDOCLY_SUPPRESS_UPDATE_NOTICE: 'true', NO_COLOR: '1' };

async function lint(path) {
  const cli = join(dirname(require.resolve('@redocly/cli/package.json')), 'bin', 'cli.js');
  const config = new URL('redocly.yaml', import.meta.url).pathname;
  try {
    const done = await run(newerNode(), [cli, 'lint', '--config', config, path],
      { env: { ...process.env, ...kQuiet } });
    return { code: 0, text: done.stdout + done.stderr };
  } catch (failed) {
    return { code: failed.code, text: failed.stdout + failed.stderr };
  }
}

/** A path of the document with something in each of its places. */
const filled = (path) => path.replace('{kind}', 'oil-drained').replace('{class}', 'container')
  .replace('{name}', 'waste-month').replace(/\{\w+\}/g, 'none-such');

describe('the OpenAPI document', () => {
  let folder;
  before(async () => { folder = await mkdtemp(join(tmpdir(), 'openapi-')); });
  after(() => rm(folder, { recursive: true, force: true }));

  const written = async (text) => {
    const path = join(folder, 'openapi.json');
    await writeFile(path, JSON.stringify(text, null, 1));
    return path;
  };

  test('has nothing the linter finds fault with', async () => {
    const { code, text } = await lint(await written(document));
    assert.equal(code, 0, text);
  });

  test('would not pass the linter with a fault in it', async () => {
    const broken = structuredClone(document);
    broken.paths['/api/v1/levels'].get.responses['200'].content['application/json'].schema =
      { $ref: '#/components/schemas/None' };
    const { code, text } = await lint(await written(broken));
    assert.notEqual(code, 0);
    assert.match(text, /schemas\/None/);
  });

  test('names only paths that the daemon has', async () => {
    for (const { method, path } of operations) {
      const answer = await send(method, filled(path), { body: method === 'POST' ? '' : undefined });
      assert.notEqual(answer.status, 405, `${method} ${path}`);
      assert.doesNotMatch(answer.text, /nothing under this path/, `${method} ${path}`);
    }
  });

  test('is told from the daemon\'s other paths by its answers', async () => {
    const none = await call('GET', '/api/v1/none');
    assert.equal(none.status, 404);
    assert.match(none.json.detail, /nothing under this path/);
    const wrong = await call('DELETE', '/api/v1/levels', { as: 'manager' });
    assert.equal(wrong.status, 405);
    assert.equal(wrong.headers.allow, 'GET, HEAD');
  });

  test('describes each form by a schema of its own', async () => {
    const { forms } = await read('/api/v1/forms');
    assert.ok(forms.length >= 11);
    for (const { kind } of forms) {
      const form = await read(`/api/v1/forms/${kind}`);
      const { properties } = document.components.schemas[`Fields_${kind}`];
      const sent = document.components.schemas[`Submission_${kind}`].properties.fields.properties;
      const names = form.fields.map((field) => field.name);
      assert.deepEqual(Object.keys(sent), names, kind);
      // Old entries may hold fields that are no longer in use, beside those that are.
      assert.deepEqual(Object.keys(properties).filter((name) => name in sent), names, kind);
    }
  });

  test('takes a good submission and refuses what the daemon refuses', () => {
    const faults = (body) => faultsAt(body, 'components', 'schemas', 'Submission_oil-drained');
    assert.deepEqual(faults(drain()), []);
    for (const bad of [{ volume_ml: -1 }, { volume_ml: '62' }, { colour: 'brown' },
      { fluid: 'water' }, { container: 'No such id' }, { volume_ml: 20001 }]) {
      assert.notDeepEqual(faults(drain(bad)), [], JSON.stringify(bad));
    }
  });
});
