// What stands in the book or the register, as people read it: labels for codes, names for ids, days
// as they are written, the lines of a list one under the other.
import { html } from 'lit';
import { get } from './api.js';
import { fromNumber, grouped, joined } from './decimal.js';
import { isWritten } from './draft.js';
import { thingName } from './form-data.js';
import { dayText, monthText } from './time.js';
import { texts } from '../texts.js';

/** Names of the things that these values name: {"room/shop": "Workshop room"}. */
export async function namesOf(fields, ...given) {
  const named = fields.filter((field) => field.thing_class && !isWritten(field)
    && given.some((values) => values[field.name]));
  const classes = [...new Set(named.map((field) => field.thing_class))];
  const lists = await Promise.all(classes.map((name) => get(`/register/${name}`)));
  return Object.fromEntries(lists.flatMap(({ things }) => things)
    .map((thing) => [`${thing.class}/${thing.id}`, thingName(thing)]));
}

const isMissing = (value) => value === null || value === undefined;

function rowText(columns, row, names) {
  return columns.filter(({ name }) => !isMissing(row[name]))
    .map((column, index) => html`${index ? ' · ' : ''}<span class="quiet">${column.label}</span>
      ${valueText(column, row[column.name], names)}`);
}

/** A field's value in the words of the form. */
export function valueText(field, value, names = {}) {
  if (isMissing(value)) return texts.cylinders.notRecorded;
  if (Array.isArray(value)) {
    if (!field) return texts.cylinders.rows(value.length);
    return html`<ul>${value.map((row) => html`<li>${rowText(field.columns, row, names)}</li>`)}</ul>`;
  }
  if (field?.type === 'code') {
    return field.options.find(({ code }) => code === value)?.label ?? String(value);
  }
  if (field?.type === 'quantity') return joined(grouped(fromNumber(value)), field.unit.symbol);
  if (field?.type === 'date') return dayText(value);
  if (field?.format === 'month') return monthText(value);
  return names[`${field?.thing_class}/${value}`] ?? String(value);
}
