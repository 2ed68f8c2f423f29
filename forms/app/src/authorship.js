// Entries that were recorded in somebody's name without a PIN, and what that person says of them.
import { get } from './api.js';
import { record } from './record.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import { withOffset } from './time.js';
import { texts } from '../texts.js';

/** What came from a tablet in the name of the person who is signed in, and is not confirmed yet; an
 *  import at the workshop computer is not asked about. A page that cannot be told of it now is told
 *  with the next sign-in. */
export async function lookUnconfirmed() {
  try {
    const { entries } = await get('/entries/unconfirmed');
    const { session } = store.state;
    store.set({ unconfirmed: entries
      .filter(({ person, device }) => device && person === session?.person) });
  } catch {
    store.set({ unconfirmed: [] });
  }
}

/** Records of the entries with these numbers whether they are the person's. */
export async function confirmEntries(numbers, authorship, asker) {
  const rows = numbers.map((number) => ({ entry_number: number }));
  const { title, said } = texts.authorship;
  const body = { id: uuid7(), kind: 'entries-confirmed', occurred_at: withOffset(new Date()),
    fields: { confirmed_entries: rows, authorship } };
  // Said with care and with the PIN, it is no matter for Undo.
  await record(body, { title, line: said[authorship](numbers.join(', ')), until: 0 }, asker);
  const { unconfirmed } = store.state;
  store.set({ unconfirmed: unconfirmed.filter(({ seq }) => !numbers.includes(seq)) });
}
