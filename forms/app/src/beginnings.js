// What a form begins with: what its address names, what the register has of a thing, an id that is
// free. No page, no network.
import {
  applies, canAsk, firstValues, isChoice, isStruckOut, isUnitSaid, isWritten, unitSaid, withoutSame,
} from './draft.js';
import { optionsOf } from './form-parts.js';
import { pages } from './pages.js';
import { localDay } from './time.js';

// What the address names after the kind: #/record/register-change/changed/room/shop …
const kNamed = {
  'register-change': (act, thingClass, id) => ({ act, thing_class: thingClass,
    ...(id ? { thing: id } : {}) }),
  'action-closed': (about, ...key) => ({ about, [about]: key.join('/') }),
  'finding-acknowledged': (...key) => ({ finding: key.join('/') }),
};

/** {kind, preset, begunBy}: the form that an address names, the values it is opened with, and the thing
 *  of the register that is chosen in it: #/record/oil-drained/container/w1. */
export function opened(address) {
  const [kind, ...rest] = address.split('/');
  if (kNamed[kind]) return { kind, preset: rest.length ? kNamed[kind](...rest) : {}, begunBy: null };
  const [thingClass, id] = rest;
  return { kind, preset: {}, begunBy: id ? { class: thingClass, id } : null };
}

/** The fields in which a thing of the class can be chosen. Which class it is of, is said by the thing:
 *  what else a field depends on has to be given. */
export const takersOf = (form, values, thingClass) => form.fields.filter((field) =>
  field.thing_class === thingClass && canAsk(field) && !isWritten(field)
  && (field.when ?? []).every((rule) => rule.codes.includes(thingClass)
    || rule.codes.includes(values[rule.field])));

/** What a thing says of itself where the form asks which class it is of. */
const saidBy = (field, thingClass) => Object.fromEntries((field.when ?? [])
  .filter(({ codes }) => codes.includes(thingClass)).map((rule) => [rule.field, thingClass]));

/** The values with the thing in the field, and with what it says of itself. */
export const withThing = (form, values, field, { class: thingClass, id }) => withoutSame(form,
  { ...values, ...saidBy(field, thingClass), [field.name]: id }, field.name);

/** What a form begins with that an address opens for a thing: {given, preset}, of which the thing can
 *  still be changed. Nothing where the form does not offer it. */
export function begunWith(form, things, thing) {
  const field = takersOf(form, {}, thing.class).find((one) =>
    optionsOf(one, things).some(({ value }) => value === thing.id));
  return field ? { given: { [field.name]: thing.id }, preset: saidBy(field, thing.class) }
    : { given: {}, preset: {} };
}

/** The first id of today that no recent entry has: event-2026-12-14, event-2026-12-14-2 … */
function freeId(name, prefix, recent) {
  const used = new Set(recent.map(({ fields }) => fields[name]));
  const id = `${prefix}-${localDay(new Date())}`;
  let free = id;
  for (let number = 2; used.has(free); number += 1) free = `${id}-${number}`;
  return free;
}

/** Values of a new draft: last ones as far as the things they name can still be chosen, and an id
 *  for what comes into being with the entry. */
export function beginning(form, things, recent, last) {
  const values = firstValues(form, last);
  for (const field of form.fields.filter((one) => one.name in values)) {
    const known = optionsOf(field, things).map(({ value }) => value);
    if (!known.includes(values[field.name])) delete values[field.name];
  }
  return named(form, things, recent, values);
}

/** The values with ids that fit how they are given now: chosen from what stands, or a new one. */
export function named(form, things, recent, values) {
  const fitting = { ...values };
  for (const [name, prefix] of Object.entries(pages[form.kind]?.named ?? {})) {
    const field = form.fields.find((one) => one.name === name);
    const free = freeId(name, prefix, recent);
    const given = fitting[name] ?? '';
    if (isChoice(field, values)) {
      if (given === free) delete fitting[name];
    } else if (!given) fitting[name] = free;
  }
  return fitting;
}

const same = (one, other) => JSON.stringify(one) === JSON.stringify(other);

/** The values that differ from what the register has; a number also by its unit. */
export function differing(values, standing) {
  const otherUnit = (name) => Object.keys(unitSaid(name))
    .some((said) => values[said] !== standing[said]);
  return Object.fromEntries(Object.entries(values).filter(([name, value]) => isUnitSaid(name)
    || otherUnit(name) || !same(value, standing[name])));
}

/** Names of fields that the register has and the draft no longer: a change cannot empty them. */
export function emptied(form, values, standing) {
  return form.fields.filter((field) => field.name in standing && applies(field, values)
    && !(values[field.name] ?? '').length).map(({ name }) => name);
}

/** Entries of which no later one of `ends` names the same id in `name`. */
export function unended(begun, ends, name) {
  const ended = new Set(ends.filter((entry) => !isStruckOut(entry)).map(({ fields }) => fields[name]));
  return begun.filter((entry) => !isStruckOut(entry) && !ended.has(entry.fields[name]));
}
