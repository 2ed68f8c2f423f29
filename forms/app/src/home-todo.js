// What needs doing, at a glance on the bench of who reads the office's papers: what is beyond a limit
// and what is due soonest, each in its sentence.
import { html, nothing } from 'lit';
import { dayText, withDays } from './time.js';
import { texts } from '../texts.js';

const kShown = 3; // of each, so that the bench stays in sight
const kSoonDays = 31;

const dayAfter = (day, days) =>
  new Date(Date.parse(`${day}T12:00:00Z`) + days * 86400000).toISOString().slice(0, 10);

/** What is due within the next weeks or has passed undone: {fresh, known}, `known` being what stands
 *  beyond a limit already. */
function coming({ today, items }, over) {
  const told = new Set(over.map(({ rule, subject }) => `${rule} ${subject}`));
  const soon = items.filter(({ day }) => day <= dayAfter(today, kSoonDays));
  const isTold = ({ rule, subject }) => told.has(`${rule} ${subject}`);
  return { fresh: soon.filter((item) => !isTold(item)), known: soon.filter(isTold) };
}

function some(list, row, path) {
  const rest = list.length - kShown;
  return html`<ul class="todo-list">${list.slice(0, kShown).map((one) => html`<li>${row(one)}</li>`)}
    </ul>${rest > 0 ? html`<p><a class="button" href=${`#/${path}`}>${texts.todo.more(rest)}</a></p>`
    : nothing}`;
}

const overLine = ({ sentence }) => html`<p class="finding over">${withDays(sentence)}</p>`;

const dueLine = ({ day, sentence }) => html`<p class="finding due"><b>${dayText(day)}</b>
  ${withDays(sentence)}</p>`;

/** The part above the bench; nothing until both are known. */
export function todo(findings, due) {
  if (!findings || !due) return nothing;
  const told = texts.todo;
  const over = findings.filter(({ severity }) => severity === 'over');
  const acknowledged = over.filter((one) => one.acknowledged_by_entry).length;
  const { fresh, known } = coming(due, over);
  const soon = [...fresh, ...known]; // first what is not said beside it
  return html`<section class="todo" aria-label=${told.title}>
    <div data-todo="over"><h2>${told.over(over.length, acknowledged)}</h2>
      ${over.length ? some(over, overLine, 'findings') : nothing}</div>
    <div data-todo="soon"><h2>${told.soon(soon.length, kSoonDays, known.length)}</h2>
      ${soon.length ? some(soon, dueLine, 'due') : nothing}</div></section>`;
}
