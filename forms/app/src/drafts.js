// Forms that are begun and not recorded, under the person who began them; they outlive a reload, and
// all windows of the browser have the same ones.
import { store } from './store.js';
import { vault } from './vault.js';

const listeners = new Set();
const others = new BroadcastChannel('benchwarden-drafts');

others.addEventListener('message', ({ data: { key, draft } }) => {
  take(key, draft);
  listeners.forEach((listener) => listener(key));
});

/** Calls back with the key of every draft that another window changes, until it is let go. */
export const onDraft = (listener) => listeners.add(listener);
export const letGo = (listener) => listeners.delete(listener);

function take(key, draft) {
  if (draft) store.state.drafts[key] = draft;
  else delete store.state.drafts[key];
}

/** A draft that cannot be kept in the browser is still here until the page is loaded anew. */
function write(work) {
  vault().then(work).catch((error) => console.warn('draft not kept', error));
}

export const draftAt = (key) => store.state.drafts[key]?.values;

/** True when the form was left for another screen since the draft was changed. */
export const wasLeft = (key) => Boolean(store.state.drafts[key]?.left);

function put(key, draft) {
  take(key, draft);
  others.postMessage({ key, draft });
  write((db) => db.put('drafts', draft, key));
}

export const keepDraft = (key, values) => put(key, { values, left: false });

export function leaveDraft(key) {
  if (draftAt(key)) put(key, { values: draftAt(key), left: true });
}

/** What is being recorded is not offered as begun meanwhile; as kept, it ends with its row. */
export function forgetDraft(key) {
  delete store.state.drafts[key];
}

export function dropDraft(key) {
  forgetDraft(key);
  others.postMessage({ key, draft: null });
  write((db) => db.delete('drafts', key));
}

export async function recallDrafts() {
  const db = await vault();
  const [keys, drafts] = await Promise.all([db.getAllKeys('drafts'), db.getAll('drafts')]);
  store.state.drafts = Object.fromEntries(keys.map((key, index) => [key, drafts[index]]));
}
