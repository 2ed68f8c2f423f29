// Records entries of forms and strikes them out again, and tells the bar what became of them.
import { isAway, get } from './api.js';
import { submit } from './outbox.js';
import { onOutcome } from './sender.js';
import { store } from './store.js';
import { withOffset } from './time.js';
import { uuid7 } from './uuid.js';
import { texts } from '../texts.js';

/** How long Undo is offered, in milliseconds. */
export const kUndoMs = 10000;

/** Fetches the levels; what stands there is kept when no answer comes. */
export async function refreshLevels() {
  try {
    store.set({ levels: (await get('/levels')).levels });
  } catch (error) {
    if (!isAway(error)) throw error;
  }
}

/** The same after an entry was recorded, which no fault of the levels undoes. */
export const refreshAfter = () => refreshLevels().catch(() => {});

/** Shows the bar as `next`, unless the tablet has changed hands since `session`: nobody is to undo what
 *  somebody else recorded. */
function showTo(session, next) {
  if (store.state.session === session) store.set({ saved: next });
}

/** What the rules say now about what a recorded entry names: asked for once it is in the book, which
 *  waits for no rule. What cannot be told here stands on the page of findings. */
async function fetchFindings(session, id) {
  const told = await get(`/entries/${id}/findings`).catch(() => null);
  const { saved } = store.state;
  if (told && saved?.id === id) showTo(session, { ...saved, findings: told.findings });
}

/** Records `body`; `about` is {title, line, container, address, until}: what the bar says, where the
 *  form is, and until when Undo is offered, if otherwise; `asker` the screen that is told of a refusal;
 *  `kept` what outbox.js keeps with it. Throws the daemon's refusal. */
export async function record(body, about, asker, kept) {
  const { session } = store.state;
  const receipt = await submit(body, about, asker, kept);
  showTo(session, { id: body.id, seq: receipt?.seq ?? null, findings: [],
    until: Date.now() + kUndoMs, ...about });
  await Promise.all([refreshAfter(), receipt ? fetchFindings(session, body.id) : null]);
}

/** Strikes out what the bar shows. What is on this tablet only is not taken back: both are sent, so
 *  that the book and the numbers of this tablet tell what was done. */
export async function undo(saved, asker) {
  saved.strikeOut ??= {
    id: uuid7(),
    kind: 'correction',
    occurred_at: withOffset(new Date()),
    corrects: saved.id,
    reason: texts.saved.reason,
    fields: { action: 'struck-out' },
  };
  const about = { title: texts.saved.strikeOut, line: saved.line };
  const { session } = store.state;
  const receipt = await submit(saved.strikeOut, about, asker);
  const { saved: shown } = store.state; // it goes when what it shows is refused meanwhile
  if (shown) showTo(session, { ...shown, undone: true, undoneBy: receipt?.seq ?? null });
  await refreshAfter();
}

// What the bar shows may come into the book later.
onOutcome(({ id, receipt }) => {
  const { saved } = store.state;
  if (!saved) return;
  if (!receipt) {
    if (saved.id === id) store.set({ saved: null }); // refused or dropped, as the header says
  } else if (saved.id === id) {
    store.set({ saved: { ...saved, seq: receipt.seq } });
    fetchFindings(store.state.session, id);
  } else if (saved.strikeOut?.id === id) store.set({ saved: { ...saved, undoneBy: receipt.seq } });
});
