// A chart with its words: what it shows in a sentence, a key to its lines, and the drawing, which is
// fetched when it is needed. Where it cannot be had, the words and lists around it say the same.
import { html, nothing, svg } from 'lit';
import { Screen } from './screen.js';
import { texts } from '../texts.js';

// With each of these the style sheet has other colours: a drawing has to be made anew.
const kLooks = ['(prefers-color-scheme: dark)', 'print'].map((query) => window.matchMedia(query));

let part = null; // the drawing code, once it was fetched

const kSamples = {
  solid: svg`<path class="key-line" d="M0 10h48"></path><circle class="key-dot" cx="24" cy="10" r="4">
    </circle>`,
  dashed: svg`<path class="key-line" d="M0 10h48" stroke-dasharray="10 6"></path>`,
  ring: svg`<circle class="key-ring" cx="24" cy="10" r="7"></circle>`,
  narrow: svg`<rect class="key-narrow" width="48" height="20"></rect>`,
  wide: svg`<rect class="key-wide" width="48" height="20"></rect>`,
  'moment-dashed': svg`<path class="key-moment" d="M24 0v20" stroke-dasharray="6 4"></path>`,
  'moment-dotted': svg`<path class="key-moment" d="M24 0v20" stroke-dasharray="2 4"></path>`,
};

class Chart extends Screen {
  static properties = { spec: { attribute: false } };

  fault = false;

  connectedCallback() {
    super.connectedCallback();
    this.anew = () => this.paint();
    for (const look of kLooks) look.addEventListener('change', this.anew);
  }

  disconnectedCallback() {
    for (const look of kLooks) look.removeEventListener('change', this.anew);
    this.take?.();
    this.take = null;
    super.disconnectedCallback();
  }

  updated(changes) {
    if (changes.has('spec')) this.paint();
  }

  /** At once when the code is here, so that paper gets what it should. */
  paint() {
    const host = this.querySelector('.drawing');
    if (!part) this.fetchPart();
    else if (host) {
      this.take?.();
      this.take = part.draw(host, this.spec);
    }
  }

  async fetchPart() {
    try {
      part = await import('./charts.js');
      if (this.isConnected) this.paint();
    } catch {
      this.fault = true;
      this.requestUpdate();
    }
  }

  render() {
    const { title, says, key } = this.spec;
    return html`<figure class="chart"><figcaption><b>${title}</b> <span>${says}</span></figcaption>
      <div class="drawing" role="img" aria-label=${`${title}. ${says}`}></div>
      ${this.fault ? html`<p class="quiet">${texts.chart.missing}</p>` : nothing}
      <ul class="key-list" aria-label=${texts.chart.key}>${key.map(([sample, words]) => html`<li>
        <svg class="sample" viewBox="0 0 48 20" aria-hidden="true">${kSamples[sample]}</svg>
        <span>${words}</span></li>`)}</ul></figure>`;
  }
}

customElements.define('bw-chart', Chart);
