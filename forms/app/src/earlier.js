// What happened earlier than it is recorded: its day and time are chosen on a page of the form, and
// stay in sight on the button that opens it.
import { html, nothing } from 'lit';
import { alertLine, errorText } from './screen.js';
import { localDay, momentText } from './time.js';
import { momentOn, workshopZone } from './zone.js';
import { texts } from '../texts.js';

// The name under which a draft keeps the moment; no field has such a name.
const kHappened = '@happened';

/** The moment that was chosen; "" while it is the one of recording. */
export const happenedAt = (values) => values[kHappened] ?? '';

/** The values as of something that happened at this moment. */
export const withMoment = (values, moment) => ({ ...values, [kHappened]: moment });

/** The button of the form that opens the page. */
export function earlierButton(screen) {
  if (screen.fixedMoment) return nothing;
  const moment = happenedAt(screen.values);
  return html`<button class="button earlier" type="button" @click=${() => screen.turnTo('earlier')}>
    <small>${texts.earlier.happened}</small>
    <b>${moment ? momentText(moment) : texts.earlier.now}</b></button>`;
}

function leave(screen, moment) {
  screen.earlierFault = '';
  screen.change({ ...screen.values, [kHappened]: moment });
  screen.turnTo('main');
}

/** Takes what is filled in, unless it lies ahead. */
function take(screen) {
  const filled = (name) => screen.querySelector(`input[name="${name}"]`).value;
  const [day, time] = [filled('day'), filled('time')];
  return screen.once(async () => {
    if (!day || !time) {
      screen.earlierFault = texts.earlier.both;
      return;
    }
    try {
      const moment = momentOn(day, time.slice(0, 5), await workshopZone());
      if (Date.parse(moment) > Date.now()) screen.earlierFault = texts.earlier.ahead;
      else leave(screen, moment);
    } catch (error) {
      screen.earlierFault = errorText(error);
    }
  });
}

const input = (type, label, value, max) => html`<label class="written"><span>${label}</span>
  <input type=${type} name=${type === 'date' ? 'day' : 'time'} value=${value} max=${max}></label>`;

/** The page on which the moment is chosen. */
export function earlierPage(screen) {
  const moment = happenedAt(screen.values);
  return html`<div class="ask"><h1 tabindex="-1">${texts.earlier.title}</h1>
    <p>${texts.earlier.lead}</p>
    ${input('date', texts.earlier.day, moment.slice(0, 10), localDay(new Date()))}
    ${input('time', texts.earlier.time, moment.slice(11, 16), '')}
    ${alertLine(screen.earlierFault)}
    <div class="actions across">
      <button class="button" type="button" @click=${() => leave(screen, '')}>
        ${texts.earlier.itIsNow}</button>
      <button class="button primary" type="button" ?disabled=${screen.busy}
        @click=${() => take(screen)}>${texts.earlier.take}</button>
    </div></div>`;
}
