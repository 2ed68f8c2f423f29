// The camera with what it reads, and a field to type an id into where no camera can be used. Hands
// over the thing of the register that is meant.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { isAway } from './api.js';
import { startCamera } from './camera.js';
import { thingName } from './form-data.js';
import { scanned, thingsMeant, typed } from './scan-code.js';
import { texts } from '../texts.js';

class Scanner extends Screen {
  static needsSession = true;

  // Called with the thing that was found.
  static properties = { found: { attribute: false } };

  state = 'starting'; // starting, watching, or by which of the texts it cannot be used

  written = '';

  fault = '';

  several = []; // things of one id, of which one has to be chosen

  last = ''; // the code that is in the picture

  firstUpdated() {
    this.watch();
  }

  disconnectedCallback() {
    this.stop?.();
    super.disconnectedCallback();
  }

  async watch() {
    this.state = 'starting';
    this.requestUpdate();
    const { stop, state } = await startCamera(this.querySelector('video'),
      (text) => this.sees(text));
    if (!this.isConnected) {
      stop();
      return;
    }
    Object.assign(this, { stop, state });
    this.requestUpdate();
  }

  /** A code is looked up once for as long as it stays in the picture. */
  sees(text) {
    if (text === this.last) return;
    this.last = text;
    if (text) this.lookUp(scanned(text), texts.scan.foreign);
  }

  type() {
    const text = this.written.trim();
    return this.lookUp(typed(text), text ? texts.scan.unknown(text) : texts.scan.nothingTyped);
  }

  lookUp(code, otherwise) {
    return this.once(async () => {
      Object.assign(this, { fault: '', several: [] });
      try {
        const things = code ? await thingsMeant(code) : [];
        if (things.length === 1) await this.found(things[0]);
        else if (things.length) this.several = things;
        else this.fault = code ? texts.scan.unknown(code.id) : otherwise;
      } catch (error) {
        this.fault = isAway(error) ? texts.away.needed : errorText(error);
      }
    });
  }

  camera() {
    const told = texts.scan;
    const works = ['starting', 'watching'].includes(this.state);
    return html`<div class="camera" ?hidden=${!works}>
        <video autoplay muted playsinline aria-label=${told.picture}></video></div>
      ${works ? html`<p>${told.lead}</p><p class="quiet" role="status">${told[this.state]}</p>`
    : html`${alertLine(told[this.state])}
        <p><button class="button" type="button" @click=${() => this.watch()}>${told.again}</button></p>`}`;
  }

  choice() {
    const told = texts.scan;
    if (!this.several.length) return nothing;
    return html`<p role="alert">${told.several(this.several[0].id)}</p>
      <div class="links">${this.several.map((thing) => html`<button class="button" type="button"
        @click=${() => this.found(thing)}>${thingName(thing)}</button>`)}</div>`;
  }

  typing() {
    const told = texts.scan;
    return html`<form class="typed-id" @submit=${(event) => {
    event.preventDefault();
    this.type();
  }}><label class="written"><span>${told.typed}</span>
        <small class="quiet">${told.typedHelp}</small>
        <input type="text" name="id" autocomplete="off" autocapitalize="off" spellcheck="false"
          maxlength="80" .value=${this.written}
          @input=${(event) => { this.written = event.target.value; }}></label>
      <button class="button primary" ?disabled=${this.busy}>${told.look}</button></form>`;
  }

  render() {
    return html`<div class="scanner">
      <div class="column">${this.camera()}</div>
      <div class="column">${alertLine(this.fault)}${this.choice()}${this.typing()}</div></div>`;
  }
}

customElements.define('bw-scanner', Scanner);
