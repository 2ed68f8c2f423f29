// Before a weighty act: whoever is signed in shows again that it is they. What they were doing stands
// behind it and goes on.
import { html } from 'lit';
import { Screen, alertLine } from './screen.js';
import { noteRenewal, onConfirmation, post } from './api.js';
import { refusalText } from './sign-in-screen.js';
import { store } from './store.js';
import { texts } from '../texts.js';

class Confirm extends Screen {
  static needsSession = true;

  fault = '';

  answer = null; // tells whoever waits

  connectedCallback() {
    super.connectedCallback();
    onConfirmation(() => this.ask());
  }

  /** The session is over, or somebody else's: what waited is not done. */
  disconnectedCallback() {
    onConfirmation(null);
    this.answer?.(false);
    super.disconnectedCallback();
  }

  get dialog() {
    return this.querySelector('dialog');
  }

  /** One question, whoever asks meanwhile. */
  ask() {
    if (this.answer) return this.asked;
    this.asked = new Promise((resolve) => {
      this.answer = resolve;
    });
    this.fault = '';
    this.requestUpdate();
    this.updateComplete.then(() => {
      this.dialog.showModal();
      this.querySelector('input').focus();
    });
    return this.asked;
  }

  close(given) {
    this.querySelector('input').value = '';
    this.dialog.close();
    this.answer?.(given);
    this.answer = null;
  }

  give() {
    return this.once(async () => {
      const field = this.querySelector('input');
      this.fault = '';
      try {
        await post('/session/confirmation', { [store.state.signInBy]: field.value });
        noteRenewal();
        this.close(true);
      } catch (error) {
        this.fault = refusalText(error);
        field.value = '';
      }
    });
  }

  render() {
    const told = texts.stillYou;
    const { session, signInBy } = store.state;
    return html`<dialog class="confirm" aria-label=${told.title} @cancel=${(event) => {
      event.preventDefault();
      this.close(false);
    }}><form class="asked-now" @submit=${(event) => {
      event.preventDefault();
      this.give();
    }}><h2>${told.title}</h2>
      <p>${told.lead(session.name, told[signInBy])}</p>
      <label class="written"><span>${told[signInBy]}</span>
        <input type="password" name="secret" maxlength="128" autocomplete="current-password"
          inputmode=${signInBy === 'pin' ? 'numeric' : 'text'}></label>
      ${alertLine(this.fault)}
      <div class="links"><button class="button" type="button" @click=${() => this.close(false)}>
        ${told.leave}</button>
      <button class="button primary" type="submit" ?disabled=${this.busy}>${told.goOn}</button></div>
    </form></dialog>`;
  }
}

customElements.define('bw-confirm', Confirm);
