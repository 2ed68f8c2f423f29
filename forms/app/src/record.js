// Sends entries and strikes them out again. An entry without an answer is kept and sent again as
// it was, with the same id, so that it can stand in the book only once.
import { NoAnswer, get, post } from './api.js';
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
    if (!(error instanceof NoAnswer)) throw error;
  }
}

/** Records `body`; `about` is {line, container, address}: what the bar says, and where the form is.
 *  Throws Refusal or NoAnswer. */
export async function record(body, about) {
  const { person } = store.state.session;
  let receipt;
  try {
    receipt = await post('/entries', body);
  } catch (error) {
    store.set({ pending: error instanceof NoAnswer ? { person, body, about } : null });
    throw error;
  }
  const saved = { id: body.id, seq: receipt.seq, findings: receipt.findings,
    until: Date.now() + kUndoMs, ...about };
  store.set({ pending: null, saved });
  await refreshLevels();
}

/** Strikes out what the bar shows. The strike-out keeps its id when it has to be sent again. */
export async function undo(saved) {
  saved.strikeOut ??= {
    id: uuid7(),
    kind: 'correction',
    occurred_at: withOffset(new Date()),
    corrects: saved.id,
    reason: texts.saved.reason,
    fields: { action: 'struck-out' },
  };
  const receipt = await post('/entries', saved.strikeOut);
  store.set({ saved: { ...saved, undoneBy: receipt.seq } });
  await refreshLevels();
}
