// Findings: what the rules in force say of the book now, with what would clear it; a manager says
// why one stands for now.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get } from './api.js';
import { entryByNumber, recordedBy, standing } from './entries.js';
import { findingItem, kSeverities } from './findings.js';
import { sheetLinks } from './sheets.js';
import { submit } from './outbox.js';
import { withOffset } from './time.js';
import { uuid7 } from './uuid.js';
import { store } from './store.js';
import './paper-head.js';
import { texts } from '../texts.js';

/** An acknowledgement as it stands: {name, moment, until, reason}. */
async function acknowledgementOf(number) {
  const entry = await entryByNumber(number);
  const { until = null, reason_given: reason } = standing(entry);
  return { name: recordedBy(entry), moment: entry.occurred_at, until, reason };
}

class Findings extends Screen {
  static needsSession = true;

  key = null; // of the finding that is being acknowledged

  reason = '';

  fault = '';

  fetch() {
    return this.load(async () => {
      this.said = await get('/findings');
      const numbers = this.said.findings.map((one) => one.acknowledged_by_entry).filter(Boolean);
      const told = await Promise.all(numbers.map(acknowledgementOf));
      this.acknowledged = new Map(numbers.map((number, index) => [number, told[index]]));
    });
  }

  open(key) {
    Object.assign(this, { key, reason: '', fault: '', id: uuid7() });
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('.finding input')?.focus());
  }

  acknowledge() {
    return this.once(async () => {
      this.fault = '';
      try {
        await submit({ id: this.id, kind: 'finding-acknowledged',
          occurred_at: withOffset(new Date()),
          fields: { finding: this.key, reason_given: this.reason } },
        { title: texts.findings.acknowledge, line: this.reason, page: 'findings' }, this);
        this.key = null;
        await this.fetch();
      } catch (error) {
        this.fault = (error.errors ?? []).map(({ detail }) => detail).join(' ') || errorText(error);
      }
    });
  }

  acts(one) {
    if (store.state.session.role !== 'manager') return nothing;
    const told = texts.findings;
    if (this.key !== one.key) {
      return html`<button class="button" @click=${() => this.open(one.key)}>
        ${told.acknowledge}</button>`;
    }
    return html`<label class="written"><span>${told.reason}</span>
        <small class="quiet">${told.stays}</small>
        <input type="text" maxlength="300" .value=${this.reason} autocomplete="off"
          @input=${(event) => { this.reason = event.target.value; }}></label>
      ${alertLine(this.fault)}
      <button class="button primary" ?disabled=${this.busy} @click=${() => this.acknowledge()}>
        ${told.record(store.state.session.name)}</button>`;
  }

  group(severity) {
    const some = this.said.findings.filter((one) => one.severity === severity);
    if (!some.length) return nothing;
    return html`<section data-severity=${severity}>
      <h2>${texts.findings.groups[severity]} (${some.length})</h2>
      <ul class="due">${some.map((one) => findingItem(one, this.acts(one),
    this.acknowledged.get(one.acknowledged_by_entry)))}</ul></section>`;
  }

  render() {
    const told = texts.findings;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    return html`<h1 tabindex="-1">${told.title}</h1>
      <bw-paper-head></bw-paper-head>
      <p>${told.lead}</p>
      <p><a class="button" href="#/rules">${texts.rules.link}</a></p>
      ${sheetLinks({ 'findings-list': '' })}
      ${this.said.findings.length ? kSeverities.map((one) => this.group(one))
    : html`<p>${told.none}</p>`}`;
  }
}

customElements.define('bw-findings', Findings);
