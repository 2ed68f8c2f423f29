// The service worker that keeps the app's own files, so that the app starts without the daemon.
// Browsers have it only where the connection is encrypted or of this machine.
import { store } from './store.js';

const kPath = '/sw.js';
const kLookMs = 60 * 60 * 1000;
const kNudgeMs = 5000;

/** The one address a script of ours may be registered by; see the daemon's content policy. */
function address() {
  const policy = window.trustedTypes?.createPolicy('benchwarden-worker',
    { createScriptURL: () => kPath });
  return policy?.createScriptURL(kPath) ?? kPath;
}

/** A newer app takes over only while nobody is signed in, and then whole: the page is loaded anew,
 *  so that no file of one stands beside one of the other. */
function takeOver(registration) {
  if (registration.waiting && !store.state.session) registration.waiting.postMessage('take-over');
}

/** `controlled`: whether a worker served this page from the start. */
function watch(registration, controlled) {
  let served = controlled;
  navigator.serviceWorker.addEventListener('controllerchange', () => {
    if (served) location.reload();
    served = true;
  });
  const look = () => takeOver(registration);
  registration.addEventListener('updatefound', () =>
    registration.installing?.addEventListener('statechange', look));
  store.addEventListener('change', look);
  setInterval(look, kNudgeMs); // what is told to a waiting worker may be lost
  setInterval(() => registration.update().catch(() => {}), kLookMs);
}

export async function startWorker() {
  if (!navigator.serviceWorker) return;
  const controlled = Boolean(navigator.serviceWorker.controller);
  try {
    watch(await navigator.serviceWorker.register(address(), { updateViaCache: 'none' }), controlled);
  } catch (error) {
    console.warn('the app is not kept', error); // it works all the same, with the daemon
  }
}
