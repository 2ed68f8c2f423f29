// What has been tapped into one form so far, and what of it is sent. No page, no network.
import { finished, fromNumber, isDecimal, plain } from './decimal.js';
import { pages } from './pages.js';
import { typedHere, typedUnits } from './units.js';

// The name under which a draft keeps its files; no field has such a name.
const kFiles = '@files';

/** The files of a draft that were sent in: [{digest, media_type, bytes, name}]. */
export const filesOf = (values) => values[kFiles] ?? [];

/** The draft's values with these files. */
export const withFiles = (values, files) => ({ ...values, [kFiles]: files });

const kUnit = '@unit/';

/** The unit a quantity of the draft is typed in. */
export const unitIn = (values, field) => values[kUnit + field.name] ?? typedUnits(field)[0];

/** What a draft says besides a quantity's digits when they are in this unit. */
export const unitSaid = (name, id) => ({ [kUnit + name]: id });

/** True when it says a unit, not what is filled in. */
export const isUnitSaid = (name) => name.startsWith(kUnit);

/** What stands in the book is in the unit it is kept in, whatever the workshop types in. */
const keptUnit = (field) => (field.type === 'quantity' && typedUnits(field)[0] !== field.unit.id
  ? unitSaid(field.name, field.unit.id) : {});

function asDraft(field, value) {
  if (field.type === 'list') return value.map((row) => draftOf(field.columns, row));
  return typeof value === 'number' ? fromNumber(value) : String(value);
}

/** What stands in the book or the register, as the form keeps it while it is filled in. */
export function draftOf(fields, values) {
  const given = fields.filter((field) => (values[field.name] ?? null) !== null);
  return Object.assign({}, ...given.map((field) => (
    { [field.name]: asDraft(field, values[field.name]), ...keptUnit(field) })));
}

/** True when the field applies to the values given so far. */
export function applies(field, values) {
  return (field.when ?? []).every((rule) => rule.codes.includes(values[rule.field]));
}

/** A page can ask for it: a retired field stands in no new entry. */
export const canAsk = (field) => !field.retired;

/** The rows of a list given so far. */
export const rowsOf = (values, list) => values[list.name] ?? [];

// Ids of these come into being by being used.
const kByUse = ['collection', 'event', 'stuck-part'];

/** The form as the pages show it: `chosen_from` says of a field what of the book is offered for it,
 *  and with which choices, `usual_counted` how what is in the usual containers is counted,
 *  `apart_from` in which other field the same thing cannot stand. */
export function arranged(form) {
  const { from = {}, counted = {}, apart = {} } = pages[form.kind] ?? {};
  const fields = form.fields.map((field) => ({ ...field,
    ...(from[field.name] ? { chosen_from: from[field.name] } : {}),
    ...(counted[field.name] ? { usual_counted: counted[field.name] } : {}),
    ...(apart[field.name] ? { apart_from: apart[field.name] } : {}) }));
  return { ...form, fields };
}

/** The things without the one that another field of the form has. */
export function thingsApart(field, values, things) {
  if (!field.apart_from) return things;
  const { thing_class: thingClass, apart_from: other } = field;
  return { ...things,
    [thingClass]: (things[thingClass] ?? []).filter(({ id }) => id !== values[other]) };
}

/** The values without what cannot stand beside the choice in `name`. */
export function withoutSame(form, values, name) {
  const same = form.fields.filter((field) => field.apart_from === name
    && values[field.name] === values[name]).map((field) => [field.name, '']);
  return { ...values, ...Object.fromEntries(same) };
}

/** True when an id is written, not chosen from the register. */
export const isWritten = ({ type, thing_class: thingClass }) =>
  type === 'id' && (!thingClass || kByUse.includes(thingClass));

/** True when the field is given by choosing among options. */
export function isChoice(field, values) {
  if (field.chosen_from) return applies(field.chosen_from, values);
  return field.type === 'code' || (field.type === 'id' && !isWritten(field));
}

export const isGiven = (values, field) => (field.type === 'list' ? rowsOf(values, field).length > 0
  : (values[field.name] ?? '') !== '');

/** True when the form demands the field, by what is given so far. */
function isRequired(field, values) {
  const rules = field.required_when ?? [];
  return Boolean(field.required) || (rules.length > 0
    && rules.every((rule) => rule.codes.includes(values[rule.field])));
}

/** True when the page asks for the field every time. */
export function isAsked(form, field, values) {
  return pages[form.kind]?.main?.includes(field.name) || isRequired(field, values);
}

function isShown(form, field, values) {
  const shown = pages[form.kind]?.shown ?? [];
  return shown === true || shown.includes(field.name) || isAsked(form, field, values);
}

/** The fields of the first page ("main") or of the second. What the register has of the thing that is
 *  changed (`standing`) is on the first. */
export function pageFields(form, values, page, standing = {}) {
  return form.fields.filter((field) =>
    canAsk(field) && applies(field, values)
    && (field.name in standing || isShown(form, field, values)) === (page === 'main'));
}

