// The pages an entry can turn to besides its form: cautions, something unusual, a draft.
import { html } from 'lit';
import { isGiven } from './draft.js';
import { caution, optionsOf } from './form-parts.js';
import { echo, symbolOf, written } from './units.js';
import { finished } from './decimal.js';
import { texts } from '../texts.js';

/** All cautions of the form, in full. */
export function cautionsPage(screen) {
  return html`<h1 tabindex="-1">${texts.entry.cautions}</h1>
    <div class="blocks">${screen.form.cautions.map(caution)}</div>
    <p><button class="button" @click=${() => screen.turnTo('main')}>
      ${texts.entry.cautionsBack}</button></p>`;
}

/** What is asked about, as people call it: an amount with its sign, a thing by its name. */
function asked(screen, name) {
  const { field, text, unit } = screen.located(name);
  if (field.type === 'quantity') return written(finished(text), unit, field.unit);
  return optionsOf(field, screen.things).find(({ value }) => value === text)?.label ?? text;
}

function inWords(screen, name) {
  const { field: { label, type, unit: kept }, text: given, unit } = screen.located(name);
  if (type !== 'quantity') {
    return html`<p class="quiet">${label}</p><p class="asked">${asked(screen, name)}</p>`;
  }
  const text = finished(given);
  return html`<p class="quiet">${label}</p>
    <p class="asked">${texts.confirm.words(text, { id: unit, symbol: symbolOf(unit, kept) })}</p>
    <p class="echo">${echo(text, kept, unit)}</p>`;
}

/** What the button names: the amount that would be recorded, and all that is asked about. */
function recorded(screen) {
  const { asked: names } = screen;
  const isAmount = (field) => field?.type === 'quantity';
  if (names.some((name) => isAmount(screen.located(name).field))) return names;
  const amount = screen.form.fields
    .find((field) => isAmount(field) && isGiven(screen.values, field));
  return amount ? [amount.name, ...names] : names;
}

/** The same for the button; an answer like "No" says nothing without what was asked. */
function named(screen, name) {
  const { label, usual } = screen.located(name).field;
  const value = asked(screen, name);
  return usual ? texts.confirm.answer(label, value) : value;
}

/** The second tap for what is unusual: the value in words, and the daemon's reason. */
export function confirmPage(screen, session) {
  const values = recorded(screen).map((name) => named(screen, name));
  return html`<div class="ask">
    <h1 tabindex="-1">${texts.confirm.title}</h1>
    ${screen.asked.map((name) => inWords(screen, name))}
    ${screen.details.map((detail) => html`<p>${detail}</p>`)}
    <div class="actions across">
      <button class="button" @click=${() => screen.turnTo('main')}>${texts.confirm.change}</button>
      <button class="button primary save" ?disabled=${screen.busy} @click=${() => screen.confirm()}>
        ${texts.confirm.yes(values.join(', '), session.name)}</button>
    </div>
  </div>`;
}

/** The name and value of everything that is given in the draft. */
function givenLines(screen) {
  const { values } = screen;
  return ['main', 'more'].flatMap((page) => screen.fields(page))
    .filter((field) => isGiven(values, field) && values[field.name] !== screen.standing[field.name])
    .map((field) => {
      const text = field.type === 'list' ? texts.rows.count(values[field.name].length)
        : asked(screen, field.name);
      return html`<li>${field.label}: <b>${text}</b></li>`;
    });
}

/** The form was left half-way: go on with what was given, or begin anew. */
export function resumePage(screen) {
  return html`<div class="ask"><h1 tabindex="-1">${texts.resume.title(screen.title())}</h1>
    <p>${texts.resume.lead}</p>
    <ul>${givenLines(screen)}</ul>
    <div class="actions across">
      <button class="button" @click=${() => screen.startAnew()}>${texts.resume.anew}</button>
      <button class="button primary" @click=${() => screen.turnTo('main')}>
        ${texts.resume.goOn}</button>
    </div></div>`;
}
