// The parts a form is drawn from: groups of choices, the number panel, written fields, cautions.
// All labels, options, units and sentences are the form's own.
import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import { alertLine } from './screen.js';
import { echo, symbolOf, typedUnits, within, written } from './units.js';
import { finished, grouped, isDecimal } from './decimal.js';
import { thingsApart, unitIn } from './draft.js';
import { texts } from '../texts.js';

const kShortLabel = 8; // characters that fit a third of a column
const kThirdLabel = 16; // the same in a wide column, on two lines
const kShortHint = 12; // characters of a hint that fit wherever a label does
const kLongLabel = 40; // characters that do not fit half of one
const kLongMax = 3; // options of such at once
const kOptionsMax = 13; // options of others at once

/** How many options stand side by side; where a word would not fit, fewer do. */
function columns(options) {
  const longest = Math.max(0, ...options.map((option) => option.label.length));
  if (longest > kLongLabel) return 1;
  if (options.some(({ hint }) => hint.length > kShortHint)) return options.length > 4 ? 2 : 1;
  return longest <= kShortLabel && options.length % 3 === 0 ? 3 : 2;
}

/** How many are put side by side where their words fit. */
const across = (options) => (options.length === 3 && options.every(({ label, hint }) =>
  !hint && label.length <= kThirdLabel) ? 3 : columns(options));

/** True when label and options of a group stand in one row: yes or no. */
const isPair = (options) => options.length === 2
  && options.every(({ label, hint }) => !hint && label.length <= 3);

/** True for what an item of an inspection is found to be: label and options stand in one row. */
const isVerdict = (options) => options.length === 3 && options[0].value === 'passed'
  && options[1].value === 'failed';

/** How a group stands on the page. */
function looks(options) {
  if (isPair(options)) return 'pair-row';
  return isVerdict(options) ? 'pair-row verdict-row' : '';
}

/** True when what is in the container is counted as is usual for the field, and of a usual chapter of
 *  the List of Waste. */
export function isUsual(field, { code, counted }) {
  if (field.usual_counted && counted && counted !== field.usual_counted) return false;
  const chapters = field.usual_chapters ?? [];
  return !chapters.length || !code || chapters.some((chapter) => code.startsWith(chapter));
}

const thingsOf = (field, things) => things[field.chosen_from?.source ?? field.thing_class] ?? [];

const usualOf = (field, things) =>
  thingsOf(field, things).filter((thing) => isUsual(field, thing));

/** Options of a choice field as {value, label, hint}, the usual ones first. */
export function optionsOf(field, things) {
  if (field.type === 'code') {
    return field.options.map(({ code, label }) => ({ value: code, label, hint: '' }));
  }
  const all = thingsOf(field, things);
  const usual = usualOf(field, things);
  return [...usual, ...all.filter((thing) => !usual.includes(thing))]
    .map(({ id, name, hint }) => ({ value: id, label: name, hint }));
}

function option(field, { value, label, hint }, { chosen, takenBack, onSet }) {
  const again = () => takenBack && chosen === value && onSet(field.name, '');
  return html`<label class="choice">
    <input type="radio" name=${field.name} value=${value} .checked=${live(chosen === value)}
      @click=${again} @change=${() => onSet(field.name, value)}>
    <span class="choice-face"><b>${label}</b>${hint ? html`<small>${hint}</small>` : nothing}</span>
  </label>`;
}

/** How many options of a group stand on a page at once; long ones take a row each. */
const roomFor = (options) => (columns(options) === 1
  && options.some(({ label }) => label.length > kLongLabel) ? kLongMax : kOptionsMax);

/** How many options stand first: where some are usual for the field, only those. */
function firstRoom(field, all, things) {
  const usual = field.type === 'id' ? usualOf(field, things).length : 0;
  return Math.min(usual || all.length, roomFor(all));
}

/** So many options as fit, from where the group was turned to, and the button that turns on. What is
 *  chosen is among them; what a label chose stands alone until the others are asked for. */
function somePart(field, all, { from, isAlone = () => false, onOthers, things, values }) {
  const usualRoom = firstRoom(field, all, things);
  const alone = isAlone(field.name) && all.length > 1;
  const room = alone ? 0 : usualRoom;
  if (!onOthers || all.length <= room) return { options: all, button: nothing };
  const first = from(field.name) < all.length ? from(field.name) : 0;
  const last = first === 0 ? room : first + roomFor(all);
  const next = alone ? Number(usualRoom === 1) : last; // the only one that is usual stands already
  const chosen = all.findIndex(({ value }) => value === values[field.name]);
  const options = all.filter((_, index) => (index >= first && index < last) || index === chosen);
  return { options,
    button: html`<button class="button" type="button"
      @click=${() => onOthers(field.name, next)}>
      ${texts.entry.others(all.length - options.length)}</button>` };
}

/** A group of choices, one of which is chosen; one that may be left open is taken back by another
 *  tap. `heeds` says whether what is chosen calls for the help to be read before recording. */
