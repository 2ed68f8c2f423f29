// Recorded entries: one by its number, what stands of it after its corrections, and links to it.
import { html } from 'lit';
import { get } from './api.js';
import { texts } from '../texts.js';

/** The entry of this number; null where the book has none. */
export async function entryByNumber(number) {
  const { entries } = await get(`/entries?cursor=${number - 1}&limit=1`);
  return entries[0]?.seq === number ? entries[0] : null;
}

/** The fields a correction changes, with their new values; an emptied one has null. */
export function changed({ fields }) {
  const { action, cleared = [], ...values } = fields;
  for (const row of cleared ?? []) values[row.cleared_field] = null;
  return values;
}

/** The entry that struck this one out; undefined while it counts. */
export const strikeOutOf = ({ corrections }) =>
  corrections.find(({ fields }) => fields.action === 'struck-out');

/** The corrections that changed something, each as {later, before}: what stood before it. */
export function corrected(entry) {
  let before = entry.fields;
  return entry.corrections.filter(({ fields }) => fields.action !== 'struck-out').map((later) => {
    const step = { later, before };
    before = { ...before, ...changed(later) };
    return step;
  });
}

/** The fields as they stand now; an emptied one is none. */
export function standing(entry) {
  const all = corrected(entry).reduce((fields, { later }) => ({ ...fields, ...changed(later) }),
    entry.fields);
  return Object.fromEntries(Object.entries(all).filter(([, value]) => value !== null));
}

/** Who recorded it; what nobody signed in for, the daemon did. */
export const recordedBy = ({ person, person_name: name }) =>
  (person === 'machine' ? texts.people.machine : name);

/** The same with how sure that is: without a PIN, and what the person answered for it since. */
export function signedBy(entry) {
  const name = recordedBy(entry);
  const { person_verified: verified, authorship, confirmed_by: by } = entry;
  if (verified) return name;
  const told = texts.entryPage;
  if (authorship === null) return told.withoutPin(name);
  return authorship === 'mine' ? told.confirmedLater(name, by) : told.disowned(name, by);
}

/** A way to the page of an entry, wherever its number is shown. */
export const entryLink = (number, words = texts.entryPage.number(number)) =>
  html`<a class="button" href=${`#/entry/${number}`}>${words}</a>`;

/** Several of them behind what they are. */
export const entryLinks = (words, numbers) => html`<div class="links entries">
  <p>${words}</p>${numbers.map((number) => entryLink(number))}</div>`;
