// A session that was left on this tablet. Its entries are sent under it first, so that they count
// as signed with the PIN; then the daemon is told that it has ended.
import { request } from './api.js';
import { allRows } from './rows.js';
import { onRest, wake } from './sender.js';
import { factOf, setFact } from './vault.js';

async function end(now) {
  const person = await factOf('leaving');
  if (person === null) return;
  const waits = (await allRows()).some((row) => row.person === person && !row.claimed
    && row.state === 'waiting');
  if (waits && !now) return;
  try {
    await request('DELETE', '/session');
  } catch (error) {
    if (error.status !== 401) return; // told with the next rest
  }
  await setFact('leaving', null);
}

let ending = Promise.resolve();

/** Ends what was left once its entries are in the book, or `now`; one after the other. */
export function endLeft(now = false) {
  ending = ending.then(() => end(now)).catch((error) => console.warn(error));
  return ending;
}

export async function leaveSession(person) {
  await setFact('leaving', person);
  await wake();
  await endLeft();
}

onRest(() => endLeft());
