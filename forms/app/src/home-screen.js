// Home: the bench in the order in which work happens, with what can be done at each station.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { isBeyond, levelBar, levelFacts, levelPhrases, phrases } from './level-bar.js';
import { get, isAway } from './api.js';
import { countText } from './findings.js';
import { go } from './route.js';
import { todo } from './home-todo.js';
import { mayEnter, mayRecord, mayReport } from './session.js';
import { refreshLevels } from './record.js';
import { store } from './store.js';
import { clockText } from './time.js';
import { isWithin } from './within.js';
import { texts } from '../texts.js';

// Kinds of entry a person can record at a station; their titles come from the forms.
const kKinds = {
  drain: ['oil-drained'],
  waste: ['rag-bin', 'level-reading', 'transfer'],
  gas: ['cylinder-check', 'gas-use', 'tool-inspection', 'plant-check'],
};

/** A List of Waste code as it is written: with an asterisk where the waste is hazardous. */
function wasteCode({ low_code: code, hazardous }) {
  return hazardous && !code.endsWith('*') ? `${code}*` : code;
}

class Home extends Screen {
  static needsSession = true;

  fault = '';

  connectedCallback() {
    super.connectedCallback();
    const failed = (error) => {
      // That nothing answers, or that no PIN was given, stands on every page.
      const known = isAway(error) || store.state.session?.claimed;
      if (!known) this.fault = errorText(error);
      this.requestUpdate();
    };
    if (isWithin('waste')) refreshLevels().catch(failed);
    if (isWithin('everything')) this.judge().catch(failed);
  }

  async judge() {
    const reads = mayReport(store.state.session);
    const [{ findings }, due] = await Promise.all([get('/findings'), reads ? get('/due') : null]);
    Object.assign(this, { findings, due });
    this.requestUpdate();
  }

  /** How much is due or beyond a limit, in words, and the way to the pages beside the bench. */
  said() {
    return html`<p class="said links">
      ${this.findings ? html`<a class="button" href="#/findings">
        ${texts.findings.link(countText(this.findings))}</a>` : nothing}
      <a class="button" href="#/scan">${texts.scan.link}</a>
      <a class="button" href="#/office">${texts.office.link}</a></p>`;
  }

  /** The buttons of what is recorded at a station. */
  tasks(station, looks = 'button') {
    const { forms, session } = store.state;
    if (!mayRecord(session)) return nothing;
    return kKinds[station].map((kind) => forms.find((form) => form.kind === kind)).filter(Boolean)
      .map(({ kind, title }) => html`<button class=${looks} @click=${() => go(`record/${kind}`)}>
        ${title}</button>`);
  }

  drain() {
    const { session } = store.state;
    const recorded = html`<p><a class="button" href="#/recorded">${texts.recorded.title}</a></p>`;
    if (!mayRecord(session)) return html`<p>${texts.home.readOnly}</p>${recorded}`;
    return html`${this.tasks('drain', 'button primary task')}
      <p><a class="button" href="#/more">${texts.more.link}</a></p>
      ${recorded}`;
  }

  container(level) {
    const { stream } = level;
    const words = [stream?.name, stream?.low_code && texts.level.code(wasteCode(stream))];
    return html`<li class="container ${isBeyond(level) ? 'beyond' : ''}">
      <h3>${level.name}</h3>
      ${words.filter(Boolean).map((text) => html`<p class="quiet">${text}</p>`)}
      ${levelBar(level)}
      <p data-level=${level.container}>${phrases(levelPhrases(level))}</p>
      ${levelFacts(level).map((text) => html`<p class="quiet">${text}</p>`)}
    </li>`;
  }

  waste() {
    const levels = store.state.levels.filter((level) => !level.retired);
    if (!levels.length) return this.noContainers();
    return html`<div class="links">${this.tasks('waste')}
        <a class="button" href="#/collections">${texts.collections.title}</a>
        <a class="button" href="#/levels">${texts.levels.title}</a></div>
      ${this.age()}
      <ul class="containers">${levels.map((level) => this.container(level))}</ul>`;
  }

  /** Levels that were kept are not those of now. */
  age() {
    const { away, asOf } = store.state;
    return away && asOf ? html`<p class="quiet">${texts.away.levels(clockText(asOf))}</p>` : nothing;
  }

  noContainers() {
    const { manager, other } = texts.home.enterContainers;
    if (!mayEnter(store.state.session)) {
      return html`<p>${texts.home.noContainers}</p><p>${other}</p>`;
    }
    return html`<p>${texts.home.noContainers}</p><p>${manager}</p>
      <p class="links"><a class="button" href="#/register">${texts.register.title}</a>
        <a class="button" href="#/import">${texts.home.import}</a></p>`;
  }

  stations() {
    const stations = [{ name: 'drain', title: texts.home.drain, body: this.drain() }];
    if (isWithin('waste')) {
      stations.push({ name: 'waste', title: texts.home.waste, body: this.waste() });
    }
    const link = (path, text) => html`<a class="button wide" href="#/${path}">${text}</a>`;
    const tasks = this.tasks('gas', 'button wide');
    if (!mayReport(store.state.session)) {
      return [...stations, { name: 'gas', title: texts.home.gasAndTools, body: tasks }];
    }
    if (isWithin('cylinders-and-tools')) {
      stations.push({ name: 'gas', title: texts.home.gasAndTools,
        body: html`${tasks}${link('cylinders', texts.home.cylinders)}
          ${link('tools', texts.home.tools)}` });
    }
    const month = isWithin('waste')
      ? link('print/waste-month', texts.print.sheets['waste-month'][0]) : nothing;
    return [...stations,
      { name: 'papers',
        title: texts.home.papers,
        body: html`${month}
          ${link('print', texts.print.title)}
          ${isWithin('everything') ? link('kept', texts.kept.title) : nothing}
          ${link('register', texts.register.title)}` }];
  }

  station({ name, title, body }, number) {
    return html`<li class="station at-${name}">
      <h2><span class="place" aria-hidden="true">${number}</span>${title}</h2>
      ${body}</li>`;
  }

  render() {
    return html`<h1 tabindex="-1" class="unseen">${texts.home.title}</h1>
      ${alertLine(this.fault)}
      ${this.said()}
      ${mayReport(store.state.session) ? todo(this.findings, this.due) : nothing}
      <ol class="bench">
        ${this.stations().map((station, index) => this.station(station, index + 1))}</ol>`;
  }
}

customElements.define('bw-home', Home);
