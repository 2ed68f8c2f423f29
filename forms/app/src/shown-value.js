// A recorded value in the words of its form: labels of options, names of things, days as people
// write them, lists row by row.
import { get } from './api.js';
import { isWritten } from './draft.js';
import { plain } from './decimal.js';
import { personName } from './session.js';
import { thingName } from './form-data.js';
import { dayText, monthText, withDays } from './time.js';
import { shown, written } from './units.js';
import { isWithin, thingsOf } from './within.js';
import { texts } from '../texts.js';

const classOf = (field, values) => field.thing_class ?? values[field.class_field];

/** Classes of the register that these fields name. */
function classesIn(fields, values) {
  return fields.flatMap((field) => (field.type === 'list'
    ? classesIn(field.columns, {}) : [field.type === 'id' && classOf(field, values)]))
    .filter((name) => name && !isWritten({ type: 'id', thing_class: name }));
}

const named = async (thingClass) => (await thingsOf(thingClass) ?? [])
  .map((thing) => [`${thingClass}/${thing.id}`, thingName(thing)]);

/** Findings as they are now, by the key that an acknowledgement keeps. */
const findingsByKey = async () => (isWithin('everything') ? (await get('/findings')).findings : [])
  .map(({ key, sentence }) => [`finding/${key}`, withDays(sentence)]);

/** The names that values of forms need, given as pairs: "container/w1" -> "Oil drum W1". */
export async function namesFor(...told) {
  const classes = told.flatMap(([form, values]) => classesIn(form.fields, values));
  const asked = [...new Set(classes)].filter((name) => name !== 'person').map(named);
  if (told.some(([form]) => form.fields.some(({ name }) => name === 'finding'))) {
    asked.push(findingsByKey());
  }
  return new Map((await Promise.all(asked)).flat());
}

const amount = ({ unit }, value) => shown(plain(String(value)), unit);

/** "read as 2900 psi": what was typed in another unit than the one it is kept in. */
export const typedText = ({ value, unit }) =>
  texts.cylinders.typed(written(plain(String(value)), unit));

/** A thing by its name; where its id is what is told, by both. */
function idText(field, value, values, names) {
  const thingClass = classOf(field, values);
  const name = thingClass === 'person' ? personName(value) : names.get(`${thingClass}/${value}`);
  if (!field.class_field) return name ?? value;
  return name && name !== value ? `${value} (${name})` : value;
}

/** The value of a field that is no list, in words. */
export function scalarText(field, value, values, names) {
  if (field.type === 'code') {
    return field.options.find(({ code }) => code === value)?.label ?? value;
  }
  if (field.type === 'quantity') return amount(field, value);
  if (field.type === 'date') return dayText(value);
  if (field.format === 'month') return monthText(value);
  if (field.name === 'finding') return names.get(`finding/${value}`) ?? value;
  if (field.type !== 'id') return String(value);
  return idText(field, value, values, names);
}

const rowText = (columns, row, names) => columns.filter(({ name }) => row[name] !== undefined)
  .map((column) => `${column.label}: ${scalarText(column, row[column.name], row, names)}`)
  .join(' · ');

/** A field of the form by its name; one that the form has no more says what it can. */
export const fieldOf = (form, name) => form.fields.find((one) => one.name === name)
  ?? { name, label: name, type: 'text' };

/** The value as lines of text: one, or one a row of a list. */
export function valueLines(field, values, names) {
  const value = values[field.name];
  if (value === null || value === undefined) return [texts.cylinders.notRecorded];
  if (!Array.isArray(value)) return [scalarText(field, value, values, names)];
  return value.map((row) => rowText(field.columns ?? [], row, names));
}
