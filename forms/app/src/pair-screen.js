// Makes this browser a tablet of the workshop, with the one-time code that a manager shows.
import { html, nothing } from 'lit';
import { isAway } from './api.js';
import { hasRows, pair } from './device.js';
import { Screen, alertLine, errorText } from './screen.js';
import { go, route } from './route.js';
import { store } from './store.js';
import { texts } from '../texts.js';

function faultText(error) {
  if (error.status === 403) return texts.pair.wrong;
  if (error.status === 429 && error.retryAfterS) return texts.pair.wait(error.retryAfterS);
  return isAway(error) ? texts.away.needed : errorText(error);
}

class Pair extends Screen {
  code = route().argument;

  fault = '';

  done = false;

  async pair(event) {
    event.preventDefault();
    const code = this.code || new FormData(event.target).get('code');
    await this.once(async () => {
      this.fault = await hasRows() ? texts.pair.unsent : '';
      if (this.fault) return;
      try {
        await pair(code);
        this.done = true;
        go('pair'); // the code is used up, and need not stand in the address
      } catch (error) {
        this.code = ''; // another has to be typed
        this.fault = faultText(error);
      }
    });
  }

  /** Whose entries stand in the way, and what is to be done about them. */
  unsent() {
    const told = texts.pair;
    const { rows, device } = store.state;
    if (!rows.length) return nothing;
    const names = [...new Set(rows.map(({ name }) => name))];
    return html`<section class="note heeded unsent"><h2>${told.unsentTitle}</h2>
      <ul>${names.map((name) => html`<li>${told.unsentOf(name,
    rows.filter((row) => row.name === name).length)}</li>`)}</ul>
      <p>${device ? told.unsentPaired : told.unsentHow}</p>
      <p><a class="button" href="#/outbox">${told.unsentLink}</a></p></section>`;
  }

  form() {
    const told = texts.pair;
    const { device } = store.state;
    return html`<p>${told.lead}</p><p>${told.does}</p>
      ${device ? html`<p class="heed">${told.already(device.name)}</p>` : nothing}
      ${this.unsent()}
      <form class="narrow" @submit=${(event) => this.pair(event)}>
        ${this.code ? nothing : html`<label class="written"><span>${told.code}</span>
          <small class="quiet help">${told.codeHelp}</small>
          <input name="code" type="text" autocomplete="one-time-code" autocapitalize="characters"
            spellcheck="false" required maxlength="20"></label>`}
        ${alertLine(this.fault)}
        <button class="button primary" ?disabled=${this.busy}>${told.save}</button>
      </form>`;
  }

  render() {
    const told = texts.pair;
    const { device } = store.state;
    return html`<h1 tabindex="-1">${told.title}</h1>
      ${this.done && device ? html`<p class="note" role="status">${told.done(device.name)}</p>`
    : this.form()}
      <p><a class="button" href="#/">${told.back}</a></p>`;
  }
}

customElements.define('bw-pair', Pair);
