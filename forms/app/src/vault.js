// What this tablet keeps over a reload and without the daemon: one database of the browser.
//   rows     entries the book has not acknowledged yet, in the order in which they were made
//   facts    single values by name: device, numbers, session, leaving, touched, offset
//   drafts   forms that are begun and not recorded, by person and address
//   answers  what the daemon said last, by path, for while it is out of reach
import { openDB } from 'idb';

const kVersion = 1;

let opening = null;

function make(db) {
  const rows = db.createObjectStore('rows', { keyPath: 'order', autoIncrement: true });
  rows.createIndex('id', 'id', { unique: true });
  for (const name of ['facts', 'drafts', 'answers']) db.createObjectStore(name);
}

/** The open database; a later version of the app in another tab is not held up by this one. */
export function vault() {
  opening ??= openDB('benchwarden', kVersion, {
    upgrade: make,
    blocking: (_, __, event) => event.target.close(),
    terminated: () => {
      opening = null;
    },
  });
  return opening;
}

export const factOf = async (name) => (await (await vault()).get('facts', name)) ?? null;

export const setFact = async (name, value) => (await vault()).put('facts', value, name);
