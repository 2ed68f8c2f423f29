// Sends the rows of the outbox, the oldest first, until none is left or the daemon wants to be left
// alone. What became of a row is written down first and then told to whoever waits for it, in
// whichever tab that is.
import { NoAnswer, Refusal, request } from './api.js';
import { Backoff } from './backoff.js';
import { clockOffsetMs } from './clock.js';
import { firstBatch, outcomeOf, ready, sentBody } from './outcome.js';
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

async function settle(row, status, body) {
  const outcome = outcomeOf(status, body);
  if (outcome === 'again') throw new Later();
  if (outcome === 'accepted') {
    await removeRow(row.id);
    tell({ id: row.id, receipt: body });
  } else {
    await alterRow(row.id, { state: 'attention', status, problem: body });
    tell({ id: row.id, status, problem: body });
  }
}

async function sendOne(row, paired) {
  const text = JSON.stringify(sentBody(row, paired, clockOffsetMs()));
  try {
    await settle(row, 201, await request('POST', '/entries', text));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    if (outcomeOf(error.status, error.problem) === 'again') throw new Later(error.retryAfterS);
    await settle(row, error.status, error.problem);
  }
}

/** False when the daemon refused the request as a whole: its rows have to go one by one. */
async function sendSeveral(rows, paired) {
  const bodies = rows.map((row) => sentBody(row, paired, clockOffsetMs()));
  let results;
  try {
    ({ results } = await request('POST', '/entries', JSON.stringify(bodies)));
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    if (outcomeOf(error.status, error.problem) === 'again') throw new Later(error.retryAfterS);
    return false;
  }
  for (const [index, { status, entry, problem }] of results.entries()) {
    await settle(rows[index], status, entry ?? problem);
  }
  return true;
}

/** On a browser that is no paired tablet only who is signed in can send, and only their own. */
async function goes(paired) {
  if (paired) return () => true;
  const { session } = store.state;
  const leaving = await factOf('leaving');
  return ({ person }) => person === (session && !session.claimed ? session.person : leaving);
}

async function round() {
  const paired = await factOf('device') !== null;
  let most;
  for (;;) {
    const mayGo = await goes(paired);
    const batch = firstBatch(ready(await allRows()).filter(mayGo), most);
    if (!batch.length) break;
    if (batch.length === 1) await sendOne(batch[0], paired);
    else if (!await sendSeveral(batch, paired)) most = 1;
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
