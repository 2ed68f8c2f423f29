// The pages an entry can turn to besides its form: cautions, an unusual number, no answer.
import { html } from 'lit';
import { caution } from './form-parts.js';
import { echo } from './units.js';
import { finished, grouped } from './decimal.js';
import { go } from './route.js';
import { texts } from '../texts.js';

/** All cautions of the form, in full. */
export function cautionsPage(screen) {
  return html`<h1 tabindex="-1">${texts.entry.cautions}</h1>
    <div class="blocks">${screen.form.cautions.map(caution)}</div>
    <p><button class="button" @click=${() => screen.turnTo('main')}>
      ${texts.entry.cautionsBack}</button></p>`;
}

function inWords(screen, name) {
  const { label, unit } = screen.field(name);
  const text = finished(screen.values[name]);
  return html`<p class="quiet">${label}</p>
    <p class="asked">${texts.confirm.words(text, unit)}</p>
    <p class="echo">${echo(text, unit)}</p>`;
}

/** The second tap for an unusual number: the value in words, and the daemon's reason. */
export function confirmPage(screen, session) {
  const values = screen.asked.map((name) =>
    `${grouped(finished(screen.values[name]))} ${screen.field(name).unit.symbol}`);
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

/** No answer came: the same entry can be sent again, unchanged. */
export function pendingPage(screen, { body, about }) {
  return html`<div class="ask">
    <h1 tabindex="-1">${texts.pending.title}</h1>
    <p class="asked">${about.line}</p>
    <p role="alert">${texts.pending.lead}</p>
    <div class="actions across">
      <button class="button" @click=${() => go('')}>${texts.pending.back}</button>
      <button class="button primary save" ?disabled=${screen.busy}
        @click=${() => screen.send(body, about)}>${texts.pending.again}</button>
    </div>
  </div>`;
}
