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

/** The refusal by field; what belongs to none of them is "general". */
function faultsOf(error) {
  if (error.status === 403) return { code: texts.setup.wrongCode };
  const faults = {};
  for (const { pointer, detail } of error.errors ?? []) {
    const name = pointer.slice(1);
    const known = kFields.some((field) => field.name === name);
    faults[known ? name : 'general'] ??= texts.problem.sentence(detail);
  }
  return Object.keys(faults).length ? faults : { general: errorText(error) };
}

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
      this.faults = faultsOf(error);
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
