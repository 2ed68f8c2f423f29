// First start: the code from the console makes the first manager.
import { html } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { setUp } from './session.js';
import { texts } from '../texts.js';

const kFields = [
  { name: 'code', type: 'text', complete: 'one-time-code' },
  { name: 'name', type: 'text', complete: 'name' },
  { name: 'pin', type: 'password', complete: 'new-password' },
  { name: 'pinAgain', type: 'password', complete: 'new-password' },
];

class Setup extends Screen {
  faults = {};

  async save(event) {
    event.preventDefault();
    const given = Object.fromEntries(new FormData(event.target));
    this.faults = {};
    if (given.pin !== given.pinAgain) {
      this.faults = { pinAgain: texts.setup.pinDiffers };
      this.requestUpdate();
      return;
    }
    await this.once(() => this.send(given));
  }

  async send({ code, name, pin }) {
    try {
      await setUp(code.trim(), name.trim(), pin);
    } catch (error) {
      const known = (error.errors ?? []).filter((fault) => fault.pointer?.slice(1) in texts.setup);
      for (const fault of known) this.faults[fault.pointer.slice(1)] ??= fault.detail;
      if (!known.length) this.faults.general = errorText(error);
    }
  }

  field({ name, type, complete }) {
    const fault = this.faults[name];
    const numeric = type === 'password' ? 'numeric' : 'text';
    return html`<label class="written"><span>${texts.setup[name]}</span>
      <input name=${name} type=${type} inputmode=${numeric} autocomplete=${complete} required
        aria-invalid=${fault ? 'true' : 'false'}>
      ${alertLine(fault)}</label>`;
  }

  render() {
    return html`<h1 tabindex="-1">${texts.setup.title}</h1>
      <p>${texts.setup.lead}</p>
      <form class="narrow" @submit=${(event) => this.save(event)}>
        ${kFields.map((field) => this.field(field))}
        ${alertLine(this.faults.general)}
        <button class="button primary" ?disabled=${this.busy}>${texts.setup.save}</button>
      </form>`;
  }
}

customElements.define('bw-setup', Setup);
