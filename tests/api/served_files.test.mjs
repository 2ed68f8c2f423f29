// The app as it is served: each file with its content type, and the list of them in the script that
// keeps the app on a tablet.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { describe, test } from 'node:test';
import { gunzipSync } from 'node:zlib';
import { send } from './transport.mjs';

const kFiles = { '/': 'text/html; charset=utf-8', '/app.css': 'text/css; charset=utf-8',
  '/app.js': 'text/javascript; charset=utf-8', '/sw.js': 'text/javascript; charset=utf-8',
  '/icon.svg': 'image/svg+xml', '/manifest.webmanifest': 'application/manifest+json' };

/** What a tablet waits for in a weak network before anybody can sign in, in bytes as they are sent. */
const kFirstLoadMax = 120000;
const kTakesGzip = { headers: { 'Accept-Encoding': 'gzip, deflate, br' } };

/** The page, what it names, and what these parts of the app begin by importing. */
async function firstLoad() {
  const { text: page } = await send('GET', '/');
  const paths = ['/', ...[...page.matchAll(/(?:href|src)="(\/[^"]*)"/g)].map(([, path]) => path)];
  for (const path of paths) { // grows on the way
    if (!path.endsWith('.js')) continue;
    const { text } = await send('GET', path);
    for (const [, part] of text.matchAll(/(?:from|import)\s*"\.(\/[^"]+)"/g)) {
      if (!paths.includes(part)) paths.push(part);
    }
  }
  return paths;
}

describe('the served app', () => {
  for (const [path, type] of Object.entries(kFiles)) {
    test(`has ${path} as ${type}, asked about each time, not to be taken for another type`,
      async () => {
        const answer = await send('GET', path);
        assert.equal(answer.status, 200);
        assert.equal(answer.headers['content-type'], type);
        assert.equal(answer.headers['cache-control'], 'no-cache');
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
    assert.deepEqual(named.sort(), ['/app.css', '/app.js', '/icon.svg', '/manifest.webmanifest']);
  });

  test('keeps on a tablet the very files that are served, and its scripts name no other',
    async () => {
      const { text: worker } = await send('GET', '/sw.js');
      const listed = [...worker.matchAll(/"(\/[^"]*)":"([0-9a-f]{64})"/g)];
      const paths = listed.map(([, path]) => path);
      for (const path of Object.keys(kFiles).filter((one) => one !== '/sw.js')) {
        assert.ok(paths.includes(path), path);
      }
      for (const [, path, digest] of listed) {
        const { status, bytes } = await send('GET', path);
        assert.equal(status, 200, path);
        assert.equal(createHash('sha256').update(bytes).digest('hex'), digest, path);
      }
      const { text: app } = await send('GET', '/app.js');
      for (const [, part] of app.matchAll(/import\("\.(\/[^"]+)"\)/g)) {
        assert.ok(paths.includes(part), part);
      }
    });

  test('is loaded for the first time in few bytes, each file packed', async () => {
    const paths = await firstLoad();
    for (const path of ['/', '/app.css', '/app.js', '/chunk.js']) {
      assert.ok(paths.includes(path), path);
    }
    assert.ok(!paths.includes('/charts.js'), 'loaded where it is needed');
    let sent = 0;
    for (const path of paths) {
      const { status, headers, bytes } = await send('GET', path, kTakesGzip);
      assert.equal(status, 200, path);
      assert.equal(headers['content-encoding'], 'gzip', path);
      assert.equal(Number(headers['content-length']), bytes.length, path);
      sent += bytes.length;
    }
    assert.ok(sent <= kFirstLoadMax, `${sent} bytes for ${paths.join(' ')}`);
  });

  test('is the same packed and plain, under tags of their own', async () => {
    for (const path of Object.keys(kFiles)) {
      const plain = await send('GET', path);
      const packed = await send('GET', path, kTakesGzip);
      assert.deepEqual(gunzipSync(packed.bytes), plain.bytes, path);
      assert.equal(plain.headers['content-encoding'], undefined, path);
      for (const { headers } of [plain, packed]) assert.equal(headers.vary, 'Accept-Encoding', path);
      assert.notEqual(packed.headers.etag, plain.headers.etag, path);
      const { status, bytes } = await send('GET', path, { headers: { ...kTakesGzip.headers,
        'If-None-Match': packed.headers.etag } });
      assert.deepEqual([status, bytes.length], [304, 0], path);
    }
  });

  test('packs nothing of the interface', async () => {
    const { headers } = await send('GET', '/api/v1/health', kTakesGzip);
    assert.equal(headers['content-encoding'], undefined);
  });

  test('names an icon in its manifest that is served', async () => {
    const { icons, display, start_url: start } = JSON.parse((await send('GET',
      '/manifest.webmanifest')).text);
    assert.equal(display, 'standalone');
    assert.ok(start in kFiles);
    for (const { src } of icons) assert.ok(src in kFiles, src);
  });
});
