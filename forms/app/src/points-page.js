// A list of nothing but numbers, such as the points of a gauge: a table of lines on the left, the keypad
// beside it. Digits go into the place that is marked; one key goes on to the next.
import { html, nothing } from 'lit';
import { numberPanel } from './form-parts.js';
import { isComplete, isEmptyRow, rowsOf, unitIn } from './draft.js';
import { alertLine } from './screen.js';
import { grouped } from './decimal.js';
import { keypad } from './keypad.js';
import { symbolOf } from './units.js';
import { texts } from '../texts.js';

const kShown = 6; // lines that fit at once

/** True for a list of which every line is some numbers and nothing else. */
export const isTable = (list) => list.columns.length > 1
  && list.columns.every(({ type }) => type === 'quantity');

/** The lines of the table; the one that is filled in stands there before it has a number. */
function lines(screen, list) {
  const rows = rowsOf(screen.values, list);
  return screen.row < rows.length ? rows : [...rows, {}];
}

function cell(screen, column, row, index) {
  const text = row[column.name];
  const here = index === screen.row && column.name === screen.number().name;
  const label = texts.points.cell(column.label, index + 1);
  const words = text ? grouped(text) : '–';
  return html`<td><button class="button cell" type="button" aria-pressed=${here}
    aria-label=${`${label}: ${words}`}
    @click=${() => screen.turnToCell(index, column.name)}>${words}</button></td>`;
}

function line(screen, list, row, index) {
  const fault = screen.faults[`${list.name}/${index}`]
    || (isEmptyRow(row) || isComplete(list, row) || index === screen.row ? '' : texts.rows.unfinished);
  return html`<tr><th scope="row">${index + 1}</th>
    ${list.columns.map((column) => cell(screen, column, row, index))}</tr>
    ${fault ? html`<tr><td colspan=${list.columns.length + 1}>${alertLine(fault)}</td></tr>` : nothing}`;
}

/** The place after the marked one; null at the end of a table that is full. */
function nextCell(screen, list) {
  const names = list.columns.map(({ name }) => name);
  const at = names.indexOf(screen.number().name);
  if (at + 1 < names.length) return [screen.row, names[at + 1]];
  return screen.row + 1 < list.rows_max ? [screen.row + 1, names[0]] : null;
}

function nextButton(screen, list) {
  const next = nextCell(screen, list);
  const words = next && next[0] > screen.row ? texts.points.add : texts.points.next;
  return html`<button class="button next-cell" type="button" ?disabled=${!next}
    @click=${() => screen.turnToCell(...next)}>${words}</button>`;
}

/** The lines before and after those that are shown. */
function turning(screen, first, count) {
  if (count <= kShown) return nothing;
  const name = screen.number().name;
  const to = (row) => () => screen.turnToCell(row, name);
  return html`<div class="pair">
    <button class="button" type="button" ?disabled=${first === 0}
      @click=${to(Math.max(0, first - 1))}>${texts.points.earlier}</button>
    <p>${texts.points.part(first + 1, Math.min(first + kShown, count), count)}</p>
    <button class="button" type="button" ?disabled=${first + kShown >= count}
      @click=${to(Math.min(count - 1, first + kShown))}>${texts.points.later}</button></div>`;
}

/** Leaves the table; lines with nothing in them are none. */
function done(screen, list) {
  screen.setRows(rowsOf(screen.values, list).filter((row) => !isEmptyRow(row)));
  screen.closeList();
}

function head(screen, list) {
  const rows = rowsOf(screen.values, list);
  const symbol = (column) => symbolOf(unitIn(rows[screen.row] ?? {}, column), column.unit);
  return html`<tr><td></td>${list.columns.map((column) =>
    html`<th scope="col">${column.label} <span class="quiet">${symbol(column)}</span></th>`)}</tr>`;
}

/** The page of the table that the screen has turned to. */
export function pointsPage(screen) {
  const list = screen.field(screen.list);
  const all = lines(screen, list);
  const first = Math.floor(screen.row / kShown) * kShown;
  const active = screen.number();
  const parts = { values: screen.cells(), onKey: (key) => screen.press(key),
    onUnit: (field, unit) => screen.turnUnit(field, unit) };
  return html`<h1 tabindex="-1" class="form-title">${list.label}</h1>
    <div class="form points" data-form=${screen.kind}>
      <div class="column"><p class="quiet">${list.help}</p>
        <table class="table"><thead>${head(screen, list)}</thead>
          <tbody>${all.slice(first, first + kShown)
    .map((row, index) => line(screen, list, row, first + index))}</tbody></table>
        ${turning(screen, first, all.length)}
        <div class="actions"><button class="button primary save" type="button"
          @click=${() => done(screen, list)}>${texts.entry.backToForm}</button></div></div>
      <div class="column numbers">${numberPanel(active, parts)}
        <p class="quiet help">${active.help}</p>
        ${alertLine(screen.faults[`${list.name}/${screen.row}/${active.name}`])}
        ${keypad({ onKey: parts.onKey, point: !active.whole })}
        ${nextButton(screen, list)}</div>
    </div>`;
}
