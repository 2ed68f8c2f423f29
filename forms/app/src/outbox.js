// The one way out for entries. An entry is kept on this tablet first, then sent; it is taken from
// here when the book has it. What the daemon refuses while its form waits is the form's to show;
// what it refuses later stays here, for somebody's attention.
import { Refusal } from './api.js';
import { clockOffsetMs } from './clock.js';
import { dropDraft } from './drafts.js';
import { isUndone, needOf, withFollowers } from './outcome.js';
import { allRows, alterRow, dropRows, releaseRow, replaceRow, rowAt, storeRow } from './rows.js';
import { beginSending, onOutcome, onRest, tell, wake } from './sender.js';
import { saveAs } from './save-file.js';
import { store } from './store.js';
import { texts } from '../texts.js';

const kAnswerMs = 4000; // a form waits so long for the book
const kAwayMs = 1000; // the same, while the daemon is out of reach

const waiters = new Map(); // id of the row -> what to call with its outcome

/** The rows as screens show them; drawn anew whenever they change. */
export async function refresh() {
  store.set({ rows: await allRows() });
}

/** What a person has to see to about the row, as far as this tablet knows what it is. */
export function needIn({ started, device, people }, row) {
  return needOf(row, !started || device !== null, people);
}

/** {waiting, attention}: how many. */
export function counts() {
  const { rows } = store.state;
  const attention = rows.filter((row) => needIn(store.state, row)).length;
  return { waiting: rows.length - attention, attention };
}

/** What becomes of a row within the time a person waits; null when that is not known by then. */
function outcome(id) {
  return new Promise((resolve) => {
    const done = (result) => {
      clearTimeout(timer);
      waiters.delete(id);
      resolve(result);
    };
    const timer = setTimeout(done, store.state.away ? kAwayMs : kAnswerMs, null);
    waiters.set(id, done);
  });
}

function newRow(body, about, draft) {
  const { person, name, claimed = false } = store.state.session;
  return { id: body.id, state: 'waiting', person, name, claimed, body, about, draft,
    offset: clockOffsetMs() };
}

/** What was to be replaced is not there to be mended any more. */
class Gone extends Error {
  problem = { detail: texts.outbox.gone };
}

/** Keeps the entry and sends it. Returns the receipt, or null when it is on this tablet only for
 *  now. Throws the daemon's Refusal: then nothing of it is left here, but where it `replaces` what
 *  needs attention (the `order` of that row), or the `asker`, the screen, is gone: then it needs
 *  attention, and the Refusal is `kept`. `about`: {title, line, address}, what people know it by,
 *  `lines` with more of what it says, and `mends` or `page`, where it is mended or recorded anew;
 *  `draft`: the values its form can be opened with, and under which key they are kept as begun. */
export async function submit(body, about, asker,
  { draft = null, draftKey = '', replaces = null } = {}) {
  const row = newRow(body, about, draft);
  if (replaces === null) await storeRow(row, draftKey);
  else if (!await replaceRow(replaces, row)) throw new Gone();
  if (replaces === null && draftKey) dropDraft(draftKey); // for all windows
  const answer = outcome(row.id);
  await refresh();
  wake();
  const result = await answer;
  const kept = replaces !== null || !asker.isConnected;
  if (result?.status && !kept) await releaseRow(row.id);
  await refresh();
  if (result?.status) throw Object.assign(new Refusal(result.status, result.problem), { kept });
  return result?.receipt ?? null;
}

/** Sends a row that needs attention as it is: what spoke against it may have passed. */
export async function sendAgain(id, change = {}) {
  await alterRow(id, { state: 'waiting', status: null, problem: null, ...change });
  await refresh();
  await wake();
}

/** Sends a row that was made without a PIN as made by who is signed in with it. */
export const sendAsOwn = (id) => sendAgain(id, { claimed: false });

/** Drops a row that needs attention, and what would have corrected it. */
export async function drop(id) {
  await dropRows(withFollowers(await allRows(), id));
  tell({ id });
  await refresh();
}

/** True of a row that needs attention and was not undone: then nothing of it is wanted. */
export const mayMend = (row) => row?.state === 'attention' && !isUndone(store.state.rows, row);

export { rowAt };

/** All rows as a file, for when nothing else helps. */
export function saveRows() {
  const text = JSON.stringify({ app: 'benchwarden', saved_at: new Date().toISOString(),
    device: store.state.device, rows: store.state.rows }, null, 2);
  saveAs(`entries-${new Date().toISOString().slice(0, 10)}.json`, text, 'application/json');
}

export async function beginOutbox() {
  onOutcome((result) => {
    waiters.get(result.id)?.(result);
    refresh();
  });
  onRest(() => {
    for (const done of waiters.values()) done(null);
  });
  document.addEventListener('visibilitychange', refresh); // another tab may have kept more
  await refresh();
  beginSending();
}
