// The access of an inspector, as the page of people shows and asks it.
import { html } from 'lit';
import { dayText, localDay } from './time.js';
import { texts } from '../texts.js';

/** A day by the clock of this browser, so many days ahead, as it stands in a date field. */
export const dayAhead = (days) => localDay(new Date(Date.now() + days * 86400000));

const kHalfDay = 43200000;

/** The day that ends at a moment: half a day before, so that it is the same by the clock of a browser
 *  some hours off. `onClock` gives a moment as a clock shows it. */
export const lastDay = (until, onClock) =>
  dayText(onClock(new Date(Date.parse(until) - kHalfDay).toISOString()));

export function inspectionText(inspection, onClock) {
  const told = texts.inspection;
  if (!inspection) return told.none;
  const { from, until, scope } = inspection;
  return told.given(dayText(onClock(from)), lastDay(until, onClock), told.scopes[scope]);
}

/** From a day to a day, and for which part of the book; `fill` takes what is chosen. */
export function inspectionForm(asking, fill) {
  const told = texts.inspection;
  const day = (name, label, help) => html`<label class="written"><span>${label}</span>
    ${help ? html`<small class="quiet help">${help}</small>` : ''}
    <input type="date" name=${name} .value=${asking[name]}
      @input=${(event) => fill(name, event.target.value)}></label>`;
  return html`${day('first_day', told.firstDay)}${day('last_day', told.lastDay, told.lastDayHelp)}
    <fieldset class="group"><legend>${told.scope}</legend><div class="choices across-3">
      ${Object.entries(told.scopes).map(([scope, label]) => html`<label class="choice">
        <input type="radio" name="scope" value=${scope} .checked=${asking.scope === scope}
          @change=${() => fill('scope', scope)}>
        <span class="choice-face"><b>${label}</b></span></label>`)}</div></fieldset>`;
}
