// One sheet: choose what it is about and the paper, then open it in one of its forms; a manager issues
// what is kept.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, post } from './api.js';
import { entryLink } from './entries.js';
import { mayReport } from './session.js';
import { choose as keepChoice, kChoices, settings } from './settings.js';
import { formatsOf, kSheets, paperOf, queryWord, sheetAddress } from './sheets.js';
import { subjectsOf } from './sheet-subjects.js';
import { localDay } from './time.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import './month-closing.js';
import { texts } from '../texts.js';

/** Opens the web page of a report beside this one and the print dialogue of it. */
function print(address) {
  const page = window.open(address, '_blank');
  page?.addEventListener('load', () => page.print());
}

function radio(name, { value, label, hint }, chosen, onChange) {
  return html`<label class="choice">
    <input type="radio" name=${name} value=${value} .checked=${chosen === value}
      @change=${onChange}><span class="choice-face"><b>${label}</b>
        ${hint ? html`<small>${hint}</small>` : nothing}</span></label>`;
}

const kAcross = { month: 3, year: 3, collection: 2, thing: 2, caution: 1 };

class Sheet extends Screen {
  static needsSession = true;

  groups = []; // of what it can be about

  value = ''; // what it is about; of days see `days`

  days = null;

  issued = null;

  issueId = null;

  fault = '';

  refusal = ''; // of a label that does not fit its paper

  fetch() {
    const [name, ...subject] = this.address.split('/');
    Object.assign(this, { name, sheet: kSheets[name] });
    if (!this.sheet || !mayReport(store.state.session)) return undefined;
    const now = new Date();
    this.days = { from: `${now.getFullYear()}-01-01`, to: localDay(now) };
    return this.load(async () => {
      this.groups = await subjectsOf(this.sheet);
      this.value = this.begin(subject.join('/'));
      this.tryOut();
    });
  }

  options() {
    return this.groups.flatMap(({ options }) => options);
  }

  /** What the address names, or the newest month or year, or the only one there is. */
  begin(named) {
    const known = this.options().map(({ value }) => value);
    if (named) {
      this.fault = known.includes(named) ? '' : texts.print.unknown(named);
      return this.fault ? '' : named;
    }
    const dated = ['month', 'year'].includes(this.sheet.about);
    return dated || known.length === 1 ? known[0] ?? '' : '';
  }

  paper() {
    return settings()[paperOf(this.sheet)];
  }

  /** What the daemon is told it is about; null while something is missing. */
  asked() {
    const { sheet, value, days } = this;
    if (sheet.about === 'now') return {};
    if (sheet.about === 'days') return days.from && days.from <= days.to ? days : null;
    return value ? { [queryWord(sheet)]: value } : null;
  }

  /** Another choice: what was issued was something else. */
  changed() {
    Object.assign(this, { issued: null, issueId: null, fault: '', refusal: '' });
    this.tryOut();
    this.requestUpdate();
  }

  choose(value) {
    this.value = value;
    this.changed();
  }

  chooseDay(name, day) {
    this.days = { ...this.days, [name]: day };
    this.changed();
  }

  choosePaper(paper) {
    this.paperNotKept = !keepChoice(paperOf(this.sheet), paper);
    this.changed();
  }

  /** A label that its paper cannot hold is refused in a sentence, which belongs on this page. */
  async tryOut() {
    const asked = this.asked();
    if (!this.sheet.labels || !asked || store.state.away) return;
    const address = sheetAddress(this.name, 'pdf', asked, this.paper());
    this.tried = address;
    try {
      await get(address);
    } catch (error) {
      if (this.tried !== address) return;
      this.refusal = errorText(error);
      this.requestUpdate();
    }
  }

  issue() {
    return this.once(async () => {
      this.fault = '';
      try {
        // Kept until something else is chosen: an issue whose answer was lost is not made twice.
        this.issueId ??= uuid7();
        this.issued = await post(`/reports/${this.name}`,
          { id: this.issueId, ...this.asked(), paper: this.paper() });
      } catch (error) {
        this.fault = errorText(error);
      }
    });
  }

