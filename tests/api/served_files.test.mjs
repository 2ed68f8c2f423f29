// The app as it is served: each file with its content type, and all of it in these three files.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { send } from './transport.mjs';

const kFiles = { '/': 'text/html; charset=utf-8', '/app.css': 'text/css; charset=utf-8',
  '/app.js': 'text/javascript; charset=utf-8' };

describe('the served app', () => {
  for (const [path, type] of Object.entries(kFiles)) {
    test(`has ${path} as ${type}, not to be taken for another type`, async () => {
      const answer = await send('GET', path);
      assert.equal(answer.status, 200);
      assert.equal(answer.headers['content-type'], type);
      assert.equal(answer.headers['x-content-type-options'], 'nosniff');
      assert.ok(answer.bytes.length > 100);
    });
  }

  test('has one style sheet that asks for no other file', async () => {
    const { text } = await send('GET', '/app.css');
    assert.match(text, /\.keypad/); // of app.css
    assert.match(text, /@media ?\(max-width: ?780px\)/); // of narrow.css
    assert.doesNotMatch(text, /@import|url\(/i);
  });

  test('names in its page only files that are served', async () => {
    const { text } = await send('GET', '/');
    const named = [...text.matchAll(/(?:href|src)="(\/[^"]*)"/g)].map(([, path]) => path);
    assert.deepEqual(named.sort(), ['/app.css', '/app.js']);
  });
});
