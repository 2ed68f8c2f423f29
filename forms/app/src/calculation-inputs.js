// What is filled in for a calculation: one field for each of its inputs, drawn by what the input
// accepts, with the units a person may have the value in, and what is sent of it.
import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import { decimalText, grouped, joined, withNumbers } from './decimal.js';
import { alertLine } from './screen.js';
import { shownIn } from './shown-in.js';
import { withDays } from './time.js';
import { converted, unitId, within } from './units.js';
import { texts } from '../texts.js';

const kAnyFrom = 1e12; // a range that reaches so far takes any number
const kMeasured = ['number', 'list'];

/** Symbols of the units that may be chosen for it, its own first; none where there is but one. */
export const unitsOf = (input) => (kMeasured.includes(input.type)
  ? texts.otherUnits[input.unit] ?? [] : []);

/** The unit a value is written in while no other is chosen: as the workshop measures. */
export const unitAtFirst = (input) => {
  const usual = shownIn.units === 'us' ? texts.usualUnits[input.unit] : undefined;
  return unitsOf(input).includes(usual) ? usual : input.unit;
};

const kNumbersOnly = /^[\d+\-.,eE\s]+$/;

/** The values of a list: one a line, or parted by semicolons; numbers alone also by spaces. */
const parts = (text) => text.split(/[;\n]/)
  .flatMap((part) => (kNumbersOnly.test(part) ? part.split(/\s+/) : [part.trim()])).filter(Boolean);

/** "2900 psi"; what has a unit written to it keeps that. */
const withUnit = (part, unit) => (kNumbersOnly.test(part) ? `${part} ${unit}` : part);

/** The inputs as they are sent: texts as written, with the unit where another was chosen. What is
 *  empty is not given. */
export function givenInputs(inputs, values, units) {
  const given = {};
  for (const input of inputs) {
    const text = (values[input.name] ?? '').trim();
    const unit = units[input.name] ?? unitAtFirst(input);
    const said = (part) => (unit !== input.unit ? withUnit(part, unit) : part);
    if (text) given[input.name] = input.type === 'list' ? parts(text).map(said) : said(text);
  }
  return given;
}

/** What the daemon says an input takes, and the same as its page says it. */
function acceptedTwice(input, screen) {
  if (input.type === 'choice') return [input.accepted, input.choices.map(labelOf).join(', ')];
  const daemons = [input.lowest, input.highest].map((end) => decimalText(end)).join(' … ');
  return [input.unit ? `${daemons} ${input.unit}` : daemons, rangeText(input, screen)];
}

/** A refusal in the words of the page of the calculation. */
function refusalText(detail, input, screen) {
  const said = withDays(detail);
  if (!input || !(input.type === 'choice' || hasRange(input))) return withNumbers(said);
  const [daemons, own] = acceptedTwice(input, screen);
  return withNumbers(said.replace(daemons, () => own));
}

/** Refusals by the input they are about, as {byInput, others}. */
export function refusalsOf(errors, inputs, screen) {
  const byInput = {};
  const others = [];
  for (const { pointer, detail } of errors) {
    const [, name] = /^\/inputs\/([^/]+)/.exec(pointer) ?? [];
    const text = refusalText(detail, inputs.find((input) => input.name === name), screen);
    if (name) byInput[name] = [byInput[name], text].filter(Boolean).join(' ');
    else others.push(text);
  }
  return { byInput, others };
}

// The number pads of some tablets have no minus.
const signed = ({ lowest }) => lowest < 0;

const kTypes = { date: 'date', month: 'month', number: 'text' };

function control(input, screen) {
  const { name } = input;
  const shape = input.type;
  const value = screen.values[name] ?? '';
  const put = (event) => screen.set(name, event.target.value);
  const bad = screen.faults[name] ? 'true' : 'false';
  if (shape === 'choice') {
    return html`<select name=${name} aria-invalid=${bad} .value=${live(value)} @change=${put}>
      <option value="">${texts.calculations.choose}</option>
      ${input.choices.map(({ code, label }) => html`<option value=${code}
        .selected=${live(code === value)}>${labelOf({ label })}</option>`)}
      </select>`;
  }
  if (shape === 'list') {
    return html`<textarea name=${name} rows="4" aria-invalid=${bad} .value=${live(value)}
      @input=${put}></textarea>`;
  }
  return html`<input type=${kTypes[shape]} name=${name} autocomplete="off" .value=${live(value)}
    inputmode=${shape === 'number' && !signed(input) ? 'decimal' : nothing} aria-invalid=${bad} @input=${put}>`;
}

const unitOf = (input, screen) => screen.units[input.name] ?? unitAtFirst(input);

function unitPart(input, screen) {
  const units = unitsOf(input);
  if (!units.length) return input.unit ? html`<span class="unit">${input.unit}</span>` : nothing;
  const chosen = unitOf(input, screen);
  return html`<select class="unit" aria-label=${texts.calculations.unitOf(input.label)}
    @change=${(event) => screen.setUnit(input.name, event.target.value)}>
    ${units.map((unit) => html`<option value=${unit} .selected=${live(unit === chosen)}>${unit}
      </option>`)}</select>`;
}

const labelOf = ({ label }) => label || texts.calculations.plainNumber;

const hasRange = ({ type, highest }) => kMeasured.includes(type) && highest < kAnyFrom;

/** {from, to, unit}: the ids of its own unit and of the one that is chosen, and what that is called; its
 *  own where the page cannot convert it. */
function turning(input, screen) {
  const chosen = unitOf(input, screen);
  const [from, to] = [input.unit, chosen].map(unitId);
  return from && to ? { from, to, unit: chosen } : { unit: input.unit };
}

/** "0 … 350 bar". */
function rangeText(input, screen) {
  const { lowest, highest } = input;
  const { from, to, unit } = turning(input, screen);
  const [least, greatest] = from ? within(lowest, highest, from, to)
    : [lowest, highest].map(decimalText);
  return texts.calculations.fromTo(grouped(least), joined(grouped(greatest), unit));
}

/** "Takes 0 … 350 bar"; nothing where any number is taken. */
function accepted(input, screen) {
  if (!hasRange(input)) return '';
  const { fewest, most } = input;
  const range = rangeText(input, screen);
  return texts.calculations.accepted(input.type === 'list'
    ? texts.calculations.listRange(fewest, most, range) : range);
}

/** What is taken where nothing is given: "5.5 kg". */
function defaultText(input, screen) {
  if (input.default === 'today') return texts.calculations.today;
  if (!kMeasured.includes(input.type)) {
    const choice = input.choices.find(({ code }) => code === input.default);
    return joined(choice ? labelOf(choice) : input.default, input.unit);
  }
  const { from, to, unit } = turning(input, screen);
  return joined(grouped(from ? converted(input.default, from, to) : input.default), unit);
}

/** "Not given: 5.5 kg is taken". */
const byDefault = (input, screen) => (input.default === null ? ''
  : texts.calculations.byDefault(defaultText(input, screen)));

/** One input with its label, help, what it accepts, its unit and what was wrong with it. */
export function inputField(input, screen) {
  const hints = [withNumbers(withDays(input.help)), accepted(input, screen),
    byDefault(input, screen),
    input.type === 'list' ? texts.calculations.list : ''].filter(Boolean);
  return html`<div class="written measure" data-input=${input.name}>
    <label><span>${input.label}</span>
      ${hints.map((hint) => html`<small class="quiet help">${hint}</small>`)}
      ${control(input, screen)}</label>
    ${unitPart(input, screen)}
    ${alertLine(screen.faults[input.name])}</div>`;
}
