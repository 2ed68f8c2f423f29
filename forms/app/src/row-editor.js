// Lists of a form: one line of text for each row, and one page on which a row is filled in by the
// same choices and keypad as the form itself.
import { html, nothing } from 'lit';
import { choiceGroup, numberPanel, optionsOf, quantityButton, quantityText, writtenField }
  from './form-parts.js';
import { isComplete, rowsOf } from './draft.js';
import { dayText } from './time.js';
import { alertLine } from './screen.js';
import { keypad } from './keypad.js';
import { texts } from '../texts.js';

function cellText(column, row, things) {
  const text = row[column.name];
  if (column.type === 'quantity') return quantityText(column, row);
  if (column.type === 'date') return dayText(text);
  return optionsOf(column, things).find(({ value }) => value === text)?.label ?? text;
}

/** "Oil drum W1 · 62 000 mL": what of a row is given, in words. */
export function rowText(list, row, things) {
  const given = list.columns.filter((column) => (row[column.name] ?? '') !== '')
    .map((column) => cellText(column, row, things));
  return given.join(' · ') || texts.rows.empty;
}

/** The button of a list on a page of the form. */
export function listButton(screen, list) {
  const count = rowsOf(screen.values, list).length;
  const fault = screen.faults[list.name];
  return html`<div data-field=${list.name}>
    <button class="button quantity" type="button" @click=${() => screen.openList(list.name)}>
      <span>${list.label}</span><b>${texts.rows.count(count)}</b></button>
    ${fault ? alertLine(fault) : html`<p class="quiet help">${list.help}</p>`}
    <ul class="lines">${rowsOf(screen.values, list).map((row) =>
    html`<li>${rowText(list, row, screen.things)}</li>`)}</ul>
  </div>`;
}

function line(screen, list, row, index) {
  const fault = screen.faults[`${list.name}/${index}`]
    || (isComplete(list, row) ? '' : texts.rows.unfinished);
  return html`<li class="row-line">
    <button class="button" type="button" @click=${() => screen.openRow(index)}>
      <span><span class="quiet">${index + 1}</span> <b>${rowText(list, row, screen.things)}</b></span>
      <span class="quiet">${texts.rows.change}</span></button>
    ${alertLine(fault)}</li>`;
}

/** The page with all rows of the list that the screen has turned to. */
export function listPage(screen) {
  const list = screen.field(screen.list);
  const rows = rowsOf(screen.values, list);
  return html`<div class="ask rows"><h1 tabindex="-1">${list.label}</h1>
    <p>${list.help}</p>
    ${rows.length ? nothing : html`<p>${texts.rows.none}</p>`}
    <ol>${rows.map((row, index) => line(screen, list, row, index))}</ol>
    <div class="actions across">
      <button class="button" type="button" ?disabled=${rows.length >= list.rows_max}
        @click=${() => screen.openRow(rows.length)}>${texts.rows.add}</button>
      <button class="button primary" type="button" @click=${() => screen.closeList()}>
        ${texts.entry.backToForm}</button>
    </div></div>`;
}

const isChoice = (column) => column.type === 'id' || column.type === 'code';

function numbers(screen, parts) {
  const active = screen.number();
  if (!active) return nothing;
  return html`<div class="column numbers">${numberPanel(active, parts)}
    ${alertLine(parts.faults[active.name])}
    ${keypad({ onKey: parts.onKey, point: !active.whole })}</div>`;
}

/** The page of one row. */
export function rowPage(screen) {
  const list = screen.field(screen.list);
  const row = rowsOf(screen.values, list)[screen.row] ?? {};
  const prefix = `${list.name}/${screen.row}/`;
  const parts = {
    things: screen.things,
    values: row,
    faults: Object.fromEntries(list.columns.map(({ name }) => [name, screen.faults[prefix + name]])),
    active: screen.number()?.name,
    asked: (column) => column.required,
    explained: () => true,
    heeds: () => false,
    onSet: (name, value) => screen.setCell(name, value),
    onKey: (key) => screen.press(key),
    onUnit: (field, unit) => screen.turnUnit(field, unit),
    from: (name) => screen.others[name] ?? 0,
    onOthers: (name, from) => {
      screen.others = { ...screen.others, [name]: from };
      screen.requestUpdate();
    },
    onTurn: (name) => {
      screen.active = name;
      screen.requestUpdate();
    },
  };
  const quantities = list.columns.filter((column) => column.type === 'quantity');
  const written = list.columns.filter((column) => !isChoice(column) && column.type !== 'quantity');
  return html`<h1 tabindex="-1" class="form-title">${texts.rows.title(list.label, screen.row + 1)}</h1>
    <div class="form ${quantities.length ? '' : 'without-keypad'}">
      <div class="column">${list.columns.filter(isChoice)
    .map((column) => choiceGroup(column, parts))}</div>
      ${numbers(screen, parts)}
      <div class="column">
        ${quantities.length > 1 ? quantities.map((column) => quantityButton(column, parts)) : nothing}
        ${written.map((column) => writtenField(column, parts))}
        <div class="actions">
          <button class="button" type="button" @click=${() => screen.dropRow()}>
            ${texts.rows.remove}</button>
          <button class="button primary save" type="button" @click=${() => screen.closeRow()}>
            ${texts.rows.done}</button>
        </div>
      </div>
    </div>`;
}
