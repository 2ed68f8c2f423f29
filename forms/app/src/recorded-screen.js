// What was recorded lately, the newest first: the way to an entry whose number nobody knows.
import { html } from 'lit';
import { Screen } from './screen.js';
import { allEntries, get } from './api.js';
import { isStruckOut } from './draft.js';
import { signedBy, standing } from './entries.js';
import { namesFor, summary } from './shown-value.js';
import { daysBefore, momentText } from './time.js';
import { texts } from '../texts.js';

const kDays = 7; // shown at first, and added with each tap
const kRows = 60; // shown at most until more are asked for

class Recorded extends Screen {
  static needsSession = true;

  days = kDays;

  rows = kRows;

  fetch() {
    return this.load(async () => {
      const found = await allEntries(`from=${daysBefore(new Date(), this.days)}`);
      const kinds = [...new Set(found.map(({ kind }) => kind))];
      const forms = await Promise.all(kinds.map((kind) => get(`/forms/${kind}`)));
      this.forms = new Map(forms.map((form) => [form.kind, form]));
      this.names = await namesFor(...found.map((entry) =>
        [this.forms.get(entry.kind), entry.fields]));
      this.entries = found.reverse();
    });
  }

  row(entry) {
    const state = isStruckOut(entry) ? texts.cylinders.struckOut
      : entry.corrections.length && texts.recorded.corrected;
    const form = this.forms.get(entry.kind);
    const about = summary(form, standing(entry), this.names);
    const words = [momentText(entry.occurred_at), signedBy(entry), state].filter(Boolean);
    return html`<li><a class="button recorded" href=${`#/entry/${entry.seq}`}>
      <b>${form.title}</b><span>${about}</span><span>${words.join(' · ')}</span>
      <span>${texts.entryPage.number(entry.seq)}</span></a></li>`;
  }

  more() {
    if (this.entries.length > this.rows) this.rows += kRows;
    else this.days += kDays;
    this.requestUpdate();
    return this.once(() => this.fetch());
  }

  render() {
    const told = texts.recorded;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead(this.days)}</p>
      ${this.entries.length ? '' : html`<p>${told.none}</p>`}
      <ol class="due">${this.entries.slice(0, this.rows).map((entry) => this.row(entry))}</ol>
      <p><button class="button" ?disabled=${this.busy} @click=${() => this.more()}>
        ${told.more}</button></p>`;
  }
}

customElements.define('bw-recorded', Recorded);
