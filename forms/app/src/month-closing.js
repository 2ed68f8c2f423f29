// The closing of a month: its state, and for the manager the button that signs its figures.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get } from './api.js';
import { entryLink } from './entries.js';
import { submit } from './outbox.js';
import { momentText, monthText, withOffset } from './time.js';
import { plain } from './decimal.js';
import { kilograms, shown } from './units.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import { texts } from '../texts.js';

const kg = (number) => (number === null ? texts.closing.noFigure : kilograms(number));

const kParts = ['arisen', 'collected', 'standing'];

/** "arisen 1 088 kg signed, 1 125 kg now": in kilograms, or as counted where their mass stays. */
const partText = (one, part) => {
  const [then, now] = [one[`${part}_kg`].then, one[`${part}_kg`].now];
  if (then !== now) return texts.closing.signedAndNow(texts.closing.parts[part], kg(then), kg(now));
  if (one[part].then === one[part].now) return null;
  const counted = (number) => shown(plain(String(number)), one.unit);
  return texts.closing.signedAndNow(texts.closing.parts[part],
    counted(one[part].then), counted(one[part].now));
};

const differenceLine = (one) => {
  const parts = kParts.map((part) => partText(one, part)).filter(Boolean);
  return html`<li>${one.name}: ${parts.join('; ')}</li>`;
};

class Closing extends Screen {
  static needsSession = true;

  static properties = { month: {} };

  statement = '';

  fault = '';

  willUpdate(changed) {
    if (!changed.has('month')) return;
    this.figures = null;
    this.entry = null;
    this.statement = '';
    this.fault = '';
    this.fetchFigures();
  }

  fetchFigures() {
    const { month } = this;
    return this.load(async () => {
      const figures = await get(`/months/${month}`);
      if (month === this.month) this.figures = figures;
    });
  }

  /** The entry is made once for the figures that are shown. */
  submission() {
    const { figures_digest: digest, book_size: size } = this.figures;
    const fields = { month: this.month, figures_digest: digest, book_size: size };
    if (this.statement.trim()) fields.statement = this.statement.trim();
    return { id: uuid7(), kind: 'month-close', occurred_at: withOffset(new Date()), fields };
  }

  close() {
    return this.once(async () => {
      this.fault = '';
      try {
        this.entry ??= this.submission();
        await submit(this.entry, { title: texts.closing.title(monthText(this.month)),
          line: this.statement.trim(), page: 'print/waste-month' }, this);
        this.entry = null;
        await this.fetchFigures();
      } catch (error) {
        this.fault = error.errors?.map(({ detail }) => detail).join(' ') || errorText(error);
        if (error.errors) {
          this.entry = null;
          await this.fetchFigures();
        }
      }
    });
  }

  write(text) {
    this.statement = text;
    this.entry = null;
  }

  state() {
    const { closed, over, differences } = this.figures;
    if (!closed) return html`<p>${over ? texts.closing.open : texts.closing.running}</p>`;
    const since = closed.entries_since;
    const lead = since ? texts.closing.others : texts.closing.fromElsewhere;
    return html`<p role="status">${texts.closing.closed(closed.person_name,
      momentText(closed.recorded_at), closed.entry)}</p>
      <p>${entryLink(closed.entry)}</p>
      ${closed.statement ? html`<p>${texts.closing.said(closed.statement)}</p>` : nothing}
      ${since ? html`<p>${texts.closing.since(since)}</p>` : nothing}
      ${since || differences.length ? nothing : html`<p>${texts.closing.nothingSince}</p>`}
      ${differences.length ? html`<p>${lead}</p>
        <ul>${differences.map(differenceLine)}</ul>` : nothing}`;
  }

  form() {
    const { session } = store.state;
    const { closed, over, hazardous_total: hazardous, other_total: other } = this.figures;
    if (closed || !over || session.role !== 'manager') return nothing;
    return html`<p>${texts.closing.figures(kg(hazardous.arisen_kg), kg(other.arisen_kg))}</p>
      <label class="written"><span>${texts.closing.statement}</span>
        <small class="quiet help">${texts.closing.statementHelp}</small>
        <input type="text" maxlength="300" autocomplete="off"
          @input=${(event) => this.write(event.target.value)}></label>
      <p class="heed">${texts.closing.caution}</p>
      <button class="button primary" ?disabled=${this.busy} @click=${() => this.close()}>
        ${texts.closing.close(monthText(this.month), session.name)}</button>`;
  }

  render() {
    return html`<div class="issue"><h2>${texts.closing.title(monthText(this.month))}</h2>
      ${alertLine(this.loadFault)}
      ${this.figures ? html`${this.state()}${this.form()}` : nothing}
      ${alertLine(this.fault)}</div>`;
  }
}

customElements.define('bw-closing', Closing);
