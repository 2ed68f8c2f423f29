// Sends the rows of the outbox, the oldest first, until none is left or the daemon wants to be left
// alone. What became of a row is written down first and then told to whoever waits for it, in
// whichever tab that is.
import { NoAnswer, Refusal, request } from './api.js';
import { Backoff } from './backoff.js';
import { clockOffsetMs } from './clock.js';
import { lookDevice } from './device.js';
import { asksForPairing, firstBatch, outcomeOf, ready, sentBody } from './outcome.js';
import { allRows, alterRow, removeRow } from './rows.js';
import { kReach } from './reach.js';
import { factOf } from './vault.js';
import { store } from './store.js';

const kNews = new EventTarget(); // "outcome": {id, receipt} or {id, status, problem}; "rest"
const channel = new BroadcastChannel('benchwarden-outbox');

export const onOutcome = (listener) =>
  kNews.addEventListener('outcome', ({ detail }) => listener(detail));
/** Calls back whenever nothing is being sent: all that can go has gone, or no answer came. */
export const onRest = (listener) => kNews.addEventListener('rest', listener);

const announce = (detail) => kNews.dispatchEvent(new CustomEvent('outcome', { detail }));

channel.addEventListener('message', ({ data }) => announce(data));

/** Tells every tab, this one too. */
export function tell(detail) {
  channel.postMessage(detail);
  announce(detail);
}

/** Thrown to end a round; it goes on after a while. */
class Later extends Error {
  constructor(retryAfterS = null) {
    super('later');
    this.retryAfterS = retryAfterS;
  }
}

/** The id of the pairing, or null. */
const pairing = async () => (await factOf('device'))?.id ?? null;

/** True when the row went as from a paired tablet, which this browser is no more: nothing was said of
 *  the entry, and it waits for its person. */
async function pairingEnded(device, problem) {
  if (device === null || !asksForPairing(problem)) return false;
  await lookDevice();
  return await pairing() === null;
}

async function settle(row, device, status, body) {
  const outcome = outcomeOf(status, body);
  if (outcome === 'again') throw new Later();
  if (outcome === 'accepted') {
    await removeRow(row.id);
    tell({ id: row.id, receipt: body });
  } else if (!await pairingEnded(device, body)) {
    await alterRow(row.id, { state: 'attention', status, problem: body });
    tell({ id: row.id, status, problem: body });
  }
}

async function sendOne(row, device) {
  const text = JSON.stringify(sentBody(row, device, clockOffsetMs()));
  try {
    await settle(row, device, 201, await request('POST', '/entries', text));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    if (outcomeOf(error.status, error.problem) === 'again') throw new Later(error.retryAfterS);
    await settle(row, device, error.status, error.problem);
  }
}

/** False when the daemon refused the request as a whole: its rows have to go one by one. */
async function sendSeveral(rows, device) {
  const bodies = rows.map((row) => sentBody(row, device, clockOffsetMs()));
  let results;
  try {
    ({ results } = await request('POST', '/entries', JSON.stringify(bodies)));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    if (outcomeOf(error.status, error.problem) === 'again') throw new Later(error.retryAfterS);
    return false;
  }
  for (const [index, { status, entry, problem }] of results.entries()) {
    await settle(rows[index], device, status, entry ?? problem);
  }
  return true;
}

/** On a browser that is no paired tablet only who is signed in can send, and only their own; what was
 *  made without a PIN, once they said that it is theirs. */
async function goes(device) {
  if (device !== null) return () => true;
  const { session } = store.state;
  const leaving = await factOf('leaving');
  const sender = session && !session.claimed ? session.person : leaving;
  return ({ person, claimed }) => !claimed && person === sender;
}

async function round() {
  let most;
  for (;;) {
    const device = await pairing();
    const batch = firstBatch(ready(await allRows(), await goes(device)), most);
    if (!batch.length) break;
    if (batch.length === 1) await sendOne(batch[0], device);
    else if (!await sendSeveral(batch, device)) most = 1;
  }
  if (store.state.away) await request('GET', '/health');
}

/** One tab sends at a time. Where the browser has no locks (plain http), two may send the same row:
 *  it has one id, so that the book takes it once. */
const alone = (work) => (navigator.locks ? navigator.locks.request('benchwarden-outbox', work)
  : work());

const backoff = new Backoff();
let timer = null;
let running = null;
let anew = false;

async function untilRest() {
  try {
    do {
      anew = false;
      await alone(round);
    } while (anew);
    backoff.reset();
  } catch (error) {
    if (!(error instanceof Later) && !(error instanceof NoAnswer)) console.error(error);
    timer = setTimeout(goOn, backoff.next((error.retryAfterS ?? 0) * 1000));
  } finally {
    running = null;
    kNews.dispatchEvent(new Event('rest'));
  }
}

function goOn() {
  clearTimeout(timer);
  timer = null;
  if (running) anew = true;
  else running = untilRest();
  return running;
}

/** Sends what waits, now, and waits shortly again if that fails; resolves when nothing is being
 *  sent any more. */
export function wake() {
  backoff.reset();
  return goOn();
}

/** Besides a new entry, these are signs that the daemon may answer. */
export function beginSending() {
  window.addEventListener('online', wake);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') wake();
  });
  kReach.addEventListener('back', wake);
  store.addEventListener('change', () => {
    if (store.state.away && !running && timer === null) goOn();
  });
}
