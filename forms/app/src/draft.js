// What has been tapped into one form so far, and what of it is sent. No page, no network.
import { finished, isDecimal, plain } from './decimal.js';
import { pages } from './pages.js';

// The name under which a draft keeps its files; no field has such a name.
const kFiles = '@files';

/** The files of a draft that were sent in: [{digest, media_type, bytes, name}]. */
export const filesOf = (values) => values[kFiles] ?? [];

/** The draft's values with these files. */
export const withFiles = (values, files) => ({ ...values, [kFiles]: files });

/** True when the field applies to the values given so far. */
export function applies(field, values) {
  return (field.when ?? []).every((rule) => rule.codes.includes(values[rule.field]));
}

/** A page can ask for it: a list is filled in elsewhere, a retired field in no new entry. */
export function canAsk(field) {
  return field.type !== 'list' && !field.retired;
}

// Ids of these come into being by being used.
const kByUse = ['collection', 'event', 'stuck-part'];

/** True when an id is written, not chosen from the register. */
export const isWritten = ({ type, thing_class: thingClass }) =>
  type === 'id' && (!thingClass || kByUse.includes(thingClass));

export const isGiven = (values, field) => (values[field.name] ?? '') !== '';

/** True when the page asks for the field every time. */
export function isAsked(form, field) {
  return pages[form.kind]?.main.includes(field.name) ?? Boolean(field.required);
}

/** The fields of the first page ("main"), which must be given, or of the second, which may be. */
export function pageFields(form, values, page) {
  return form.fields.filter((field) =>
    canAsk(field) && applies(field, values) && isAsked(form, field) === (page === 'main'));
}

/** True when the page fills the field in beforehand with what was recorded last. */
export function isOffered(form, field) {
  return pages[form.kind]?.again.includes(field.name) ?? false;
}

/** True when a finding is chosen that calls for the field's help to be read. */
export function needsHeed(form, field, values) {
  const harmless = pages[form.kind]?.harmless?.[field.name];
  return harmless !== undefined && isGiven(values, field) && values[field.name] !== harmless;
}

/** The values a new draft starts with: what was recorded last, where the page offers it again. */
export function firstValues(form, last) {
  const values = {};
  for (const name of pages[form.kind]?.again ?? []) {
    const before = last?.fields?.[name];
    if (typeof before === 'string') values[name] = before;
  }
  return values;
}

/** Names of fields of the first page that are not given or not finished. */
export function missing(form, values) {
  return pageFields(form, values, 'main')
    .filter((field) => (field.type === 'quantity' ? !isDecimal(finished(values[field.name] ?? ''))
      : !isGiven(values, field)))
    .map((field) => field.name);
}

function submitted(field, text) {
  return field.type === 'quantity' ? Number(plain(finished(text))) : text;
}

/** The submission of POST /entries; a field left open or not applying is not sent. */
export function submission(form, values, { id, occurredAt, confirmed }) {
  const fields = {};
  for (const field of form.fields) {
    if (canAsk(field) && applies(field, values) && isGiven(values, field)) {
      fields[field.name] = submitted(field, values[field.name]);
    }
  }
  const body = { id, kind: form.kind, occurred_at: occurredAt, fields };
  const attachments = filesOf(values).map(({ digest }) => digest);
  if (attachments.length) body.attachments = attachments;
  return confirmed.length ? { ...body, confirmed } : body;
}

/** Splits a refusal's faults: by field, to be confirmed, and the rest. */
export function sortFaults(errors) {
  const faults = { byField: {}, confirm: [], general: [] };
  for (const error of errors) {
    const name = /^\/fields\/([^/]+)/.exec(error.pointer ?? '')?.[1];
    if (name && error.code === 'needs_confirmation') faults.confirm.push({ name, ...error });
    else if (name) faults.byField[name] ??= error.detail;
    else faults.general.push(error.detail);
  }
  return faults;
}

/** The last distinct values of a quantity among entries that stand, newest first. */
export function lastValues(entries, name, count) {
  const found = [];
  for (const entry of [...entries].reverse()) {
    const value = entry.fields[name];
    if (typeof value !== 'number' || isStruckOut(entry)) continue;
    const text = plain(String(value));
    if (!found.includes(text)) found.push(text);
    if (found.length === count) break;
  }
  return found;
}

/** True when a later entry struck this one out. */
export function isStruckOut(entry) {
  return (entry.corrections ?? []).some((later) => later.fields?.action === 'struck-out');
}
