// This browser as a paired tablet: a manager gives it a name with a one-time code.
import { Refusal, post, request } from './api.js';
import { allRows, beginSequence } from './rows.js';
import { factOf, setFact } from './vault.js';
import { store } from './store.js';

/** The code as the daemon wants it, of what is typed or scanned: ABCD-EFGH. */
export function plainCode(text) {
  const signs = text.toUpperCase().replace(/[^A-Z0-9]/g, '');
  return signs.length > 4 ? `${signs.slice(0, 4)}-${signs.slice(4)}` : signs;
}

/** Asks what this browser is paired as; out of reach, what it was stands. */
export async function lookDevice() {
  store.set({ device: await factOf('device') });
  try {
    const { device, sign_in_by: signInBy = 'pin' } = await request('GET', '/device');
    const known = store.state.device?.id ?? null;
    if (device && device.id !== known) await beginSequence(device);
    else await setFact('device', device);
    store.set({ device, signInBy });
  } catch (error) {
    if (error instanceof Refusal) store.set({ device: null });
  }
}

/** True while something made under the present pairing is not in the book. */
export const hasRows = async () => (await allRows()).length > 0;

/** Pairs; throws the refusal. */
export async function pair(code) {
  const { id, name } = await post('/devices', { code: plainCode(code) });
  await beginSequence({ id, name });
  await navigator.storage?.persist?.();
  await lookDevice();
}
