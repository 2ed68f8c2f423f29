// The calculator: which calculations there are, and a page of each drawn from its definition. It
// writes nothing into the book.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, post } from './api.js';
import { calculated } from './calculation-result.js';
import { givenInputs, inputField, refusalsOf } from './calculation-inputs.js';
import { withDays } from './time.js';
import { texts } from '../texts.js';

// Where a calculation stands in the list: by the beginning of its name.
const kGroups = {
  oil: ['oil', 'vessel', 'weighed', 'strapping', 'log', 'fill'],
  gas: ['nitrogen', 'oxygen', 'stored', 'cylinder'],
  gauges: ['gauge'],
  solvent: ['spill', 'flash'],
  figures: ['unit', 'due', 'line'],
};

const groupOf = ({ name }) => Object.keys(kGroups)
  .find((group) => kGroups[group].includes(name.split('-')[0])) ?? 'others';

class Calculations extends Screen {
  static needsSession = true;

  fetch() {
    return this.load(async () => {
      this.all = (await get('/calculations')).calculations;
    });
  }

  group(name) {
    const shown = this.all.filter((one) => groupOf(one) === name);
    if (!shown.length) return nothing;
    return html`<section class="block" data-group=${name}>
      <h2>${texts.calculations.groups[name]}</h2>
      ${shown.map((one) => html`<a class="button described" href=${`#/calculations/${one.name}`}>
        <b>${one.title}</b><small>${one.purpose}</small></a>`)}</section>`;
  }

  render() {
    const told = texts.calculations;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead}</p>
      <div class="blocks">${Object.keys(told.groups).map((name) => this.group(name))}</div>`;
  }
}

class Calculation extends Screen {
  static needsSession = true;

  values = {};

  units = {}; // where another unit than the input's own was chosen

  faults = {};

  others = []; // refusals that are about no one input

  answer = null;

  stale = false; // something was changed since the answer

  fetch() {
    return this.load(async () => {
      const { calculations } = await get('/calculations');
      this.definition = calculations.find(({ name }) => name === this.name);
    });
  }

  set(name, value) {
    this.values = { ...this.values, [name]: value };
    this.stale = true;
    this.requestUpdate();
  }

  setUnit(name, unit) {
    this.units = { ...this.units, [name]: unit };
    this.stale = true;
    this.requestUpdate();
  }

  clear() {
    Object.assign(this, { values: {}, units: {}, faults: {}, others: [], answer: null });
    this.requestUpdate();
  }

  calculate() {
    const inputs = givenInputs(this.definition.inputs, this.values, this.units);
    return this.once(async () => {
      Object.assign(this, { faults: {}, others: [], answer: null, stale: false });
      try {
        this.answer = await post(`/calculations/${this.name}`, { inputs });
      } catch (error) {
        const { byInput, others } = refusalsOf(error.errors ?? [],
          this.definition.inputs, this);
        this.faults = byInput;
        this.others = error.errors?.length ? others : [errorText(error)];
      }
    }).then(() => this.show());
  }

  /** The result, or the first field that needs a look, comes into sight and takes the focus. */
  async show() {
    await this.updateComplete;
    const refused = this.querySelector('[aria-invalid="true"]');
    (this.answer ? this.querySelector('.calculated h2') : refused)?.focus();
  }

  refusal() {
    const count = Object.keys(this.faults).length;
    const lines = [...this.others, count ? texts.calculations.refused(count) : ''];
    return alertLine(lines.filter(Boolean).join(' '));
  }

  result() {
    if (!this.answer) return nothing;
    if (this.stale) return html`<p class="heed" role="status">${texts.calculations.changed}</p>`;
    return calculated(this.answer);
  }

  render() {
    const told = texts.calculations;
    if (!this.definition) return this.waiting(told.title, () => this.fetch());
    const { title, purpose, inputs } = this.definition;
    return html`<h1 tabindex="-1">${title}</h1>
      <p>${withDays(purpose)}</p>
      <p class="quiet">${told.optional}</p>
      <form class="measures" @submit=${(event) => {
    event.preventDefault();
    this.calculate();
  }}>${inputs.map((input) => inputField(input, this))}
        <div class="calculate">${this.refusal()}
          <div class="links"><button class="button primary" type="submit" ?disabled=${this.busy}>
            ${told.calculate}</button>
          <button class="button" type="button" @click=${() => this.clear()}>${told.clear}</button>
          </div></div></form>
      ${this.result()}
      <p><a class="button" href="#/calculations">${told.all}</a></p>`;
  }
}

customElements.define('bw-calculations', Calculations);
customElements.define('bw-calculation', Calculation);