export function choiceGroup(field, context) {
  const { values, faults, asked, explained, heeds, onSet } = context;
  const things = thingsApart(field, values, context.things);
  const fault = faults[field.name]; // takes the place of the help
  let help = nothing;
  if (heeds(field, values)) help = html`<p class="help heed" role="alert">${field.help}</p>`;
  else if (field.help && explained(field)) help = html`<p class="quiet help">${field.help}</p>`;
  const all = optionsOf(field, things);
  const { options, button } = somePart(field, all, { ...context, things });
  const parts = { chosen: values[field.name], takenBack: !asked(field), onSet };
  return html`<fieldset class="group ${looks(options)}" data-field=${field.name}>
    <legend>${field.label}</legend>
    ${fault ? alertLine(fault) : help}
    ${options.length ? nothing : html`<p>${texts.entry.noChoice}</p>`}
    <div class="choices across-${across(all)}">
      ${options.map((one) => option(field, one, parts))}
      ${button}
    </div>
  </fieldset>`;
}

/** How much of a column's height a group takes, in rows. */
export function rowsOf(field, things) {
  const options = optionsOf(field, things);
  if (isPair(options)) return 1;
  const perRow = columns(options);
  // Half a row for its label; that there is nothing to choose takes a row as well.
  return Math.max(1, Math.ceil(options.length / perRow)) + 0.5;
}

/** A short text or a date, written with the tablet's own keyboard. */
export function writtenField(field, { values, faults, onSet }) {
  const type = field.type === 'date' ? 'date' : 'text';
  return html`<label class="written" data-field=${field.name}>
    <span>${field.label}</span>
    <small class="quiet help">${field.help}</small>
    <input type=${type} .value=${live(values[field.name] ?? '')} autocomplete="off"
      maxlength=${field.length_max ?? nothing}
      aria-invalid=${faults[field.name] ? 'true' : 'false'}
      @input=${(event) => onSet(field.name, event.target.value)}>
    ${alertLine(faults[field.name])}
  </label>`;
}

/** "62 mL", or that nothing is given. */
export function quantityText(field, values) {
  const text = values[field.name];
  return text ? written(text, unitIn(values, field), field.unit) : texts.entry.notGiven;
}

/** A number as a button that turns the keypad to it. */
export function quantityButton(field, { values, faults, active, onTurn }) {
  return html`<div data-field=${field.name}>
    <button class="button quantity" type="button" aria-pressed=${active === field.name}
      @click=${() => onTurn(field.name)}>
      <span>${field.label}</span><b>${quantityText(field, values)}</b>
    </button>
    <p class="quiet help">${field.help}</p>
    ${active === field.name ? nothing : alertLine(faults[field.name])}
  </div>`;
}

function usual(field, unit) {
  const { lowest, highest } = field.normal ?? {};
  if (typeof lowest !== 'number' || typeof highest !== 'number') return '';
  const [least, most] = within(lowest, highest, field.unit.id, unit);
  return texts.entry.usual(grouped(least), written(most, unit, field.unit));
}

/** The unit the digits are of, as a button that turns to the next one. */
function unitButton(field, unit, onUnit) {
  const symbol = symbolOf(unit, field.unit);
  const units = typedUnits(field);
  const next = units[(units.indexOf(unit) + 1) % units.length];
  return html`<button class="button number-unit" type="button"
    aria-label=${texts.entry.otherUnit(symbol, symbolOf(next, field.unit))}
    @click=${() => onUnit(field, next)}>${symbol}</button>`;
}

/** The line that shows what is being tapped, its unit, and the same value in another unit. */
export function numberPanel(field, { values, onKey, onUnit }) {
  const text = values[field.name] ?? '';
  const number = finished(text);
  const unit = unitIn(values, field);
  const several = typedUnits(field).length > 1;
  const signed = (field.possible?.lowest ?? 0) < 0;
  return html`<div class="number-panel" data-field=${field.name}>
    <p class="number-label" id="number-label">${field.label}
      <span class="quiet">${usual(field, unit)}</span></p>
    <div class="number-row"><div class="number-line">
      <output class="number-value" aria-labelledby="number-label">${grouped(text)}</output>
      ${several ? nothing : html`<span class="number-unit">${symbolOf(unit, field.unit)}</span>`}</div>
      ${several ? unitButton(field, unit, onUnit) : nothing}
      ${signed ? html`<button class="button sign" type="button" aria-label=${texts.keypad.sign}
        @click=${() => onKey('sign')}>±</button>` : nothing}
    </div>
    <p class="echo">${isDecimal(number) ? echo(number, field.unit, unit) : texts.entry.nothing}</p>
  </div>`;
}

/** One caution with all its sentences. */
export function caution({ title, sentences }) {
  return html`<section class="block"><h2>${title}</h2>
    ${sentences.map((sentence) => html`<p>${sentence}</p>`)}</section>`;
}

/** Cautions beside the form: each by its title and first sentence. */
export function cautionStrip(cautions) {
  if (!cautions?.length) return nothing;
  return html`<aside class="cautions" aria-label=${texts.entry.cautions}>
    ${cautions.map(({ title, sentences }) => html`<p><b>${title}.</b> ${sentences[0]}</p>`)}
  </aside>`;
}
