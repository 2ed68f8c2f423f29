// Keeps the app's own files, all of one build together, and answers with them. Everything else goes
// to the daemon. The build puts in what FILES (path: SHA-256) and BUILD stand for.
const kCache = `app-${BUILD}`;

async function digest(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

/** A file of another build, as while the daemon is being replaced, ends the installation: the
 *  browser tries again later. */
async function keep(cache, path, expected) {
  const response = await fetch(path, { cache: 'no-store' });
  const bytes = await response.clone().arrayBuffer();
  if (!response.ok || await digest(bytes) !== expected) throw new Error(`${path} is of another build`);
  await cache.put(path, response);
}

async function install() {
  const cache = await caches.open(kCache);
  await Promise.all(Object.entries(FILES).map(([path, expected]) => keep(cache, path, expected)));
}

async function activate() {
  const old = (await caches.keys()).filter((name) => name !== kCache);
  await Promise.all(old.map((name) => caches.delete(name)));
  await self.clients.claim();
}

async function answer(request) {
  const cache = await caches.open(kCache);
  const { pathname } = new URL(request.url);
  return await cache.match(pathname) ?? fetch(request);
}

self.addEventListener('install', (event) => event.waitUntil(install()));
self.addEventListener('activate', (event) => event.waitUntil(activate()));
self.addEventListener('message', (event) => {
  if (event.data === 'take-over') event.waitUntil(self.skipWaiting());
});
self.addEventListener('fetch', (event) => {
  const { method, url } = event.request;
  const { origin, pathname } = new URL(url);
  if (method === 'GET' && origin === self.location.origin && pathname in FILES) {
    event.respondWith(answer(event.request));
  }
});
