// Scan a label: what hangs on it opens the form that is usual for it, with the thing filled in. Where
// there are several, they stand to choose from; who only reads sees what was recorded about it.
import { html } from 'lit';
import { Screen, alertLine } from './screen.js';
import { thingName } from './form-data.js';
import { go } from './route.js';
import { pageOf, usualForms } from './scan-code.js';
import { mayRecord } from './session.js';
import { store } from './store.js';
import './scanner.js';
import { texts } from '../texts.js';

class Scan extends Screen {
  static needsSession = true;

  thing = null;

  forms = [];

  async found(thing) {
    if (!mayRecord(store.state.session)) {
      go(pageOf(thing));
      return;
    }
    const forms = thing.retired ? [] : await usualForms(thing);
    if (!this.isConnected) return;
    if (forms.length === 1) {
      this.open(forms[0], thing);
      return;
    }
    Object.assign(this, { thing, forms });
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('h1')?.focus());
  }

  open({ kind }, { class: name, id }) {
    go(`record/${kind}/${name}/${encodeURIComponent(id)}`);
  }

  again() {
    this.thing = null;
    this.requestUpdate();
  }

  why() {
    const told = texts.scan;
    const name = thingName(this.thing);
    if (this.thing.retired) return alertLine(told.retired(name));
    return this.forms.length ? html`<p>${told.what}</p>` : alertLine(told.noForm(name));
  }

  chosen() {
    const told = texts.scan;
    const { thing, forms } = this;
    return html`<div class="ask"><h1 tabindex="-1">${thingName(thing)}</h1>
      ${this.why()}
      <div class="scan-forms">${forms.map((form, index) => html`<button
        class="button task ${index ? '' : 'primary'}" @click=${() => this.open(form, thing)}>
        ${form.title}</button>`)}</div>
      <p class="links"><a class="button" href=${`#/${pageOf(thing)}`}>${told.page}</a>
        <button class="button" @click=${() => this.again()}>${told.other}</button></p></div>`;
  }

  render() {
    if (this.thing) return this.chosen();
    return html`<h1 tabindex="-1">${texts.scan.title}</h1>
      <bw-scanner .found=${(thing) => this.found(thing)}></bw-scanner>`;
  }
}

customElements.define('bw-scan', Scan);
