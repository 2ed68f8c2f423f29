// Lays out one page of a form in three columns without scrolling on a tablet.
import { html, nothing } from 'lit';
import {
  cautionStrip, choiceGroup, numberPanel, quantityButton, rowsOf, writtenField,
} from './form-parts.js';
import { filesButton } from './attachments.js';
import { earlierButton } from './earlier.js';
import { sheetButton } from './sheets.js';
import { listButton } from './row-editor.js';
import { isAsked, isChoice, isGiven, isOffered, lastValues, needsHeed } from './draft.js';
import { alertLine } from './screen.js';
import { keypad } from './keypad.js';
import { written } from './units.js';
import { texts } from '../texts.js';

const kRowsLeft = 9.6; // rows of choices that fit the left column
const kRowsWritten = 1.7; // rows that a written field takes
const kLeft = 0.6; // of more than that so much stands on the left
const kOffered = 3; // last values offered again

/** Fields in order: the left column as far as it reaches, the rest on the right. */
function split(fields, { things, values }) {
  const heights = fields.map((field) =>
    (isChoice(field, values) ? rowsOf(field, things) : kRowsWritten));
  const room = Math.max(kRowsLeft, kLeft * heights.reduce((sum, rows) => sum + rows, 0));
  const left = [];
  let rows = 0;
  for (const [index, field] of fields.entries()) {
    rows += heights[index];
    if (rows > room) break;
    left.push(field);
  }
  return { left, right: fields.slice(left.length) };
}

function offered(screen, field) {
  const values = lastValues(screen.recent, field, kOffered);
  if (!values.length) return nothing;
  return html`<div class="offers">${values.map((value) => html`
    <button class="button" type="button" @click=${() => screen.offer(field.name, value)}>
      ${texts.entry.again(written(value.text, value.unit, field.unit))}</button>`)}</div>`;
}

function numbers(screen, parts, several) {
  const active = screen.number();
  // A fault takes the place of the offers, so that nothing below it moves off the page.
  const fault = parts.faults[active.name];
  const last = screen.page === 'main' && !several ? offered(screen, active) : nothing;
  const offers = screen.dip.offer(screen) ?? last;
  return html`<div class="column numbers">
    ${numberPanel(active, parts)}
    ${fault ? alertLine(fault) : offers}
    ${keypad({ onKey: parts.onKey, point: !active.whole })}
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

/** In the place of the button that records, while there is more to be asked. */
function nextButton(screen) {
  return html`<button class="button primary next" type="button"
    @click=${() => screen.turnTo(screen.page, screen.step + 1)}>${texts.entry.next}</button>`;
}

function previousButton(screen) {
  return screen.step === 0 ? nothing : html`<button class="button" type="button"
    @click=${() => screen.turnTo(screen.page, screen.step - 1)}>${texts.entry.previous}</button>`;
}

/** What can be read or added besides; on the first page all of it, on the last what is added. */
function asides(screen) {
  if (screen.page === 'more') {
    return html`<button class="button" type="button" @click=${() => screen.turnTo('main')}>
      ${texts.entry.backToForm}</button>`;
  }
  return html`${screen.step === 0 ? html`${cautionsButton(screen)}${sheetButton(screen)}` : nothing}
    ${screen.step === 0 || screen.isLastStep() ? html`${moreButton(screen)}${filesButton(screen)}` : nothing}`;
}

function saveButton(screen, session) {
  if (!screen.isLastStep()) return nextButton(screen);
  const words = screen.saveText ?? texts.entry.save(session.name);
  return html`<div class="with-moment">${earlierButton(screen)}
    <button class="button primary save" type="button" ?disabled=${screen.busy}
      @click=${() => screen.save()}>${screen.busy ? texts.entry.saving : words}</button></div>`;
}

function context(screen) {
  const { form, standing } = screen;
  return {
    things: screen.things,
    values: screen.values,
    faults: screen.faults,
    active: screen.number()?.name,
    asked: (field) => isAsked(form, field, screen.values) || field.name in standing,
    // What is not filled in beforehand has to be thought about: there the form's help stands too.
    explained: (field) => !isOffered(form, field),
    heeds: (field, values) => needsHeed(form, field, values),
    onSet: (name, value) => screen.set(name, value),
    onKey: (key) => screen.press(key),
    onUnit: (field, unit) => screen.turnUnit(field, unit),
    from: (name) => screen.others[name] ?? 0,
    isAlone: (name) => name in screen.given && screen.values[name] === screen.given[name]
      && !(name in screen.others),
    onOthers: (name, from) => {
      screen.others = { ...screen.others, [name]: from };
      screen.requestUpdate();
    },
    onTurn: (name) => {
      screen.active = name;
      screen.requestUpdate();
    },
  };
}

/** Fields in the order of the form, each as what it is given by. */
function drawn(screen, fields, parts) {
  return fields.map((field) => {
    if (isChoice(field, screen.values)) return choiceGroup(field, parts);
    if (field.type === 'quantity') return quantityButton(field, parts);
    return field.type === 'list' ? listButton(screen, field) : writtenField(field, parts);
  });
}

/** What may be left open, and how a choice is taken back. */
function openHint(fields, parts) {
  const open = fields.some((field) => isChoice(field, parts.values) && !parts.asked(field));
  return open ? html`<p class="quiet">${texts.entry.openHint}</p>` : nothing;
}

function actions(screen, session, fields, parts) {
  return html`${openHint(fields, parts)}<div class="actions">
    <div class="pair">${previousButton(screen)}${asides(screen)}</div>
    ${saveButton(screen, session)}</div>`;
}

const isFirst = ({ page, step }) => page === 'main' && step === 0;

function withKeypad(screen, session, fields, parts) {
  const choices = fields.filter((field) => isChoice(field, screen.values));
  const quantities = fields.filter((field) => field.type === 'quantity');
  const several = quantities.length > 1;
  const others = fields.filter((field) => !choices.includes(field) && !quantities.includes(field));
  const { left, right } = split([...choices, ...others], parts);
  const cautions = isFirst(screen) ? cautionStrip(screen.form.cautions) : nothing;
  return html`<div class="form ${several ? 'several' : ''}" data-form=${screen.kind}
    data-step="${screen.page} ${screen.step}">
    ${several ? cautions : nothing}
    <div class="column">${drawn(screen, left, parts)}</div>
    ${numbers(screen, parts, several)}
    <div class="column">
      ${several ? drawn(screen, quantities, parts) : cautions}
      ${drawn(screen, right, parts)}
      ${actions(screen, session, fields, parts)}
    </div>
  </div>`;
}

/** Without a number the fields fill the page in columns, and the buttons stay at its lower edge. */
function withoutKeypad(screen, session, fields, parts) {
  return html`<div class="form without-keypad" data-form=${screen.kind}
    data-step="${screen.page} ${screen.step}">
    ${isFirst(screen) ? cautionStrip(screen.form.cautions) : nothing}
    ${fields.length ? nothing : html`<p>${screen.form.purpose}</p>`}
    <div class="spread">${drawn(screen, fields, parts)}</div>
    ${actions(screen, session, fields, parts)}
  </div>`;
}

/** The page of the form that `screen` has turned to. */
export function formPage(screen, session) {
  const fields = screen.stepFields();
  const draw = screen.number() ? withKeypad : withoutKeypad;
  return html`<h1 tabindex="-1" class="form-title">${screen.title()}</h1>
    ${draw(screen, session, fields, context(screen))}`;
}
