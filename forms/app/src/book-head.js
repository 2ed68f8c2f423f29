// The head of the book: its size and root as the daemon gives them now, beside the leaf hash of one
// entry where it is about one, and how somebody checks them without this page.
import { html, nothing } from 'lit';
import { Screen, alertLine } from './screen.js';
import { get } from './api.js';
import { inBlocks } from './blocks.js';
import { grouped } from './decimal.js';
import { texts } from '../texts.js';

const fact = (label, value) => html`<div class="wide"><dt>${label}</dt>
  <dd class="address">${inBlocks(value)}</dd></div>`;

class BookHead extends Screen {
  static needsSession = true;

  entry = null; // {seq, leaf_hash} of the entry it is about

  fetch() {
    return this.load(async () => {
      this.head = await get('/book/checkpoint');
    });
  }

  facts() {
    const told = texts.head;
    if (!this.loaded) return this.loadFault ? alertLine(this.loadFault) : html`<p>${texts.loading}</p>`;
    return html`<dl class="facts note">
      ${this.entry ? fact(told.leaf, this.entry.leaf_hash) : nothing}
      ${fact(told.size, grouped(String(this.head.size)))}
      ${fact(told.root, this.head.root)}</dl>`;
  }

  render() {
    const told = texts.head;
    return html`${this.entry ? html`<h2>${told.of(this.entry.seq)}</h2>`
      : html`<h1 tabindex="-1">${told.title}</h1>`}
      <p>${told.lead}</p>
      ${this.facts()}
      ${this.entry ? html`<p>${told.means}</p>` : nothing}
      ${this.entry ? html`<h3>${told.howTitle}</h3>` : html`<h2>${told.howTitle}</h2>`}
      <ol class="steps">${told.how.map((step) => html`<li>${step}</li>`)}</ol>
      <p class="quiet">${told.limit}</p>`;
  }
}

customElements.define('bw-head', BookHead);
