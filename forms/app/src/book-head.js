// The head of the book: its size and root as the daemon gives them now, beside the leaf hash of one
// entry where it is about one, and how somebody checks them without this page.
import { html, nothing } from 'lit';
import { Screen, alertLine } from './screen.js';
import { get } from './api.js';
import { inBlocks } from './blocks.js';
import { saveAs } from './save-file.js';
import { grouped } from './decimal.js';
import { entryByNumber, entryLink } from './entries.js';
import { momentText } from './time.js';
import { onClock, workshopZone } from './zone.js';
import { texts } from '../texts.js';

const fact = (label, value) => html`<div class="wide"><dt>${label}</dt>
  <dd class="address">${inBlocks(value)}</dd></div>`;

class BookHead extends Screen {
  static needsSession = true;

  entry = null; // the one it is about; its number stands in the address

  fetch() {
    return this.load(async () => {
      if (this.number) this.entry = await entryByNumber(this.number);
      [this.head, this.zone] = await Promise.all([get('/book/checkpoint'), workshopZone()]);
    });
  }

  saveProof() {
    return this.load(async () => {
      const size = this.querySelector('input').value.replaceAll(/\D/g, '');
      const proof = await get(`/entries/${this.entry.id}/proof${size ? `?size=${size}` : ''}`);
      saveAs(texts.head.file(this.entry.seq, proof.size), `${JSON.stringify(proof, null, 2)}\n`,
        'application/json');
    });
  }

  /** For the book as it is now, or as it was when somebody wrote down its size and root. */
  proof() {
    const told = texts.head;
    return html`<h2>${told.proofTitle}</h2><p>${told.means}</p>
      <label class="written"><span>${told.sizeThen}</span>
        <small class="quiet help">${told.sizeHelp}</small>
        <input type="text" inputmode="numeric" autocomplete="off" maxlength="15"></label>
      ${alertLine(this.loadFault)}
      <p class="links"><button class="button" @click=${() => this.saveProof()}>${told.save}</button>
        ${entryLink(this.entry.seq)}</p>
      <p class="quiet">${told.proofHow}</p>`;
  }

  /** What was signed last: whoever keeps it needs to trust nobody's writing down. */
  signed() {
    const told = texts.head;
    const { signed } = this.head;
    if (!signed) return html`<h2>${told.signedTitle}</h2><p>${told.unsigned}</p>`;
    return html`<h2>${told.signedTitle}</h2>
      <p>${told.signed(momentText(onClock(signed.signed_at, this.zone)),
    grouped(String(signed.size)))}</p>
      <dl class="facts note">${fact(told.key, signed.verifier_key)}</dl>
      <p class="links"><button class="button" @click=${() =>
    saveAs(told.noteFile(signed.size), signed.note, 'text/plain')}>${told.saveNote}</button></p>`;
  }

  render() {
    const told = texts.head;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    const { entry, head } = this;
    return html`<h1 tabindex="-1">${entry ? told.of(entry.seq) : told.title}</h1>
      <p>${told.lead}</p>
      <dl class="facts note">
        ${entry ? fact(told.leaf, entry.leaf_hash) : nothing}
        ${fact(told.size, grouped(String(head.size)))}
        ${fact(told.root, head.root)}</dl>
      ${entry ? this.proof() : nothing}
      ${this.signed()}
      <h2>${told.howTitle}</h2>
      <ol class="steps">${told.how.map((step) => html`<li>${step}</li>`)}</ol>
      <p class="quiet">${told.limit}</p>`;
  }
}

customElements.define('bw-head', BookHead);
