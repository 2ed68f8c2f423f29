// Fetches what a form needs besides its definition: the things that can be chosen, and what was
// recorded last, so that a value can be offered again.
import { allEntries, get, remembered } from './api.js';
import { amountWords, isBeyond } from './level-bar.js';
import { arranged, isStruckOut, isWritten } from './draft.js';
import { personName } from './session.js';
import { standing } from './standing.js';
import { daysBefore } from './time.js';
import { store } from './store.js';
import { texts } from '../texts.js';

// Days looked back for last values: most shops find theirs in a week, a quiet one in two months.
const kLookBack = [7, 60];

/** The name by which people know a thing of the register. */
export function thingName(thing) {
  if (thing.class === 'person') return personName(thing.id);
  return thing.attributes?.name ?? thing.id;
}

function containerHint(level) {
  return isBeyond(level) ? `${amountWords(level)}, ${texts.level.beyondShort}` : amountWords(level);
}

/** True when the form records a volume and no mass: it cannot go where mass is counted. */
function onlyVolume(form) {
  const units = form.fields.flatMap((field) => [field, ...(field.columns ?? [])])
    .filter((field) => field.type === 'quantity').map((field) => field.unit.id);
  return units.includes('ml') && !units.includes('kg');
}

/** Fields and columns of lists that are chosen from the register. */
function chosenFields(form) {
  return form.fields.flatMap((field) => [field, ...(field.columns ?? [])])
    .filter((field) => field.thing_class && !isWritten(field));
}

/** A sealed container is offered where one may be named: a carrier takes it away so. */
async function containers(form) {
  const { levels } = await get('/levels');
  store.set({ levels });
  const open = chosenFields(form).filter((field) => field.thing_class === 'container')
    .every((field) => field.in_service);
  const fits = (level) => !(open && level.sealed)
    && (!onlyVolume(form) || level.stream?.counted_by !== 'mass');
  return levels.filter((level) => !level.retired && fits(level))
    .map((level) => ({
      id: level.container, name: level.name, hint: containerHint(level),
      code: level.stream?.low_code ?? '', counted: level.stream?.counted_by ?? '',
    }));
}

/** The things of a class that can be chosen: {id, name, hint}; of containers also the List of Waste
 *  code of what is in them and how that is counted. */
export async function choices(thingClass, form) {
  if (thingClass === 'container') return containers(form);
  const { things } = await get(`/register/${encodeURIComponent(thingClass)}`);
  return things.filter((thing) => !thing.retired)
    .map((thing) => ({ id: thing.id, name: thingName(thing),
      hint: thing.in_service === false ? texts.cylinders.outOfService : '' }));
}

async function recentEntries(kind) {
  for (const days of kLookBack) {
    const from = daysBefore(new Date(), days);
    const entries = await allEntries(`kind=${encodeURIComponent(kind)}&from=${from}`);
    if (entries.some((entry) => !isStruckOut(entry))) return entries;
  }
  return [];
}

/** The newest entry of this person that stands: what another one found is not offered as theirs. */
function newest(entries, person) {
  return entries.filter((entry) => entry.person === person && !isStruckOut(entry)).pop() ?? null;
}

/** Of a person who is to be entered in the register: who can sign in is offered. */
function withPeople(form, preset) {
  const enters = preset.thing_class === 'person' && preset.act === 'added';
  if (!enters) return form;
  const fields = form.fields.map((field) => (field.class_field
    ? { ...field, label: texts.register.person, help: texts.register.personHelp,
      chosen_from: { source: 'unentered' } } : field));
  return { ...form, fields };
}

/** {form, things: {class: choices}, recent: entries, last: entry or null}. */
export async function formData(kind, person, preset = {}) {
  const form = withPeople(arranged(await get(`/forms/${encodeURIComponent(kind)}`)), preset);
  const classes = new Set(chosenFields(form).map((field) => field.thing_class));
  const things = {};
  for (const thingClass of classes) things[thingClass] = await choices(thingClass, form);
  for (const { source } of form.fields.map((field) => field.chosen_from).filter(Boolean)) {
    things[source] = await remembered(`standing/${source}`, () => standing(source));
  }
  const recent = await remembered(`recent/${kind}`, () => recentEntries(kind));
  return { form, things, recent, last: newest(recent, person) };
}