  issuePart() {
    const { session } = store.state;
    const told = texts.print;
    if (session.role !== 'manager' || !this.sheet.issued) return nothing;
    return html`<div class="issue">
      <p>${told.issueHint}</p>
      <button class="button primary" ?disabled=${this.busy || this.issued}
        @click=${() => this.issue()}>${told.issue(session.name)}</button>
      ${this.issued ? html`<p role="status">${told.issued(this.issued.seq)}</p>
        ${entryLink(this.issued.seq)}
        <a class="button" target="_blank" rel="noopener" href=${this.issued.pdf}>
          ${told.issuedOpen}</a>` : nothing}</div>`;
  }

  subjectPart() {
    const { sheet, groups, value } = this;
    const told = texts.print;
    if (sheet.about === 'now') return nothing;
    if (sheet.about === 'days') return this.daysPart();
    if (!groups.length) return html`<p>${told.none[sheet.about]}</p>`;
    return groups.map(({ label, options }) => html`<fieldset class="group">
      <legend>${label || told.about[sheet.about]}</legend>
      <div class="choices across-${kAcross[sheet.about]}">${options.map((one) =>
    radio('subject', one, value, () => this.choose(one.value)))}</div></fieldset>`);
  }

  daysPart() {
    const told = texts.print;
    const { from, to } = this.days;
    return html`<fieldset class="group"><legend>${told.about.days}</legend>
      ${['from', 'to'].map((name) => html`<label class="written"><span>${told[name]}</span>
        <input type="date" name=${name} .value=${this.days[name]}
          @change=${(event) => this.chooseDay(name, event.target.value)}></label>`)}
      ${from && to && from > to ? alertLine(told.order) : nothing}</fieldset>`;
  }

  paperPart() {
    const told = texts.print;
    const kind = paperOf(this.sheet);
    return html`<fieldset class="group"><legend>${told.paper}</legend>
      <div class="choices across-2">${kChoices[kind].map((value) => radio('paper',
    { value, label: told.papers[value] }, this.paper(), () => this.choosePaper(value)))}</div>
      ${this.paperNotKept ? html`<p class="quiet">${texts.tablet.notKept}</p>` : nothing}</fieldset>`;
  }

  /** Why nothing can be opened now, or '' where it can. */
  hindrance() {
    const { session, away } = store.state;
    const told = texts.print;
    if (away) return told.away;
    if (session.claimed) return told.unsigned;
    return this.refusal;
  }

  links(asked) {
    const address = (format) =>
      `/api/v1${sheetAddress(this.name, format, asked, this.paper())}`;
    const told = texts.print;
    return html`<div class="links sheet-links">${formatsOf(this.sheet).map((format) => html`
      <a class="button ${format === 'pdf' ? 'primary' : ''}" target="_blank" rel="noopener"
        href=${address(format)}>${told.formats[format]}</a>`)}
      ${this.sheet.labels ? nothing : html`<button class="button"
        @click=${() => print(address('html'))}>${told.dialogue}</button>`}</div>
      <p class="quiet">${told.hint} ${told.preview}</p>`;
  }

  openPart() {
    const told = texts.print;
    const asked = this.asked();
    const hindrance = this.hindrance();
    if (hindrance) return html`<h2>${told.open}</h2>${alertLine(hindrance)}`;
    if (!asked) return html`<h2>${told.open}</h2><p>${told.choose}</p>`;
    const chosen = this.options().find(({ value }) => value === this.value);
    return html`<h2>${chosen ? told.forWhat(chosen.label) : told.open}</h2>
      ${this.links(asked)}${this.issuePart()}`;
  }

  render() {
    const told = texts.print;
    const all = html`<p><a class="button" href="#/print">${told.all}</a></p>`;
    if (!this.sheet || !mayReport(store.state.session)) {
      return html`<h1 tabindex="-1">${told.title}</h1>
        <p>${this.sheet ? told.readersOnly : told.unknown(this.name)}</p>${all}`;
    }
    const [title, purpose] = told.sheets[this.name];
    if (this.lacking) this.loadFault = told.away;
    if (!this.loaded) return this.waiting(title, () => this.fetch());
    const { about } = this.sheet;
    return html`<h1 tabindex="-1">${title}</h1>
      <p class="quiet purpose">${purpose}</p>
      ${alertLine(this.fault)}
      <div class="report">
        <div class="column">${this.subjectPart()}${all}</div>
        <div class="column">${this.paperPart()}${this.openPart()}
          ${about === 'month' ? html`<bw-closing class="screen" .month=${this.value}></bw-closing>`
    : nothing}</div>
      </div>`;
  }
}

customElements.define('bw-sheet', Sheet);
