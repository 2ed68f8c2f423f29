// What stands above a list only on paper: of which workshop it is, what of the book it shows, when it
// was printed, and the head of the book it was read from.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { get } from './api.js';
import { inBlocks } from './blocks.js';
import { grouped } from './decimal.js';
import { thingName } from './form-data.js';
import { momentText } from './time.js';
import { onClock } from './zone.js';
import { texts } from '../texts.js';

class PaperHead extends Screen {
  static needsSession = true;

  // What of the book is listed, in words, where that can be chosen.
  static properties = { shows: { attribute: false } };

  connectedCallback() {
    super.connectedCallback();
    this.printing = () => {
      this.requestUpdate();
      this.performUpdate(); // what is printed is taken at once
    };
    window.addEventListener('beforeprint', this.printing);
  }

  disconnectedCallback() {
    window.removeEventListener('beforeprint', this.printing);
    super.disconnectedCallback();
  }

  fetch() {
    return this.load(async () => {
      const [{ things }, head] = await Promise.all([get('/register/workshop'),
        get('/book/checkpoint')]);
      [this.workshop] = things;
      this.head = head;
    });
  }

  render() {
    if (!this.loaded) return nothing;
    const told = texts.paper;
    const now = onClock(new Date().toISOString(), this.workshop?.attributes.time_zone);
    const lines = [this.workshop && thingName(this.workshop), this.shows,
      told.printed(momentText(now)), told.head(grouped(String(this.head.size)))];
    return html`<div class="on-paper">${lines.filter(Boolean).map((line) => html`<p>${line}</p>`)}
      <p class="address">${inBlocks(this.head.root)}</p></div>`;
  }
}

customElements.define('bw-paper-head', PaperHead);
