// What of the book is shown: by kind, thing, person and days.
import { html } from 'lit';
import { live } from 'lit/directives/live.js';
import { get } from './api.js';
import { thingName } from './form-data.js';
import { personName } from './session.js';
import { thingsOf } from './within.js';
import { store } from './store.js';
import { dayText } from './time.js';
import { texts } from '../texts.js';

// Things that entries are about; of the others only their own changes are recorded.
const kClasses = ['container', 'cylinder', 'tool', 'gauge', 'plant', 'room', 'cabinet', 'stream'];

/** What can be chosen: {kinds, classes: [{label, things}]}. */
export async function filterChoices() {
  const change = await get('/forms/register-change');
  const labels = change.fields.find(({ name }) => name === 'thing_class').options;
  const classes = await Promise.all(kClasses.map(async (code) => ({
    label: labels.find((option) => option.code === code)?.label ?? code,
    things: await thingsOf(code) ?? [] })));
  const kinds = [...store.state.forms].sort((a, b) => a.title.localeCompare(b.title));
  return { kinds, classes: classes.filter(({ things }) => things.length) };
}

const option = (value, label, chosen) => html`<option value=${value}
  .selected=${live(value === chosen)}>${label}</option>`;

function select(name, label, chosen, options, onSet) {
  return html`<label><span>${label}</span><select name=${name}
    @change=${(event) => onSet(name, event.target.value)}>
    ${option('', texts.filter.any, chosen)}${options}</select></label>`;
}

const day = (name, label, value, onSet) => html`<label><span>${label}</span>
  <input type="date" name=${name} .value=${live(value ?? '')}
    @change=${(event) => onSet(name, event.target.value)}></label>`;

/** What the filter lets through, in words. */
export function filterWords({ kinds, classes }, filter) {
  const told = texts.filter;
  const things = classes.flatMap((one) => one.things);
  const thing = things.find((one) => `${one.class}/${one.id}` === filter.subject);
  const words = {
    kind: kinds.find(({ kind }) => kind === filter.kind)?.title,
    thing: thing ? thingName(thing) : filter.subject,
    person: filter.person && personName(filter.person),
    from: filter.from && dayText(filter.from),
    to: filter.to && dayText(filter.to),
  };
  const chosen = Object.keys(words).filter((name) => words[name])
    .map((name) => told.chosen(told[name], words[name]));
  return chosen.join(' · ') || told.everything;
}

/** The fields of the filter; `onSet(name, value)` is called with what is chosen. */
export function filterFields({ kinds, classes }, filter, onSet) {
  const told = texts.filter;
  return html`<div class="filter" role="search" aria-label=${told.title}>
    ${select('kind', told.kind, filter.kind,
    kinds.map(({ kind, title }) => option(kind, title, filter.kind)), onSet)}
    ${select('subject', told.thing, filter.subject, classes.map(({ label, things }) => html`
      <optgroup label=${label}>${things.map((thing) =>
    option(`${thing.class}/${thing.id}`, thingName(thing), filter.subject))}</optgroup>`), onSet)}
    ${select('person', told.person, filter.person,
    store.state.people.map(({ id, name }) => option(id, name, filter.person)), onSet)}
    ${day('from', told.from, filter.from, onSet)}
    ${day('to', told.to, filter.to, onSet)}</div>`;
}
