// Collections: what to hand over next and why, then every collection by date with how far it is.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { get } from './api.js';
import { dayText, withDays } from './time.js';
import { keepDraft } from './drafts.js';
import { entryLinks } from './entries.js';
import { go } from './route.js';
import { unitSaid } from './draft.js';
import { about, aboutLitres, kilograms, litres } from './units.js';
import { mayRecord } from './session.js';
import { sheetLinks } from './sheets.js';
import { store } from './store.js';
import { texts } from '../texts.js';

/** What is there, in the unit it is counted by. */
function amount(load, name) {
  const volume = load[`${name}_ml`];
  return volume === undefined ? kilograms(load[`${name}_kg`]) : litres(volume);
}

/** What is there now and what is likely to be by then, both in one unit. */
function nowAndThen({ now_ml: now, expected_ml: then, now_kg: mass, expected_kg: thenMass }) {
  return then === undefined ? [kilograms(mass), about(thenMass, 'kg')]
    : [litres(now, Math.max(now, then)), aboutLitres(then, Math.max(now, then))];
}

/** A draft of the form with these values, opened to be completed. */
function open(values) {
  keepDraft(`${store.state.session.person}/collection`, values);
  go('record/collection');
}

/** The first free id of the day: c-2026-12-14, c-2026-12-14-2 … */
function freeId(day, collections) {
  const used = new Set(collections.map(({ collection }) => collection));
  let id = `c-${day}`;
  for (let number = 2; used.has(id); number += 1) id = `c-${day}-${number}`;
  return id;
}

// Drafts of what the book knows, in the units it is kept in.
const inKilograms = (mass) => ({ mass_kg: String(mass), ...unitSaid('mass_kg', 'kg') });
const inMillilitres = (volume) => ({ volume_ml: String(volume), ...unitSaid('volume_ml', 'ml') });

function plannedRow(load) {
  return load.expected_ml === undefined
    ? { container: load.container, ...inKilograms(load.expected_kg) }
    : { container: load.container, ...inMillilitres(Math.round(load.expected_ml)) };
}

function takenRow(load) {
  const row = { container: load.container };
  if (load.volume_ml !== null) Object.assign(row, inMillilitres(load.volume_ml));
  if (load.mass_kg !== null) Object.assign(row, inKilograms(load.mass_kg));
  return row;
}

const wasTaken = ({ documents }) => documents.length > 0;
const openDocument = ({ documents }) => documents.find((one) => one.number && !one.returned_at);
const unweighed = (one) => one.loads.filter(({ weighed_kg: weighed }) => weighed === null);

function next(one) {
  const base = { collection: one.collection };
  const returned = openDocument(one);
  const carrier = one.carrier ? { carrier: one.carrier.id } : {};
  const steps = [];
  if (!wasTaken(one)) {
    steps.push([texts.collections.take, { ...base, stage: 'taken',
      ...carrier, loads: one.loads.map(takenRow) }]);
    if (one.stage === 'planned') {
      steps.push([texts.collections.refused, { ...base, stage: 'not-taken', ...carrier }]);
    }
    return steps;
  }
  if (returned) {
    steps.push([texts.collections.returned, { ...base, stage: 'document-returned',
      document_number: returned.number }]);
  }
  if (unweighed(one).length) {
    steps.push([texts.collections.weigh, { ...base, stage: 'weighed',
      loads: unweighed(one).map(({ container }) => ({ container })) }]);
  }
  return steps;
}

function reason({ sentence, citation, confidence }) {
  const doubt = confidence === 'text-seen' ? '' : ` (${texts.collections.confidence[confidence]})`;
  return html`<li><p>${withDays(sentence)}</p><p class="quiet">${citation}${doubt}</p></li>`;
}

function proposedLoad(load) {
  return html`<li class="load"><h4>${load.name}</h4>
    <p>${texts.collections.expected(...nowAndThen(load))}</p>
    ${load.planned_in.length ? html`<p>${texts.collections.planned(load.planned_in.join(', '))}</p>`
    : nothing}
    <ul>${load.reasons.map(reason)}</ul></li>`;
}

