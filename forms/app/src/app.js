// The frame of the page: header, one screen, and the bar after recording.
import { html, nothing } from 'lit';
import { keyed } from 'lit/directives/keyed.js';
import { Screen, errorText, alertLine } from './screen.js';
import { go, route } from './route.js';
import { isLeftAlone, noteTouch } from './idle.js';
import { signOut, start } from './session.js';
import { outboxLink } from './outbox-screen.js';
import { store } from './store.js';
import { clockText, withOffset } from './time.js';
import { lastDay } from './inspection-part.js';
import { isWithin } from './within.js';
import { texts } from '../texts.js';
import './setup-screen.js';
import './sign-in-screen.js';
import './home-screen.js';
import './more-screen.js';
import './entry-screen.js';
import './entry-page-screen.js';
import './correct-screen.js';
import './recorded-screen.js';
import './kept-screen.js';
import './print-screen.js';
import './sheet-screen.js';
import './scan-screen.js';
import './import-screen.js';
import './levels-screen.js';
import './book-head.js';
import './office-screen.js';
import './people-screen.js';
import './settings-screen.js';
import './tablets-screen.js';
import './diagnostics-screen.js';
import './tokens-screen.js';
import './sessions-screen.js';
import './history-screens.js';
import './collections-screen.js';
import './calculations-screen.js';
import './due-screen.js';
import './findings-screen.js';
import './register-screen.js';
import './rules-screen.js';
import './pack-screen.js';
import './emergency-screen.js';
import './pair-screen.js';
import './authorship-screen.js';
import './saved-bar.js';
import './confirm-dialog.js';

function histories(of, thing) {
  return thing ? html`<bw-history class="screen" .of=${of} .thing=${thing}></bw-history>`
    : html`<bw-things class="screen" .of=${of}></bw-things>`;
}

function calculations(name) {
  return name ? html`<bw-calculation class="screen" .name=${name}></bw-calculation>`
    : html`<bw-calculations class="screen"></bw-calculations>`;
}

function levels(container) {
  return container ? html`<bw-level class="screen" .container=${container}></bw-level>`
    : html`<bw-levels class="screen"></bw-levels>`;
}

function sheets(address) {
  return address ? html`<bw-sheet class="screen" .address=${address}></bw-sheet>`
    : html`<bw-print class="screen"></bw-print>`;
}

const kScreens = {
  calculations,
  levels,
  head: (number) => html`<bw-head class="screen" .number=${Number(number)}></bw-head>`,
  office: () => html`<bw-office class="screen"></bw-office>`,
  people: () => html`<bw-people class="screen"></bw-people>`,
  tablets: () => html`<bw-tablets class="screen"></bw-tablets>`,
  sessions: () => html`<bw-sessions class="screen"></bw-sessions>`,
  tokens: () => html`<bw-tokens class="screen"></bw-tokens>`,
  diagnostics: () => html`<bw-diagnostics class="screen"></bw-diagnostics>`,
  'this-tablet': () => html`<bw-settings class="screen"></bw-settings>`,
  home: () => html`<bw-home class="screen"></bw-home>`,
  record: (address) => html`<bw-entry class="screen" .address=${address}></bw-entry>`,
  mend: (order) => html`<bw-entry class="screen" .mends=${Number(order)}></bw-entry>`,
  entry: (number) => html`<bw-entry-page class="screen" .number=${Number(number)}></bw-entry-page>`,
  correct,
  recorded: (subject) => html`<bw-recorded class="screen" .subject=${subject}></bw-recorded>`,
  kept: () => html`<bw-kept class="screen"></bw-kept>`,
  register: (address) => html`<bw-register class="screen" .address=${address}></bw-register>`,
  collections: () => html`<bw-collections class="screen"></bw-collections>`,
  due: () => html`<bw-due class="screen"></bw-due>`,
  findings: () => html`<bw-findings class="screen"></bw-findings>`,
  rules: () => html`<bw-rules class="screen"></bw-rules>`,
  'own-rules': () => html`<bw-pack class="screen"></bw-pack>`,
  import: () => html`<bw-import class="screen"></bw-import>`,
  more: () => html`<bw-more class="screen"></bw-more>`,
  print: sheets,
  scan: () => html`<bw-scan class="screen"></bw-scan>`,
  cylinders: (id) => histories('cylinders', id),
  tools: (id) => histories('tools', id),
};

/** The correction of an entry; with a number after it, of a row of the outbox that is mended. */
function correct(argument) {
  const [number, order] = argument.split('/').map(Number);
  return html`<bw-correct class="screen" .seq=${number} .mends=${order ?? null}></bw-correct>`;
}

// Screens for anybody, also before the first look at the daemon.
const kOpen = {
  emergency: () => html`<bw-emergency class="screen"></bw-emergency>`,
  outbox: () => html`<bw-outbox class="screen"></bw-outbox>`,
  pair: () => html`<bw-pair class="screen"></bw-pair>`,
};

const kForms = ['record', 'mend']; // screens that use the whole height of the tablet

const kLookMs = 1000; // between looks whether the tablet was left alone

/** A touch of a tablet that is locked keeps no session alive. */
function touch() {
  if (store.state.session) noteTouch();
}

