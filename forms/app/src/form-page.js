// Lays out one page of a form in three columns without scrolling on a tablet.
import { html, nothing } from 'lit';
import {
  cautionStrip, choiceGroup, numberPanel, quantityButton, quantityText, rowsOf, writtenField,
} from './form-parts.js';
import { filesButton } from './attachments.js';
import { earlierButton } from './earlier.js';
import { listButton } from './row-editor.js';
import { isGiven, isOffered, isWritten, lastValues, needsHeed } from './draft.js';
import { alertLine } from './screen.js';
import { keypad } from './keypad.js';
import { texts } from '../texts.js';

const kRowsLeft = 9.6; // rows of choices that fit the left column
const kOffered = 3; // last values offered again

const isWrittenText = (field) => !isChoice(field) && !['quantity', 'list'].includes(field.type);

const lists = (screen, fields) => fields.filter((field) => field.type === 'list')
  .map((field) => listButton(screen, field));

function isChoice(field) {
  return (field.type === 'id' && !isWritten(field)) || field.type === 'code';
}

/** Choice groups in order: the left column as far as it reaches, the rest on the right. */
function split(fields, things) {
  const left = [];
  let rows = 0;
  const choices = fields.filter(isChoice);
  for (const field of choices) {
    rows += rowsOf(field, things);
    if (rows > kRowsLeft) break;
    left.push(field);
  }
  return { left, right: choices.slice(left.length) };
}

function offered(screen, field) {
  const values = lastValues(screen.recent, field.name, kOffered);
  if (!values.length) return nothing;
  return html`<div class="offers">${values.map((value) => html`
    <button class="button" type="button" @click=${() => screen.offer(field.name, value)}>
      ${texts.entry.again(quantityText(field, value))}</button>`)}</div>`;
}

function numbers(screen, fields, context) {
  const active = fields.find((field) => field.name === context.active);
  if (!active) return nothing;
  const others = fields.filter((field) => field.type === 'quantity').length > 1;
  // A fault takes the place of the offers, so that nothing below it moves off the page.
  const fault = context.faults[active.name];
  const offers = screen.page === 'main' && !others ? offered(screen, active) : nothing;
  return html`<div class="column numbers">
    ${numberPanel(active, context)}
    ${fault ? alertLine(fault) : offers}
    ${keypad({ onKey: context.onKey, point: !active.whole })}
  </div>`;
}

function moreButton(screen) {
  const more = screen.fields('more');
  if (!more.length) return nothing;
  const count = more.filter((field) => isGiven(screen.values, field)).length;
  return html`<button class="button" type="button" @click=${() => screen.turnTo('more')}>
    ${count ? texts.entry.moreFilled(count) : texts.entry.more}</button>`;
}

function cautionsButton(screen) {
  if (!screen.form.cautions?.length) return nothing;
  return html`<button class="button" type="button" @click=${() => screen.turnTo('cautions')}>
    ${texts.entry.allCautions}</button>`;
}

function saveButton(screen, session) {
  const words = screen.saveText ?? texts.entry.save(session.name);
  return html`<div class="with-moment">${earlierButton(screen)}
    <button class="button primary save" type="button" ?disabled=${screen.busy}
      @click=${() => screen.save()}>${screen.busy ? texts.entry.saving : words}</button></div>`;
}

function context(screen) {
  return {
    things: screen.things,
    values: screen.values,
    faults: screen.faults,
    active: screen.active,
    asked: screen.page === 'main',
    // What is not filled in beforehand has to be thought about: there the form's help stands too.
    explained: (field) => !isOffered(screen.form, field),
    heeds: (field, values) => needsHeed(screen.form, field, values),
    onSet: (name, value) => screen.set(name, value),
    onKey: (key) => screen.press(key),
    onTurn: (name) => {
      screen.active = name;
      screen.requestUpdate();
    },
  };
}

function mainPage(screen, session) {
  const fields = screen.fields('main');
  const parts = context(screen);
  const { left, right } = split(fields, screen.things);
  const quantities = fields.filter((field) => field.type === 'quantity');
  const written = fields.filter(isWrittenText);
  return html`<div class="form">
    <div class="column">${left.map((field) => choiceGroup(field, parts))}</div>
    ${numbers(screen, fields, parts)}
    <div class="column">
      ${quantities.length > 1 ? quantities.map((field) => quantityButton(field, parts)) : nothing}
      ${right.map((field) => choiceGroup(field, parts))}
      ${lists(screen, fields)}
      ${written.map((field) => writtenField(field, parts))}
      ${cautionStrip(screen.form.cautions)}
      <div class="actions">
        <div class="pair">
          ${cautionsButton(screen)}${moreButton(screen)}${filesButton(screen)}</div>
        ${saveButton(screen, session)}
      </div>
    </div>
  </div>`;
}

function morePage(screen, session) {
  const fields = screen.fields('more');
  const parts = context(screen);
  return html`<div class="form">
    <div class="column">
      ${fields.filter((field) => field.type === 'quantity')
    .map((field) => quantityButton(field, parts))}
      ${fields.filter(isChoice).map((field) => choiceGroup(field, parts))}
    </div>
    ${numbers(screen, fields, parts)}
    <div class="column">
      ${lists(screen, fields)}
      ${fields.filter(isWrittenText).map((field) => writtenField(field, parts))}
      <div class="actions">
        <button class="button" type="button" @click=${() => screen.turnTo('main')}>
          ${texts.entry.backToForm}</button>
        ${saveButton(screen, session)}
      </div>
    </div>
  </div>`;
}

/** The page of the form that `screen` has turned to. */
export function formPage(screen, session) {
  return html`<h1 tabindex="-1" class="form-title">${screen.form.title}</h1>
    ${screen.page === 'more' ? morePage(screen, session) : mainPage(screen, session)}`;
}
