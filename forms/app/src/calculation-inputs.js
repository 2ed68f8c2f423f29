// What is filled in for a calculation: one field for each of its inputs, drawn by what the input
// accepts, with the units a person may have the value in, and what is sent of it.
import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';
import { alertLine } from './screen.js';
import { withDays } from './time.js';
import { texts } from '../texts.js';

/** What kind of field an input is. The daemon says in words what it accepts; choices it lists. */
export function shapeOf({ accepted }) {
  if (accepted.startsWith('a day ')) return 'date';
  if (accepted.startsWith('a month ')) return 'month';
  if (/^\d+ to \d+ numbers/.test(accepted)) return 'list';
  return accepted.includes(' … ') ? 'number' : 'choice';
}

export const choicesOf = ({ accepted }) => accepted.split(', ');

/** Symbols of the units that may be chosen for it, its own first; none where there is but one. */
export const unitsOf = (input) => (['number', 'list'].includes(shapeOf(input))
  ? texts.otherUnits[input.unit] ?? [] : []);

const parts = (text) => text.split(/[;\n]/).map((part) => part.trim()).filter(Boolean);

/** The inputs as they are sent: texts as written, with the unit where another was chosen. What is
 *  empty is not given. */
export function givenInputs(inputs, values, units) {
  const given = {};
  for (const input of inputs) {
    const text = (values[input.name] ?? '').trim();
    const unit = units[input.name];
    const said = (part) => (unit && unit !== input.unit ? `${part} ${unit}` : part);
    if (text) given[input.name] = shapeOf(input) === 'list' ? parts(text).map(said) : said(text);
  }
  return given;
}

/** Refusals by the input they are about, as {byInput, others}. */
export function refusalsOf(errors) {
  const byInput = {};
  const others = [];
  for (const { pointer, detail } of errors) {
    const [, name] = /^\/inputs\/([^/]+)/.exec(pointer) ?? [];
    if (name) byInput[name] = [byInput[name], withDays(detail)].filter(Boolean).join(' ');
    else others.push(withDays(detail));
  }
  return { byInput, others };
}

// The number pads of some tablets have no minus.
const signed = ({ accepted }) => accepted.startsWith('-');

const kTypes = { date: 'date', month: 'month', number: 'text' };

function control(input, screen) {
  const { name } = input;
  const shape = shapeOf(input);
  const value = screen.values[name] ?? '';
  const put = (event) => screen.set(name, event.target.value);
  const bad = screen.faults[name] ? 'true' : 'false';
  if (shape === 'choice') {
    return html`<select name=${name} aria-invalid=${bad} .value=${live(value)} @change=${put}>
      <option value="">${texts.calculations.choose}</option>
      ${choicesOf(input).map((code) => html`<option value=${code} .selected=${live(code === value)}>
        ${texts.choiceWords[code] ?? code.replaceAll('-', ' ')}</option>`)}</select>`;
  }
  if (shape === 'list') {
    return html`<textarea name=${name} rows="4" aria-invalid=${bad} .value=${live(value)}
      @input=${put}></textarea>`;
  }
  return html`<input type=${kTypes[shape]} name=${name} autocomplete="off" .value=${live(value)}
    inputmode=${shape === 'number' && !signed(input) ? 'decimal' : nothing} aria-invalid=${bad} @input=${put}>`;
}

function unitPart(input, screen) {
  const units = unitsOf(input);
  if (!units.length) return input.unit ? html`<span class="unit">${input.unit}</span>` : nothing;
  const chosen = screen.units[input.name] ?? input.unit;
  return html`<select class="unit" aria-label=${texts.calculations.unitOf(input.label)}
    @change=${(event) => screen.setUnit(input.name, event.target.value)}>
    ${units.map((unit) => html`<option value=${unit} .selected=${live(unit === chosen)}>${unit}
      </option>`)}</select>`;
}

function accepted(input) {
  const shape = shapeOf(input);
  if (shape !== 'number' && shape !== 'list') return '';
  return texts.calculations.accepted(input.accepted);
}

/** One input with its label, help, what it accepts, its unit and what was wrong with it. */
export function inputField(input, screen) {
  const hints = [withDays(input.help), accepted(input),
    shapeOf(input) === 'list' ? texts.calculations.list : ''].filter(Boolean);
  return html`<div class="written measure" data-input=${input.name}>
    <label><span>${input.label}</span>
      ${hints.map((hint) => html`<small class="quiet help">${hint}</small>`)}
      ${control(input, screen)}</label>
    ${unitPart(input, screen)}
    ${alertLine(screen.faults[input.name])}</div>`;
}