/** Until when an inspector reads; of which part, where it is not all. */
function readOnly(session) {
  if (!session?.inspection) return '';
  const { until, scope } = session.inspection;
  const day = lastDay(until, (moment) => withOffset(new Date(moment)));
  return texts.inspection.banner(day, texts.inspection.scopes[scope]);
}

class App extends Screen {
  connectedCallback() {
    super.connectedCallback();
    this.shown = null;
    this.moved = () => {
      store.state.asOf = null; // the next screen says how old what it shows is
      this.requestUpdate();
    };
    window.addEventListener('hashchange', this.moved);
    document.addEventListener('visibilitychange', () => this.lockIfIdle());
    setInterval(() => this.lockIfIdle(), kLookMs);
    for (const name of ['pointerdown', 'keydown']) window.addEventListener(name, touch);
    this.begin();
  }

  async begin() {
    this.fault = '';
    try {
      await start();
    } catch (error) {
      this.fault = errorText(error);
      this.requestUpdate();
    }
  }

  async lockIfIdle() {
    const { session } = store.state;
    if (session && await isLeftAlone() && store.state.session === session) signOut();
  }

  next() {
    go('');
    signOut();
  }

  /** What to draw, with a key that changes when it is another screen. */
  screen() {
    const { started, session, setupNeeded, asking, unconfirmed } = store.state;
    const { name, argument } = route();
    if (Object.keys(kOpen).includes(name)) return [name, kOpen[name]()];
    if (this.fault) return ['fault', this.faultPage()];
    if (!started) return ['start', html`<p class="screen">${texts.loading}</p>`];
    if (setupNeeded) return ['setup', html`<bw-setup class="screen"></bw-setup>`];
    if (!session) return ['sign-in', html`<bw-sign-in class="screen"></bw-sign-in>`];
    if (asking) {
      return ['asking', html`<bw-sign-in class="screen" .person=${asking}></bw-sign-in>`];
    }
    if (unconfirmed.length) {
      return ['authorship', html`<bw-authorship class="screen"></bw-authorship>`];
    }
    const draw = kScreens[name] ?? kScreens.home;
    return [`${name}/${argument}`, draw(argument)];
  }

  faultPage() {
    return html`<div class="screen"><h1 tabindex="-1">${texts.product}</h1>
      ${alertLine(this.fault)}
      <button class="button" @click=${() => this.begin()}>${texts.problem.tryAgain}</button></div>`;
  }

  render() {
    const [key, screen] = this.screen();
    this.key = key;
    return html`${this.header()}
      ${this.confirmBar()}
      <main id="content">${keyed(key, screen)}</main>
      ${store.state.session ? html`<bw-saved></bw-saved><bw-confirm></bw-confirm>` : nothing}`;
  }

  /** After a name was taken from the list, once the daemon can check the PIN. A form keeps its page:
   *  there the header says it, and the bar waits. */
  confirmBar() {
    const { session, away, asking, people } = store.state;
    if (!session?.claimed || away || asking || kForms.includes(route().name)) return nothing;
    const person = people.find(({ id }) => id === session.person);
    return html`<section class="note confirm-bar" aria-label=${texts.claimed.confirm}>
      <p role="status">${texts.claimed.back}</p>
      <button class="button primary" @click=${() => store.set({ asking: person })}>
        ${texts.claimed.confirm}</button></section>`;
  }

  /** Who is signed in, and what there is to know of it. */
  who() {
    const { session, away, asOf } = store.state;
    const notes = [away && (asOf ? texts.away.since(clockText(asOf)) : texts.away.short),
      session?.claimed && texts.claimed.note, readOnly(session)].filter(Boolean);
    const role = session && texts.roles[session.role];
    return html`<p class="who ${notes.length ? 'told' : ''}">${session ? html`<b>${session.name}</b>` : nothing}
      ${notes.length ? notes.map((text) => html`<span role="status">${text}</span>`)
    : html`<span>${role}</span>`}</p>`;
  }

  /** A form that can take a label has no room for one more button. */
  dueOrScan(here) {
    const { scan } = store.state;
    if (scan) return html`<button class="button" @click=${scan}>${texts.scan.inForm}</button>`;
    return isWithin('everything') ? html`<a class="button" href="#/due"
      aria-current=${here === 'due' ? 'page' : 'false'}>${texts.header.due}</a>` : nothing;
  }

  header() {
    const { session } = store.state;
    const here = route().name;
    return html`<header class="head">
      <p class="brand">${texts.product}</p>
      <nav class="head-links" aria-label=${texts.header.nav}>
        ${session ? html`<a class="button" href="#/"
          aria-current=${here === 'home' ? 'page' : 'false'}>${texts.header.bench}</a>
        ${this.dueOrScan(here)}` : nothing}
        <a class="button" href="#/emergency"
          aria-current=${here === 'emergency' ? 'page' : 'false'}>${texts.header.emergency}</a>
        ${outboxLink(here)}
        ${session ? html`<button class="button" @click=${() => this.next()}>
          ${texts.header.next}</button>` : nothing}
      </nav>
      ${this.who()}
    </header>`;
  }

  /** On another screen the heading takes the focus, so that it is read out and keys start there. */
  updated() {
    if (this.key === this.shown) return;
    this.shown = this.key;
    window.scrollTo(0, 0);
    requestAnimationFrame(() => this.querySelector('h1')?.focus({ preventScroll: true }));
  }
}

customElements.define('bw-app', App);
