// A passphrase of one's own, for browsers that are no paired tablets; part of the page of who is signed
// in.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, put } from './api.js';
import { texts } from '../texts.js';

class Passphrase extends Screen {
  static needsSession = true;

  asking = false;

  fault = '';

  done = '';

  fetch() {
    return this.load(async () => {
      this.has = (await get('/session')).has_passphrase;
    });
  }

  ask(asking) {
    Object.assign(this, { asking, fault: '', done: '' });
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('input')?.focus());
  }

  save() {
    const told = texts.sessions.passphrase;
    const [first, again] = [...this.querySelectorAll('input')].map(({ value }) => value);
    if (first !== again) {
      this.fault = told.differs;
      this.requestUpdate();
      return null;
    }
    return this.once(async () => {
      this.fault = '';
      try {
        await put('/session/passphrase', { passphrase: first });
        Object.assign(this, { asking: false, has: true, done: told.done });
      } catch (error) {
        const said = error.errors?.map(({ detail }) => texts.problem.sentence(detail)).join(' ');
        this.fault = said || errorText(error);
      }
    });
  }

  field(name, label) {
    return html`<label class="written"><span>${label}</span>
      <input type="password" name=${name} maxlength="128" autocomplete="new-password"></label>`;
  }

  form() {
    const told = texts.sessions.passphrase;
    return html`<form class="asked-now" @submit=${(event) => {
      event.preventDefault();
      this.save();
    }}>${this.field('first', told.first)}${this.field('again', told.again)}
      ${alertLine(this.fault)}
      <div class="links"><button class="button" type="button" @click=${() => this.ask(false)}>
        ${texts.kept.leave}</button>
      <button class="button primary" type="submit" ?disabled=${this.busy}>${told.save}</button></div>
    </form>`;
  }

  render() {
    const told = texts.sessions.passphrase;
    return html`<section class="block"><h2>${told.title}</h2>
      <p>${told.lead} ${this.has ? told.has : told.hasNone}</p>
      ${this.done ? html`<p class="note" role="status">${this.done}</p>` : nothing}
      ${this.asking ? this.form() : html`<button class="button" @click=${() => this.ask(true)}>
        ${told.set}</button>`}</section>`;
  }
}

customElements.define('bw-passphrase', Passphrase);
