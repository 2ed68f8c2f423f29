// What was recorded, the newest first, for any period and by kind, thing and person: the way to an
// entry whose number nobody knows, and to a table of what was found.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { EntryPager, entriesOf } from './entry-pager.js';
import { csvOf } from './entries-csv.js';
import { saveAs } from './save-file.js';
import { entryRow, toldOf } from './entry-row.js';
import { filterChoices, filterFields, filterWords } from './entry-filter.js';
import { dayText, localDay, withDays } from './time.js';
import { onClock } from './zone.js';
import './paper-head.js';
import { texts } from '../texts.js';

const kRows = 60; // shown at first, and added with each tap

class Recorded extends Screen {
  static needsSession = true;

  filter = {}; // what of the book is shown; its address may name a thing

  rows = kRows;

  fault = '';

  fetch() {
    this.filter = { subject: this.subject };
    return this.load(async () => {
      [this.choices] = await Promise.all([filterChoices(), this.look()]);
    });
  }

  /** Looks for what the filter says; an answer that comes after another look began is dropped. */
  async look() {
    const pager = new EntryPager(this.filter);
    this.pager = pager;
    this.rows = kRows;
    await pager.more(kRows);
    const told = await toldOf(pager.found);
    if (this.pager === pager) this.told = told;
  }

  again(work) {
    return this.once(async () => {
      this.fault = '';
      try {
        await work();
      } catch (error) {
        this.fault = withDays(errorText(error));
      }
    });
  }

  /** Why no day lies between those that are chosen; "" where some do. */
  backwards() {
    const { from, to } = this.filter;
    return from && to && to < from ? texts.recorded.backwards(dayText(from), dayText(to)) : '';
  }

  async set(name, value) {
    this.filter = { ...this.filter, [name]: value };
    this.told = null;
    this.requestUpdate();
    const asked = this.filter;
    try {
      this.fault = this.backwards();
      if (this.fault) return this.requestUpdate();
      await this.look();
    } catch (error) {
      if (asked === this.filter) this.fault = withDays(errorText(error));
    }
    return this.requestUpdate();
  }

  more() {
    return this.again(async () => {
      this.rows += kRows;
      await this.pager.more(this.rows - this.pager.found.length);
      this.told = await toldOf(this.pager.found, this.told);
    });
  }

  table() {
    return this.again(async () => {
      const entries = await entriesOf(this.filter);
      saveAs(texts.csv.name(localDay(new Date())), csvOf(entries, await toldOf(entries)),
        'text/csv;charset=utf-8');
    });
  }

  /** The day of an entry by the clock of the workshop. */
  dayOf(entry) {
    return dayText(onClock(entry.occurred_at, this.told.zone));
  }

  list() {
    const told = texts.recorded;
    if (this.fault) return alertLine(this.fault);
    if (!this.told) return html`<p role="status">${texts.loading}</p>`;
    const { found, done } = this.pager;
    const shown = found.slice(0, this.rows);
    return html`
      <p role="status">${shown.length ? told.shown(shown.length, this.dayOf(shown.at(-1)),
    done && shown.length === found.length) : told.none}</p>
      <ol class="due">${shown.map((entry) => entryRow(entry, this.told))}</ol>
      <div class="links">${done && shown.length === found.length ? nothing
    : html`<button class="button" ?disabled=${this.busy} @click=${() => this.more()}>
        ${told.more}</button>`}
      <button class="button" ?disabled=${this.busy} @click=${() => this.table()}>
        ${told.table}</button></div>`;
  }

  render() {
    const told = texts.recorded;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    return html`<h1 tabindex="-1">${told.title}</h1>
      <bw-paper-head .shows=${filterWords(this.choices, this.filter)}></bw-paper-head>
      ${filterFields(this.choices, this.filter, (name, value) => this.set(name, value))}
      ${this.list()}`;
  }
}

customElements.define('bw-recorded', Recorded);
