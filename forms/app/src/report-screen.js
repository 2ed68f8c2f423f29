// The waste report of a month: choose the month and the paper, then open it in one of its forms.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { post } from './api.js';
import { entryLink } from './entries.js';
import { lastMonths, monthText } from './time.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import './month-closing.js';
import { texts } from '../texts.js';

const kMonths = 15;

/** Opens the web page of a report beside this one and the print dialogue of it. */
function print(address) {
  const page = window.open(address, '_blank');
  page?.addEventListener('load', () => page.print());
}

/** A report to look at in its four forms, and to print; `query` names the month or the subject. */
export function reportLinks(name, query, paper) {
  const address = (kind) => `/api/v1/reports/${name}.${kind}?${query}&paper=${paper}`;
  return html`<div class="links">${Object.entries(texts.report.kinds).map(([kind, label]) => html`
    <a class="button" target="_blank" rel="noopener" href=${address(kind)}>${label}</a>`)}
    <button class="button" @click=${() => print(address('html'))}>${texts.report.print}</button>
  </div>`;
}

function radio(name, value, label, chosen, onChange) {
  return html`<label class="choice">
    <input type="radio" name=${name} value=${value} .checked=${chosen === value}
      @change=${onChange}><span class="choice-face"><b>${label}</b></span></label>`;
}

class Report extends Screen {
  static needsSession = true;

  months = lastMonths(new Date(), kMonths);

  month = this.months[0];

  paper = 'a4';

  issued = null;

  issueId = null;

  fault = '';

  choose(name, value) {
    this[name] = value;
    this.issued = null;
    this.issueId = null;
    this.fault = '';
    this.requestUpdate();
  }

  issue() {
    return this.once(async () => {
      this.fault = '';
      try {
        const { month, paper } = this;
        // Kept until something else is chosen: an issue whose answer was lost is not made twice.
        this.issueId ??= uuid7();
        this.issued = await post('/reports/waste-month', { id: this.issueId, month, paper });
      } catch (error) {
        this.fault = errorText(error);
      }
    });
  }

  issuePart() {
    const { session } = store.state;
    if (session.role !== 'manager') return nothing;
    return html`<div class="issue">
      <p>${texts.report.issueHint}</p>
      <button class="button primary" ?disabled=${this.busy || this.issued}
        @click=${() => this.issue()}>${texts.report.issue(session.name)}</button>
      ${this.issued ? html`<p role="status">${texts.report.issued(this.issued.seq)}</p>
        ${entryLink(this.issued.seq)}
        <a class="button" target="_blank" rel="noopener" href=${this.issued.pdf}>
          ${texts.report.issuedOpen}</a>` : nothing}
      ${alertLine(this.fault)}</div>`;
  }

  render() {
    const { month, paper } = this;
    return html`<h1 tabindex="-1">${texts.report.title}</h1>
      <div class="report">
        <fieldset class="group"><legend>${texts.report.pick}</legend>
          <div class="choices across-3">${this.months.map((one) => radio('month', one,
    monthText(one), month, () => this.choose('month', one)))}</div></fieldset>
        <div class="column">
          <fieldset class="group"><legend>${texts.report.paper}</legend>
            <div class="choices across-2">${['a4', 'letter'].map((one) => radio('paper', one,
    texts.report[one], paper, () => this.choose('paper', one)))}</div></fieldset>
          <h2>${texts.report.forMonth(monthText(month))}</h2>
          ${reportLinks('waste-month', `month=${month}`, paper)}
          <p class="quiet">${texts.report.preview}</p>
          ${this.issuePart()}
          <bw-closing class="screen" .month=${month}></bw-closing>
        </div>
      </div>`;
  }
}

customElements.define('bw-report', Report);