function loadLine(load, taken) {
  const { logged_kg: logged, weighed_kg: weighed, difference_kg: difference } = load;
  const planned = taken || load.mass_kg === null ? '' : kilograms(load.mass_kg);
  const parts = [load.volume_ml === null ? '' : amount(load, 'volume'), planned,
    logged === null ? '' : texts.collections.logged(kilograms(logged)),
    weighed === null ? '' : texts.collections.weighed(kilograms(weighed)),
    difference === null ? '' : texts.collections.difference(kilograms(difference))].filter(Boolean);
  const open = taken && weighed === null ? texts.collections.notWeighed : '';
  return html`<li><b>${load.name}</b> ${[...parts, open].filter(Boolean).join(' · ')}</li>`;
}

function documentLine({ number, taken_at: taken, returned_at: returned }) {
  const back = returned ? texts.collections.back(dayText(returned)) : texts.collections.notBack;
  return html`<p>${texts.collections.document(number ?? texts.collections.noNumber,
    dayText(taken))} ${back}</p>`;
}

class Collections extends Screen {
  static needsSession = true;

  fetch() {
    return this.load(async () => {
      const [all, proposal] = await Promise.all([get('/collections'),
        get('/collections/proposal')]);
      this.list = all.collections;
      this.proposal = proposal;
    });
  }

  plan({ day, loads }) {
    open({ collection: freeId(day, this.list), stage: 'planned', planned_date: day,
      loads: loads.map(plannedRow) });
  }

  handover(one) {
    return html`<li class="note handover"><h3>${texts.collections.by(dayText(one.day))}</h3>
      <ul>${one.loads.map(proposedLoad)}</ul>
      ${mayRecord(store.state.session) ? html`<button class="button" @click=${() => this.plan(one)}>
        ${texts.collections.plan}</button>` : nothing}</li>`;
  }

  proposed() {
    const { handovers, undated, window_days: window } = this.proposal;
    if (window === null) return html`<p>${texts.collections.off}</p>`;
    return html`<p class="quiet">${texts.collections.together(window)}</p>
      ${handovers.length ? nothing : html`<p>${texts.collections.nothing}</p>`}
      <ol class="due">${handovers.map((one) => this.handover(one))}</ol>
      ${undated.map(({ sentence }) => html`<p>${withDays(sentence)}</p>`)}`;
  }

  collection(one) {
    const taken = wasTaken(one);
    const { stages } = texts.collections;
    const carrier = one.carrier ? ` · ${one.carrier.name}` : '';
    return html`<li class="note handover" data-collection=${one.collection}>
      <h3>${dayText(one.day)} · ${one.collection}</h3>
      <p><b>${stages[one.stage]}</b>${carrier}</p>
      ${one.documents.map(documentLine)}
      <ul>${one.loads.map((load) => loadLine(load, taken))}</ul>
      ${one.left_behind.length ? html`<p>${texts.collections.left(
    one.left_behind.map(({ name }) => name).join(', '))}</p>` : nothing}
      ${one.entries.length ? entryLinks(texts.collections.entries, one.entries) : nothing}
      ${one.findings.map(({ sentence, citation }) => html`<p class="heed">${withDays(sentence)}</p>
        <p class="quiet">${citation}</p>`)}
      ${mayRecord(store.state.session) ? html`<div class="links">${next(one).map(([label, values]) =>
    html`<button class="button" @click=${() => open(values)}>${label}</button>`)}</div>` : nothing}
      ${sheetLinks({ 'collection-sheet': one.collection })}
    </li>`;
  }

  render() {
    if (!this.loaded) return this.waiting(texts.collections.title, () => this.fetch());
    return html`<h1 tabindex="-1">${texts.collections.title}</h1>
      <section><h2>${texts.collections.next}</h2>${this.proposed()}</section>
      <section><h2>${texts.collections.list}</h2>
        ${mayRecord(store.state.session) ? html`<p><a class="button" href="#/record/collection">
          ${texts.collections.other}</a></p>` : nothing}
        ${this.list.length ? nothing : html`<p>${texts.collections.none}</p>`}
        <ol class="due">${this.list.map((one) => this.collection(one))}</ol></section>`;
  }
}

customElements.define('bw-collections', Collections);
