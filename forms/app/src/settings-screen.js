// This tablet: light or dark, and on which side the keypad and the button that records stand.
import { html } from 'lit';
import { Screen, alertLine } from './screen.js';
import { choose, kChoices, settings } from './settings.js';
import { texts } from '../texts.js';

// What it is printed on is chosen where something is printed.
const kHere = ['theme', 'hand'];

class Settings extends Screen {
  fault = '';

  choose(name, value) {
    this.fault = choose(name, value) ? '' : texts.tablet.notKept;
    this.requestUpdate();
  }

  group(name) {
    const words = texts.tablet[name];
    const chosen = settings()[name];
    return html`<fieldset class="group" data-setting=${name}><legend>${words.title}</legend>
      <p class="quiet help">${words.help}</p>
      <div class="choices across-3">${kChoices[name].map((value) => html`<label class="choice">
        <input type="radio" name=${name} value=${value} .checked=${chosen === value}
          @change=${() => this.choose(name, value)}>
        <span class="choice-face"><b>${words[value]}</b></span></label>`)}</div></fieldset>`;
  }

  render() {
    return html`<h1 tabindex="-1">${texts.tablet.title}</h1>
      <p>${texts.tablet.lead}</p>
      ${kHere.map((name) => this.group(name))}
      ${alertLine(this.fault)}`;
  }
}

customElements.define('bw-settings', Settings);
