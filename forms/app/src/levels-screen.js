// Levels over time: every container with when it is likely full, and a page of each with its course,
// its forecast, and what was recorded about it.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { allEntries, get } from './api.js';
import { amountOf, levelBar, levelPhrases, phrases } from './level-bar.js';
import { grouped } from './decimal.js';
import { courseOf, forecastSentences, levelChart, weeklyLevels } from './level-course.js';
import { entryRow, toldOf } from './entry-row.js';
import { isStruckOut } from './draft.js';
import { standing } from './entries.js';
import { dayText, daysBefore } from './time.js';
import './chart.js';
import './paper-head.js';
import { sheetLinks } from './sheets.js';
import { texts } from '../texts.js';

const kWeeks = 13; // shown at first, and added with each tap
const kDaysAWeek = 7;
const kRows = 12; // of what was recorded about it; all of it stands on the page of the record

// What the daemon said at the ends of weeks, as long as the book has the same size.
const known = { size: -1, levels: new Map() };

function knownFor(size) {
  if (known.size !== size) Object.assign(known, { size, levels: new Map() });
  return known.levels;
}

/** True when an entry says that content left the container for good. */
function takesAway(entry) {
  if (isStruckOut(entry)) return false;
  const { stage, container_act: act } = standing(entry);
  return (entry.kind === 'collection' && stage === 'taken')
    || (entry.kind === 'container-change' && ['emptied', 'swapped'].includes(act));
}

/** "45.7", or that there is no limit. */
function shareText({ working_limit_used_percent: percent }) {
  return percent === null || percent === undefined ? texts.levels.noLimit : grouped(String(percent));
}

class Levels extends Screen {
  static needsSession = true;

  fetch() {
    return this.load(async () => {
      this.levels = (await get('/levels')).levels.filter(({ retired }) => !retired);
    });
  }

  item(level) {
    return html`<li class="note level" data-level=${level.container}><h2>${level.name}</h2>
      ${level.stream?.name ? html`<p class="quiet">${level.stream.name}</p>` : nothing}
      ${levelBar(level)}
      <p>${phrases(levelPhrases(level))}</p>
      <p>${forecastSentences(level).join(' ')}</p>
      <p><a class="button" href=${`#/levels/${encodeURIComponent(level.container)}`}>
        ${texts.levels.over(level.name)}</a></p></li>`;
  }

  render() {
    const told = texts.levels;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    return html`<h1 tabindex="-1">${told.title}</h1>
      <bw-paper-head></bw-paper-head>
      <p>${told.lead}</p>
      ${this.levels.length ? nothing : html`<p>${texts.home.noContainers}</p>`}
      <ul class="due levels">${this.levels.map((level) => this.item(level))}</ul>`;
  }
}

class Level extends Screen {
  static needsSession = true;

  weeks = kWeeks;

  course = null; // comes later than the rest: the daemon reckons each week anew

  courseFault = '';

  fetch() {
    return this.load(async () => {
      const now = await get('/levels');
      this.level = now.levels.find(({ container }) => container === this.container);
      if (!this.level) return;
      const from = daysBefore(new Date(now.as_of), this.weeks * kDaysAWeek);
      const subject = encodeURIComponent(`container/${this.container}`);
      const entries = await allEntries(`subject=${subject}&from=${from}`);
      this.entries = entries.reverse();
      this.told = await toldOf(entries);
      this.fetchCourse(now);
    });
  }

  async fetchCourse({ as_of: asOf, book_size: size, levels }) {
    try {
      const now = Date.parse(asOf);
      const weekly = await weeklyLevels(this.weeks, now, knownFor(size));
      const course = courseOf(this.container, [...weekly, { at: asOf, levels }]);
      const taken = this.entries.filter(takesAway).map(({ occurred_at: at }) => at);
      this.chart = course.length ? levelChart(this.level, course, taken, now / 1000) : null;
      this.course = course;
    } catch (error) {
      this.courseFault = errorText(error);
    }
    this.requestUpdate();
  }

  more() {
    this.weeks += kWeeks;
    return this.once(() => this.fetch());
  }

  drawing() {
    if (!this.course) {
      return this.courseFault ? alertLine(this.courseFault)
        : html`<p role="status">${texts.loading}</p>`;
    }
    return this.chart ? html`<bw-chart .spec=${this.chart}></bw-chart>${this.table()}`
      : html`<p>${texts.levels.noCourse}</p>`;
  }

  table() {
    const { limit, say } = amountOf(this.level);
    return html`<table class="figures"><caption>${texts.levels.table}</caption>
      <thead><tr><th scope="col">${texts.levels.day}</th><th scope="col">${texts.levels.held}</th>
        <th scope="col">${texts.levels.share}</th></tr></thead>
      <tbody>${[...this.course].reverse().map(({ at, level, amount }) => html`<tr>
        <td>${dayText(at)}</td><td>${say(amount, limit ?? amount)}</td>
        <td>${shareText(level)}</td></tr>`)}</tbody></table>`;
  }

  render() {
    const told = texts.levels;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    if (!this.level) return html`<h1 tabindex="-1">${told.unknown(this.container)}</h1>`;
    return html`<h1 tabindex="-1">${this.level.name}</h1>
      ${levelBar(this.level)}
      <p>${phrases(levelPhrases(this.level))}</p>
      <p>${forecastSentences(this.level).join(' ')}</p>
      <p class="quiet">${told.basis}</p>
      ${this.level.retired ? nothing : sheetLinks({ label: `container/${this.container}` })}
      ${this.drawing()}
      <p><button class="button" ?disabled=${this.busy} @click=${() => this.more()}>
        ${told.more(kWeeks)}</button></p>
      <section><h2>${told.entries}</h2>
        ${this.entries.length ? nothing : html`<p>${told.noEntries}</p>`}
        <ol class="due">${this.entries.slice(0, kRows)
    .map((entry) => entryRow(entry, this.told))}</ol>
        <p class="below"><a class="button" href=${`#/recorded/container/${this.container}`}>
          ${told.allEntries}</a></p></section>
      <p><a class="button" href="#/levels">${told.title}</a></p>`;
  }
}

customElements.define('bw-levels', Levels);
customElements.define('bw-level', Level);