/** True when the page fills the field in beforehand with what was recorded last. */
export function isOffered(form, field) {
  return pages[form.kind]?.again?.includes(field.name) ?? false;
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

/** True when a value is not given or not finished. */
function isMissing(field, values) {
  return field.type === 'quantity' ? !isDecimal(finished(values[field.name] ?? ''))
    : !isGiven(values, field);
}

/** Names of fields that are asked for and not given, or that are begun and not finished. */
export function missing(form, values) {
  return form.fields.filter((field) => canAsk(field) && applies(field, values)
    && (isAsked(form, field, values) || isGiven(values, field)) && isMissing(field, values))
    .map((field) => field.name);
}

/** The number of a line that the keypad turns to first: one that is filled in, else as the pages
 *  have it, else the first. */
export function firstNumber(form, values, list, row) {
  const numbers = list.columns.filter(({ type }) => type === 'quantity').map(({ name }) => name);
  const turned = pages[form.kind]?.turned?.[list.name];
  return numbers.find((name) => row[name]) ?? turned?.[values[turned.by]] ?? numbers[0] ?? null;
}

/** True when nothing is filled into the row. */
export const isEmptyRow = (row) => Object.entries(row)
  .every(([name, text]) => !text || isUnitSaid(name));

/** True when a row of a list has what every row needs. */
export function isComplete(list, row) {
  const needed = list.columns.every((column) => !column.required || !isMissing(column, row));
  return needed && (list.at_least_one ?? []).every(({ fields, when }) =>
    !applies({ when }, row) || fields.some((name) => (row[name] ?? '') !== ''));
}

/** Names of lists on any page that have a row which is not complete. */
export function unfinishedLists(form, values) {
  return form.fields.filter((field) => field.type === 'list' && applies(field, values)
    && rowsOf(values, field).some((row) => !isComplete(field, row))).map((field) => field.name);
}

/** What stands at "volume_ml" or "loads/0/volume_ml": {field, text, unit}. */
export function located(form, values, path) {
  const [name, index, column] = path.split('/');
  const list = form.fields.find((one) => one.name === name);
  const field = column === undefined ? list : list.columns.find((one) => one.name === column);
  const row = column === undefined ? values : rowsOf(values, list)[index] ?? {};
  return { field, text: row[field.name],
    unit: field.type === 'quantity' ? unitIn(row, field) : null };
}

/** A number as it was typed: of the unit it is kept in alone, else with its unit. */
function amount(field, values) {
  const value = Number(plain(finished(values[field.name])));
  const unit = unitIn(values, field);
  return unit === field.unit.id ? value : { value, unit };
}

function submitted(field, values) {
  const value = values[field.name];
  if (field.type === 'list') return value.map((row) => given(field.columns, row));
  return field.type === 'quantity' ? amount(field, values) : value;
}

/** What is given of these fields, as the daemon wants it. */
function given(fields, values) {
  return Object.fromEntries(fields.filter((field) => isGiven(values, field))
    .map((field) => [field.name, submitted(field, values)]));
}

/** The submission of POST /entries; a field left open or not applying is not sent. */
export function submission(form, values, { id, occurredAt, confirmed }) {
  const fields = given(form.fields.filter((field) => canAsk(field) && applies(field, values)),
    values);
  const body = { id, kind: form.kind, occurred_at: occurredAt, fields };
  const attachments = filesOf(values).map(({ digest }) => digest);
  if (attachments.length) body.attachments = attachments;
  return confirmed.length ? { ...body, confirmed } : body;
}

/** Splits a refusal's faults: by field, to be confirmed, and the rest. A fault of a cell stands at
 *  "loads/0/volume_ml", and at its row and its list as well. */
export function sortFaults(errors) {
  const faults = { byField: {}, confirm: [], general: [] };
  for (const error of errors) {
    const name = /^\/fields\/(.+)/.exec(error.pointer ?? '')?.[1];
    if (name && error.code === 'needs_confirmation') faults.confirm.push({ name, ...error });
    else if (!name) faults.general.push(error.detail);
    else {
      const parts = name.split('/');
      parts.forEach((_, index) => {
        faults.byField[parts.slice(0, index + 1).join('/')] ??= error.detail;
      });
    }
  }
  return faults;
}

/** The last distinct values of a quantity among entries that stand, newest first, each as it was
 *  typed, or would be here: {text, unit}. */
export function lastValues(entries, field, count) {
  const { name, unit } = field;
  const found = [];
  for (const entry of [...entries].reverse()) {
    const value = entry.fields[name];
    if (typeof value !== 'number' || isStruckOut(entry)) continue;
    const read = entry.as_read?.[name];
    const one = typedHere(field, { text: plain(String(read?.value ?? value)),
      unit: read?.unit ?? unit.id });
    if (!found.some((other) => other.text === one.text && other.unit === one.unit)) found.push(one);
    if (found.length === count) break;
  }
  return found;
}

/** True when a later entry struck this one out. */
export function isStruckOut(entry) {
  return (entry.corrections ?? []).some((later) => later.fields?.action === 'struck-out');
}
