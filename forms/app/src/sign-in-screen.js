// Who is at the bench: a short list of names, then the PIN.
import { html, nothing } from 'lit';
import { isAway } from './api.js';
import { Screen, alertLine, errorText } from './screen.js';
import { TypedKeys, keypad } from './keypad.js';
import { claim, mayClaim, signIn } from './session.js';
import { store } from './store.js';
import { texts } from '../texts.js';

const kPinMax = 12;

/** Why nobody was let in. */
export function refusalText(error) {
  if (isAway(error)) return texts.signIn.away;
  if (error.status === 403 && error.problem.type === '/problems/forbidden') {
    return store.state.signInBy === 'pin' ? texts.signIn.wrong : texts.signIn.wrongPassphrase;
  }
  if (error.status !== 429) return errorText(error);
  return error.retryAfterS ? texts.signIn.wait(error.retryAfterS) : texts.signIn.lockedOut;
}

class SignIn extends Screen {
  person = null;

  pin = '';

  fault = '';

  keys = new TypedKeys(this, (name) => this.press(name), () => this.enter());

  connectedCallback() {
    super.connectedCallback();
    this.paste = (event) => {
      const digits = (event.clipboardData?.getData('text') ?? '').replace(/\D/g, '');
      for (const digit of digits) this.press(digit);
    };
    window.addEventListener('paste', this.paste);
  }

  disconnectedCallback() {
    window.removeEventListener('paste', this.paste);
    super.disconnectedCallback();
  }

  choose(person) {
    this.person = person;
    this.pin = '';
    this.fault = '';
    store.set({ note: '', asking: null });
    this.updateComplete.then(() => this.querySelector('h1').focus());
  }

  press(name) {
    if (!this.person || this.busy || store.state.signInBy === 'passphrase') return;
    if (name === 'back') this.pin = this.pin.slice(0, -1);
    else if (/^\d$/.test(name) && this.pin.length < kPinMax) this.pin += name;
    this.fault = '';
    this.requestUpdate();
  }

  enter() {
    if (!this.person || this.pin === '' || this.busy) return;
    this.once(async () => {
      try {
        await signIn(this.person.id, this.pin);
      } catch (error) {
        this.fault = refusalText(error);
      }
      this.pin = '';
    });
  }

  /** What this browser is to the workshop. */
  tablet() {
    const { device, away } = store.state;
    const told = texts.signIn;
    if (device) return html`<p class="quiet">${told.tablet(device.name)}</p>`;
    return html`<p class="quiet">${told.unpaired}</p>
      ${away ? html`<p class="note">${told.nobodyNew}</p>` : html`<p>
        <a class="button" href="#/pair">${texts.pair.title}</a></p>`}`;
  }

  list() {
    const { people, note } = store.state;
    return html`<h1 tabindex="-1">${texts.signIn.title}</h1>
      ${note ? html`<p class="note" role="status">${note}</p>` : nothing}
      ${people.length ? nothing : html`<p>${texts.signIn.nobody}</p>`}
      <ul class="people">${people.map((person) => html`<li>
        <button class="button person" @click=${() => this.choose(person)}>
          <b>${person.name}</b><span>${texts.roles[person.role] ?? person.role}</span>
        </button></li>`)}</ul>
      ${this.tablet()}`;
  }

  /** Nobody can check the PIN now: the name is taken from the list, and that is said. */
  claimPage() {
    const told = texts.claimed;
    return html`<div class="ask"><h1 tabindex="-1">${told.title(this.person.name)}</h1>
      <p>${told.lead}</p><p class="heed">${told.caution}</p>
      ${alertLine(this.fault)}
      <div class="actions across">
        <button class="button" @click=${() => this.choose(null)}>${texts.signIn.other}</button>
        <button class="button primary save" ?disabled=${this.busy} @click=${() => this.claim()}>
          ${told.goOn(this.person.name)}</button></div></div>`;
  }

  /** A browser that is no paired tablet: written, not tapped. */
  passphrasePage() {
    const told = texts.signIn;
    return html`<form class="ask" @submit=${(event) => {
      event.preventDefault();
      this.pin = this.querySelector('input').value;
      this.enter();
    }}><h1 tabindex="-1">${told.passphraseTitle(this.person.name)}</h1>
      <p>${told.passphraseLead}</p>
      <label class="written"><span>${told.passphrase}</span>
        <input type="password" name="passphrase" maxlength="128" autocomplete="current-password"></label>
      ${alertLine(this.fault)}
      <div class="actions across">
        <button class="button" type="button" @click=${() => this.choose(null)}>${told.other}</button>
        <button class="button primary save" type="submit" ?disabled=${this.busy}>
          ${told.enter}</button></div></form>`;
  }

  claim() {
    return this.once(async () => {
      try {
        await claim(this.person);
      } catch (error) {
        this.fault = errorText(error);
      }
    });
  }

  render() {
    if (!this.person) return this.list();
    if (mayClaim()) return this.claimPage();
    if (store.state.signInBy === 'passphrase') return this.passphrasePage();
    const length = this.pin.length;
    return html`<div class="pin">
      <div class="pin-side">
        <h1 tabindex="-1">${texts.signIn.pinTitle(this.person.name)}</h1>
        <p class="dots" role="status"><span aria-hidden="true">${'●'.repeat(length)}</span>
          <span class="quiet">${texts.signIn.digits(length)}</span></p>
        ${alertLine(this.fault)}
        <button class="button primary" ?disabled=${this.busy} @click=${() => this.enter()}>
          ${texts.signIn.enter}</button>
        <button class="button" @click=${() => this.choose(null)}>${texts.signIn.other}</button>
      </div>
      ${keypad({ onKey: (name) => this.press(name), point: false })}
    </div>`;
  }
}

customElements.define('bw-sign-in', SignIn);
