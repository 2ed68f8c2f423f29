// Entries as a table for a spreadsheet (RFC 4180): one line each, with what was recorded, what stands
// of it and the leaf hash by which the book knows it.
import { aboutText, stateText } from './entry-row.js';
import { recordedBy, standing } from './entries.js';
import { fieldOf, valueLines } from './shown-value.js';
import { texts } from '../texts.js';

// What a spreadsheet would run as a formula, in the full-width forms too that some take.
const kFormula = /^[\s]*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]/;
const kNumber = /^-?\d+(\.\d+)?$/;

/** One cell: guarded by an apostrophe against being run, and quoted where it must be. */
export function cell(value) {
  const text = String(value ?? '');
  const safe = kFormula.test(text) && !kNumber.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

function fieldsText(form, fields, names) {
  return Object.keys(fields).filter((name) => fields[name] !== null).map((name) => {
    const field = fieldOf(form, name);
    return `${field.label}: ${valueLines(field, fields, names).join(' / ')}`;
  }).join('; ');
}

function line(entry, told) {
  const form = told.forms.get(entry.kind);
  return [entry.seq, entry.occurred_at, entry.recorded_at, form.title, aboutText(entry, told),
    recordedBy(entry), entry.person_verified ? '' : texts.csv.withoutPin, stateText(entry),
    entry.reason, fieldsText(form, entry.fields, told.names),
    fieldsText(form, standing(entry), told.names), entry.leaf_hash];
}

/** The whole table; `told` is toldOf() these entries. */
export function csvOf(entries, told) {
  const rows = [texts.csv.columns, ...entries.map((entry) => line(entry, told))];
  return `\uFEFF${rows.map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`;
}
