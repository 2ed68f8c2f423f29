// The app that a tablet keeps is replaced as a whole, when nobody is signed in, and never by files
// of two builds. The daemon is reached through a gate here that can put other files in its place.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { createServer } from 'node:http';
import { request } from 'node:https';
import { text } from 'node:stream/consumers';
import { after, before, describe, test } from 'node:test';
import { button, demo, launch, openTablet, personOf, signIn, until } from './tablet.mjs';

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

const { host, hostname, port } = new URL(demo.address);

/** Asks the demo's daemon, which is on this machine whatever its name; `reply` gets the answer. */
const ask = (options, reply) =>
  request({ hostname: '127.0.0.1', servername: hostname, port, ...options }, reply);

/** Hands everything on to the demo's daemon but the files in `instead`. */
async function gate(instead) {
  const server = createServer((incoming, answer) => {
    const headers = { ...incoming.headers, host };
    if (headers.origin) headers.origin = demo.address;
    delete headers['if-none-match']; // of the file that another one stands in for
    const onward = ask({ path: incoming.url, method: incoming.method, headers }, (reply) => {
      const other = instead[incoming.url];
      const { etag, 'content-length': length, 'content-encoding': packing, ...others } =
        reply.headers;
      answer.writeHead(reply.statusCode, other ? others : reply.headers);
      if (other) answer.end(other);
      else reply.pipe(answer);
    });
    incoming.pipe(onward);
  });
  await new Promise((resolve) => { server.listen(0, '127.0.0.1', resolve); });
  return { address: `http://127.0.0.1:${server.address().port}`, close: () => server.close() };
}

const fetchText = (path) => new Promise((resolve, reject) => {
  ask({ path, headers: { Host: host } }, async (reply) => resolve(await text(reply)))
    .on('error', reject).end();
});

/** The present build with a line more in app.js. */
async function nextBuild() {
  const [app, worker] = await Promise.all([fetchText('/app.js'), fetchText('/sw.js')]);
  const changed = `${app}\n// the next build\n`;
  return { '/app.js': changed, '/sw.js': worker.replace(sha256(app), sha256(changed))
    .replace(/app-[0-9a-f]{64}/, `app-${sha256(changed)}`) };
}

describe('the app kept on a tablet', () => {
  let browser;
  let tablet;
  let page;
  let gateway;
  const instead = {};

  /** A tablet that keeps the present build, with somebody signed in. */
  async function keepPresent() {
    for (const path of Object.keys(instead)) delete instead[path];
    await tablet?.context.close();
    tablet = await openTablet(browser);
    page = tablet.page;
    await signIn(tablet, personOf('technician'), gateway.address);
    await page.evaluate(() => navigator.serviceWorker.ready);
  }

  before(async () => {
    browser = await launch();
    gateway = await gate(instead);
    await keepPresent();
  });
  after(async () => {
    await browser?.close();
    gateway?.close();
  });

  const builds = () => page.evaluate(() => caches.keys());
  const script = () => page.evaluate(async () => (await fetch('/app.js')).text());
  const update = () => page.evaluate(async () => {
    const registration = await navigator.serviceWorker.ready;
    await registration.update();
    const worker = registration.installing;
    if (worker) {
      await new Promise((resolve) => {
        worker.addEventListener('statechange', resolve, { once: true });
      });
    }
  });

  /** In the page: what there is of workers, and whether anybody is signed in. */
  const workers = async () => {
    const { active, installing, waiting } = await navigator.serviceWorker.getRegistration();
    return JSON.stringify([[active, installing, waiting].map((worker) => worker?.state ?? null),
      document.body.innerText.slice(0, 120)]);
  };

  test('stays as it is while the files of a new build are not all there', async () => {
    const kept = await script();
    const next = await nextBuild();
    instead['/sw.js'] = next['/sw.js']; // and app.js is still the old one
    await update();
    assert.equal(await script(), kept);
    assert.equal(await page.evaluate(async () =>
      (await navigator.serviceWorker.getRegistration()).waiting), null);
  });

  async function takeOver() {
    Object.assign(instead, await nextBuild());
    await until(page, async () => {
      const registration = await navigator.serviceWorker.ready;
      await registration.update();
      return Boolean(registration.waiting);
    });
    assert.doesNotMatch(await script(), /the next build/);
    const anew = page.waitForEvent('load', { timeout: 30000 });
    await button(page, 'Next person').tap();
    await anew;
  }

  test('waits for the person to leave, then is the new one and nothing else', async () => {
    for (let tries = 1; ; tries += 1) {
      try {
        await takeOver();
        break;
      } catch (error) {
        // A browser may let a new worker wait for minutes while the old one has something to do.
        if (error.name !== 'TimeoutError' || tries === 3) throw error;
        console.log(`not taken over: ${await page.evaluate(workers)}`);
        await keepPresent();
      }
    }
    await until(page, async () =>
      (await (await fetch('/app.js')).text()).includes('the next build'));
    await page.locator('button.person').first().waitFor();
    assert.equal((await builds()).length, 1);
    assert.deepEqual(tablet.complaints, []);
  });
});
