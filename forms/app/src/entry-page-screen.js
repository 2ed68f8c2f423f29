// The page of one entry: what was recorded, what stands of it now, and for who may, the ways to
// correct it and to strike it out.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get } from './api.js';
import { correctionFacts, entryFacts } from './entry-facts.js';
import { entryByNumber, entryLink, signedBy, strikeOutOf } from './entries.js';
import { submit } from './outbox.js';
import { mayReport } from './session.js';
import { refreshAfter } from './record.js';
import { momentText, withOffset } from './time.js';
import { namesFor } from './shown-value.js';
import { onClock, workshopZone } from './zone.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import { texts } from '../texts.js';

class EntryPage extends Screen {
  static needsSession = true;

  entry = null;

  target = null; // of a correction: the entry that it corrects

  striking = null; // {id, reason} while the reason is asked

  fault = '';

  fetch() {
    return this.load(async () => {
      this.entry = await entryByNumber(this.number);
      if (!this.entry) return;
      this.target = this.entry.corrects && await get(`/entries/${this.entry.corrects}`);
      const told = this.target ?? this.entry;
      [this.form, this.zone] = await Promise.all([get(`/forms/${told.kind}`), workshopZone()]);
      this.names = await namesFor([this.form, told.fields]);
    });
  }

  /** Whether whoever is signed in may correct it and strike it out. */
  mayCorrect() {
    return !this.target && this.form.correctable && !strikeOutOf(this.entry)
      && this.form.roles_allowed.includes(store.state.session.role);
  }

  begin() {
    this.striking = { id: uuid7(), reason: '' };
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('.strike input')?.focus());
  }

  strike() {
    const { id, reason } = this.striking;
    if (!reason.trim()) {
      this.fault = texts.entryPage.why;
      this.requestUpdate();
      return null;
    }
    return this.once(async () => {
      this.fault = '';
      try {
        await submit({ id, kind: 'correction', occurred_at: withOffset(new Date()),
          corrects: this.entry.id, reason: reason.trim(), fields: { action: 'struck-out' } },
        { title: texts.saved.strikeOut, line: this.form.title, page: `entry/${this.number}`,
          lines: [texts.entryPage.number(this.number), texts.cylinders.reason(reason.trim())] }, this);
        this.striking = null;
        await Promise.all([this.fetch(), refreshAfter()]);
      } catch (error) {
        this.fault = error.errors?.map(({ detail }) => detail).join(' ') || errorText(error);
      }
    });
  }

  write(reason) {
    this.striking = { id: uuid7(), reason };
  }

  strikePart() {
    const told = texts.entryPage;
    return html`<section class="strike block"><h2>${told.strike}</h2>
      <p class="heed">${told.strikeLead}</p>
      <label class="written"><span>${told.reason}</span>
        <input type="text" maxlength="500" autocomplete="off"
          @input=${(event) => this.write(event.target.value)}></label>
      ${alertLine(this.fault)}
      <div class="links"><button class="button" @click=${() => {
    this.striking = null;
    this.requestUpdate();
  }}>${told.keep}</button>
      <button class="button primary" ?disabled=${this.busy} @click=${() => this.strike()}>
        ${told.strikeAs(this.number, store.state.session.name)}</button></div></section>`;
  }

  acts() {
    if (!this.mayCorrect()) return nothing;
    if (this.striking) return this.strikePart();
    return html`<div class="links">
      <a class="button primary" href=${`#/correct/${this.number}`}>${texts.entryPage.correct}</a>
      <button class="button" @click=${() => this.begin()}>${texts.entryPage.strike}</button></div>`;
  }

  /** Where an entry has a page of its own besides this one. */
  elsewhere() {
    if (this.entry.kind === 'report-issued' && mayReport(store.state.session)) {
      return html`<p><a class="button" target="_blank" rel="noopener"
        href=${`/api/v1/reports/issued/${this.entry.id}.pdf`}>${texts.print.issuedOpen}</a></p>`;
    }
    return nothing;
  }

  /** When it happened and was recorded, and by whom. */
  head() {
    const { occurred_at: happened, recorded_at: recorded, reason } = this.entry;
    const told = texts.entryPage;
    const rows = [[told.happened, momentText(onClock(happened, this.zone))],
      [told.recordedAt, momentText(onClock(recorded, this.zone))],
      [told.by, signedBy(this.entry)], [told.reason, reason]];
    return html`<dl class="facts head-facts">${rows.filter(([, text]) => text).map(([label, text]) =>
      html`<div><dt>${label}</dt><dd>${text}</dd></div>`)}</dl>`;
  }

  body() {
    if (!this.target) return entryFacts(this.form, this.entry, this);
    return html`<p>${texts.entryPage.corrects(this.form.title)}</p>
      <p>${entryLink(this.target.seq)}</p>
      ${correctionFacts(this.form, this.target, this.entry, this.names)}`;
  }

  render() {
    const told = texts.entryPage;
    if (!this.loaded) return this.waiting(told.number(this.number), () => this.fetch());
    if (!this.entry) return html`<h1 tabindex="-1">${told.none(this.number)}</h1>`;
    const struck = strikeOutOf(this.entry);
    return html`<h1 tabindex="-1">${this.target ? told.correction : this.form.title}</h1>
      <p class="quiet">${told.inBook(this.number)}</p>
      ${struck ? html`<p class="heed" role="status">${told.struck(struck.seq)}</p>` : nothing}
      ${this.head()}
      <div class="screen ${struck ? 'struck-out' : ''}">${this.body()}</div>
      ${this.elsewhere()}
      ${this.acts()}
      <p class="links"><a class="button" href="#/recorded">${texts.recorded.title}</a>
        ${mayReport(store.state.session) ? html`<a class="button" href=${`#/head/${this.number}`}>
          ${texts.head.open}</a>` : nothing}</p>`;
  }
}

customElements.define('bw-entry-page', EntryPage);
