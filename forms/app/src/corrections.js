// What a correction says: what differs between two drafts of a form. No page, no network.
import { applies, submission } from './draft.js';

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
