// What a correction says: the fields of an entry as a draft of its form, and what differs between
// two drafts. No page, no network.
import { applies, submission } from './draft.js';
import { fromNumber } from './decimal.js';

function textOf(field, value) {
  if (field.type === 'quantity') return fromNumber(value);
  return field.type === 'list' ? value.map((row) => draftOf({ fields: field.columns }, row)) : value;
}

/** Recorded values as the form keeps them while it is filled in. */
export function draftOf({ fields }, values) {
  return Object.fromEntries(fields
    .filter(({ name }) => values[name] !== undefined && values[name] !== null)
    .map((field) => [field.name, textOf(field, values[field.name])]));
}

const said = (form, values) => submission(form, values, { confirmed: [] }).fields;

/** The fields of a correction besides its `action`: those with another value, and in `cleared`
 *  those that are none any more. What no longer applies falls away by itself. */
export function changesBetween(form, before, after) {
  const [stood, stands] = [said(form, before), said(form, after)];
  const differs = (name) => JSON.stringify(stood[name]) !== JSON.stringify(stands[name]);
  const changes = Object.fromEntries(Object.entries(stands).filter(([name]) => differs(name)));
  const cleared = form.fields.filter((field) => field.name in stood && !(field.name in stands)
    && applies(field, after)).map(({ name }) => ({ cleared_field: name }));
  return cleared.length ? { ...changes, cleared } : changes;
}
