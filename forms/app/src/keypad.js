// The big keypad: digits in three columns, tapped or typed.
import { html } from 'lit';
import { decimalMark } from './decimal.js';
import { keyOf } from './keys.js';
import { texts } from '../texts.js';

const kDigits = ['1', '2', '3', '4', '5', '6', '7', '8', '9'];

function key(label, name, onKey, spoken) {
  return html`<button class="key" type="button" aria-label=${spoken ?? label}
    @click=${() => onKey(name)}>${label}</button>`;
}

/** The keypad; `point` false leaves the decimal point out (PINs). */
export function keypad({ onKey, point }) {
  return html`<div class="keypad" role="group" aria-label=${texts.keypad.pad}>
    ${kDigits.map((digit) => key(digit, digit, onKey))}
    ${point ? key(decimalMark(), '.', onKey, texts.keypad.point) : html`<span></span>`}
    ${key('0', '0', onKey)}
    ${key('⌫', 'back', onKey, texts.keypad.back)}
  </div>`;
}

/** Lets a screen hear a physical keyboard, except while a text is being written. */
export class TypedKeys {
  constructor(host, onKey, onEnter) {
    this.listen = (event) => {
      if (event.target instanceof HTMLInputElement && event.target.type !== 'radio') return;
      const name = keyOf(event);
      if (name) {
        event.preventDefault();
        onKey(name);
      } else if (event.key === 'Enter' && onEnter && event.target === document.body) {
        onEnter();
      }
    };
    host.addController(this);
  }

  hostConnected() {
    window.addEventListener('keydown', this.listen);
  }

  hostDisconnected() {
    window.removeEventListener('keydown', this.listen);
  }
}
