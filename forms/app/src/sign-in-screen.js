// Who is at the bench: a short list of names, then the PIN.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { TypedKeys, keypad } from './keypad.js';
import { signIn } from './session.js';
import { store } from './store.js';
import { texts } from '../texts.js';

const kPinMax = 12;

/** Why nobody was let in. */
function refusalText(error) {
  if (error.status === 403) return texts.signIn.wrong;
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
    store.set({ note: '' });
    this.updateComplete.then(() => this.querySelector('h1').focus());
  }

  press(name) {
    if (!this.person || this.busy) return;
    if (name === 'back') this.pin = this.pin.slice(0, -1);
    else if (/^\d$/.test(name) && this.pin.length < kPinMax) this.pin += name;
    this.fault = '';
    this.requestUpdate();
  }

  enter() {
    if (!this.person || this.pin === '') return;
    this.once(async () => {
      try {
        await signIn(this.person.id, this.pin);
      } catch (error) {
        this.fault = refusalText(error);
      }
      this.pin = '';
    });
  }

  list() {
    const { people, note } = store.state;
    return html`<h1 tabindex="-1">${texts.signIn.title}</h1>
      ${note ? html`<p class="note" role="status">${note}</p>` : nothing}
      ${people.length ? nothing : html`<p>${texts.signIn.nobody}</p>`}
      <ul class="people">${people.map((person) => html`<li>
        <button class="button person" @click=${() => this.choose(person)}>
          <b>${person.name}</b><span>${texts.roles[person.role] ?? person.role}</span>
        </button></li>`)}</ul>`;
  }

  render() {
    if (!this.person) return this.list();
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
