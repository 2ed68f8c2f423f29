// Gas cylinders, tools and gauges: which there are, and everything recorded about one of them in
// order, with corrections beside originals and with what follows from the readings.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { checkRow } from './check-row.js';
import { forecastText, summary } from './course.js';
import { historyChart } from './history-charts.js';
import { get } from './api.js';
import { sheetLinks, sheetsOfThing } from './sheets.js';
import { thingName } from './form-data.js';
import { namesFor } from './shown-value.js';
import { workshopZone } from './zone.js';
import './chart.js';
import { texts } from '../texts.js';

/** Of a screen of lists its classes, by the first part of its address. */
const histories = { cylinders: ['cylinder'], tools: ['tool', 'gauge'] };

function state(thing) {
  if (thing.retired) return texts.cylinders.retired;
  return thing.in_service === false ? texts.cylinders.outOfService : '';
}

/** "n1" of the cylinders, "gauge/g1" of the tools and gauges, as addresses have it. */
function addressOf(of, thing) {
  const id = encodeURIComponent(thing.id);
  return histories[of].length > 1 ? `${thing.class}/${id}` : id;
}

class Things extends Screen {
  static needsSession = true;

  things = [];

  fetch() {
    return this.load(async () => {
      const lists = await Promise.all(
        histories[this.of].map((name) => get(`/register/${name}`)));
      this.things = lists.flatMap(({ things }) => things);
    });
  }

  render() {
    const words = texts.histories[this.of];
    if (!this.loaded) return this.waiting(words.title, () => this.fetch());
    return html`<h1 tabindex="-1">${words.title}</h1>
      ${this.things.length ? nothing : html`<p>${words.none}</p>`}
      <ul class="people">${this.things.map((thing) => html`<li>
        <a class="button person" href=${`#/${this.of}/${addressOf(this.of, thing)}`}>
          <b>${thingName(thing)}</b><span>${[thing.id, state(thing)].filter(Boolean).join(' · ')}
          </span></a></li>`)}</ul>`;
  }
}

const kRows = 20; // entries shown at first, and added with each tap

class History extends Screen {
  static needsSession = true;

  rows = kRows;

  /** Class and id of what the address names. */
  named() {
    const classes = histories[this.of];
    if (classes.length === 1) return [classes[0], this.thing];
    const [name, ...rest] = this.thing.split('/');
    return [name, rest.join('/')];
  }

  fetch() {
    return this.load(async () => {
      const [thingClass, id] = this.named();
      this.history = await get(`/history/${thingClass}/${encodeURIComponent(id)}`);
      const kinds = [...new Set(this.history.checks.map(({ entry }) => entry.kind))];
      const [zone, ...forms] = await Promise.all([workshopZone(),
        ...kinds.map((kind) => get(`/forms/${kind}`))]);
      this.zone = zone;
      this.forms = new Map(kinds.map((kind, i) => [kind, forms[i]]));
      this.names = await this.fetchNames(forms);
      this.chart = historyChart(thingName(this.history.subject), this.history);
    });
  }

  fetchNames(forms) {
    const given = this.history.checks.flatMap(({ entry, corrections }) =>
      [entry.fields, ...corrections.map(({ fields }) => fields)]);
    return namesFor(...forms.flatMap((form) => given.map((fields) => [form, fields])));
  }

  /** The newest, and a button for those before: a busy cylinder has hundreds. */
  entries(checks) {
    const shown = [...checks].reverse().slice(0, this.rows);
    const older = checks.length - shown.length;
    return html`<h2>${texts.recorded.title}</h2>
      ${checks.length > 1 ? html`<p class="quiet">${texts.cylinders.newestFirst}</p>` : nothing}
      <ol class="checks">${shown.map((check) =>
    checkRow(check, this.forms.get(check.entry.kind), this))}</ol>
      ${older ? html`<p><button class="button" @click=${() => this.more()}>
        ${texts.cylinders.older(Math.min(older, kRows))}</button></p>` : nothing}`;
  }

  more() {
    this.rows += kRows;
    this.requestUpdate();
  }

  render() {
    const [thingClass, id] = this.named();
    if (!this.loaded) return this.waiting(texts.cylinders.history(id), () => this.fetch());
    const { subject, checks, forecast } = this.history;
    const words = texts.histories[this.of];
    return html`<h1 tabindex="-1">${texts.cylinders.history(thingName(subject))}</h1>
      ${sheetLinks(sheetsOfThing(subject))}
      ${summary(checks)}
      ${forecast && thingClass === 'gauge' ? html`<p class="forecast">${forecastText(forecast)}</p>`
    : nothing}
      ${this.chart ? html`<bw-chart .spec=${this.chart}></bw-chart>` : nothing}
      ${checks.length ? this.entries(checks) : html`<p>${texts.cylinders.noChecks}</p>`}
      <p><a class="button" href=${`#/${this.of}`}>${words.list}</a></p>`;
  }
}

customElements.define('bw-things', Things);
customElements.define('bw-history', History);
