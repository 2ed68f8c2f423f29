// What was made on this tablet and is not in the book yet, each entry with its state, and what can
// be done about one that the daemon refused. Readable without signing in: the file is a last resort.
import { html, nothing } from 'lit';
import { Screen, alertLine } from './screen.js';
import { counts, drop, needIn, saveRows, sendAgain, sendAsOwn } from './outbox.js';
import { isStranded, isUndone } from './outcome.js';
import { mayEnter, refreshPeople } from './session.js';
import { wake } from './sender.js';
import { store } from './store.js';
import { clockText, momentText, withDays } from './time.js';
import { texts } from '../texts.js';

/** The state of the outbox in a few words. */
export function stateText() {
  const { waiting, attention } = counts();
  if (attention) return texts.outbox.attention(attention);
  return waiting ? texts.outbox.waiting(waiting) : texts.outbox.none;
}

/** The way to the page, with the state on it. */
export function outboxLink(here) {
  const { attention } = counts();
  return html`<a class="button outbox-link ${attention ? 'heeded' : ''}" href="#/outbox"
    aria-current=${here === 'outbox' ? 'page' : 'false'}><span role="status">${stateText()}</span></a>`;
}

/** What the daemon said of it, in sentences. */
function said({ status, problem }) {
  const details = (problem?.errors ?? []).map(({ detail }) => texts.problem.sentence(withDays(detail)));
  if (details.length) return details;
  const { detail, title } = problem ?? {};
  return [detail || title ? texts.problem.sentence(detail || title) : texts.problem.plain(status)];
}

/** True of a row that only its person could send, where somebody else or nobody is signed in: on what
 *  is no paired tablet. */
function waitsForOther({ person, state }) {
  const { started, device, session } = store.state;
  return started && device === null && state === 'waiting' && session?.person !== person;
}

/** Where it is mended, or recorded anew. */
function mendLink({ order, draft, about }) {
  const told = texts.outbox;
  const [path, words] = draft ? [`${about.mends ?? 'mend'}/${order}`, told.mend]
    : [about.page, told.lookAt];
  return path ? html`<a class="button primary" href=${`#/${path}`}>${words}</a>` : nothing;
}

class Outbox extends Screen {
  dropping = null; // id of the row about which it is asked once more

  /** Who is on the list now decides whose entries a manager may drop. */
  fetch() {
    refreshPeople().catch(() => {}); // who was known stands
  }

  ask(id) {
    this.dropping = id;
    this.requestUpdate();
  }

  drop(id) {
    this.dropping = null;
    return this.once(() => drop(id));
  }

  /** Asks once more; `first` is done before. */
  dropPart({ id, device_seq: number }, words, first) {
    const told = texts.outbox;
    return html`<p class="heed" role="alert">${told.dropCaution}
        ${number === null ? nothing : told.dropGap}</p><div class="links">
      <button class="button" @click=${() => this.ask(null)}>${told.keep}</button>
      <button class="button primary" @click=${() => {
    first();
    this.drop(id);
  }}>${words(store.state.session.name)}</button></div>`;
  }

  /** Where its person can sign in no more, or does not, a manager drops it, and keeps what it said in
   *  a file. */
  managersActs(row, why) {
    const told = texts.outbox;
    const { session } = store.state;
    if (!mayEnter(session) || session.claimed) return html`<p>${why}</p>`;
    if (this.dropping === row.id) return this.dropPart(row, told.saveAndDrop, saveRows);
    return html`<p>${why}</p><div class="links">
      <button class="button" @click=${() => this.ask(row.id)}>${told.drop}</button></div>`;
  }

  /** Of what was refused to somebody else: it keeps a browser that is not paired from being so. */
  othersActs(row) {
    const told = texts.outbox;
    const { started, device } = store.state;
    if (!started || device) return html`<p>${told.whose(row.name)}</p>`;
    return this.managersActs(row, told.whoseOrManagers(row.name));
  }

  /** Of what its person made without a PIN, or somebody else did. */
  ownActs({ id }) {
    const told = texts.outbox;
    return html`<div class="links"><button class="button primary" ?disabled=${this.busy}
      @click=${() => this.once(() => sendAsOwn(id))}>
        ${told.own(store.state.session.name)}</button>
      <button class="button" @click=${() => this.ask(id)}>${told.notOwn}</button></div>`;
  }

  acts(row) {
    const told = texts.outbox;
    const { session, device, people } = store.state;
    if (isStranded(row, people)) return this.managersActs(row, told.stranded(row.name));
    if (waitsForOther(row)) return this.managersActs(row, told.waitsFor(row.name));
    const needsPin = row.claimed && !device;
    if (session?.person !== row.person) return this.othersActs(row);
    if (needsPin && session.claimed) return html`<p>${told.whose(row.name)}</p>`;
    if (this.dropping === row.id) return this.dropPart(row, told.dropYes, () => {});
    if (needsPin) return this.ownActs(row);
    if (isUndone(store.state.rows, row)) {
      return html`<p class="heed">${told.undone}</p><div class="links">
        <button class="button" @click=${() => this.ask(row.id)}>${told.dropBoth}</button></div>`;
    }
    return html`${row.draft ? nothing : html`<p>${told.anew(row.about.page)}</p>`}<div class="links">
      ${mendLink(row)}
      <button class="button" ?disabled=${this.busy} @click=${() => this.once(() =>
    sendAgain(row.id))}>${told.again}</button>
      <button class="button" @click=${() => this.ask(row.id)}>${told.drop}</button></div>`;
  }

  row(row) {
    const told = texts.outbox;
    const need = needIn(store.state, row);
    const { title, line, lines = [] } = row.about;
    return html`<li class="note ${need ? 'heeded' : ''}" data-row=${row.id}>
      <h2>${title}</h2>
      ${line && line !== title ? html`<p>${line}</p>` : nothing}
      ${lines.map((text) => html`<p>${text}</p>`)}
      <p class="quiet">${momentText(row.body.occurred_at)} ·
        ${row.claimed ? texts.claimed.name(row.name) : row.name}</p>
      <p><b>${told.states[need ?? 'waiting']}</b></p>
      ${need === 'refused' ? said(row).map(alertLine) : nothing}
      ${need || waitsForOther(row) ? this.acts(row) : nothing}</li>`;
  }

  lead() {
    const { rows, away, asOf } = store.state;
    const told = texts.outbox;
    if (!rows.length) return html`<p>${told.allIn}</p>`;
    return html`<p>${away ? told.leadAway : told.lead}</p>
      ${asOf ? html`<p class="quiet">${texts.away.asOf(clockText(asOf))}</p>` : nothing}
      <div class="links"><button class="button" ?disabled=${this.busy}
        @click=${() => this.once(wake)}>${told.now}</button>
      <button class="button" @click=${saveRows}>${told.save}</button></div>
      <p class="quiet">${told.saveHelp}</p>`;
  }

  render() {
    const { rows, session } = store.state;
    const first = rows.filter((row) => needIn(store.state, row));
    const rest = rows.filter((row) => !needIn(store.state, row));
    return html`<h1 tabindex="-1">${texts.outbox.title}</h1>
      <p role="status"><b>${stateText()}</b></p>
      ${this.lead()}
      <ul class="due">${[...first, ...rest].map((row) => this.row(row))}</ul>
      <p><a class="button" href="#/">${session ? texts.entry.leave : texts.outbox.back}</a></p>`;
  }
}

customElements.define('bw-outbox', Outbox);
