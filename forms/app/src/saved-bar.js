// The bar after recording: the number in the book, the container's level now, Undo for a while.
// It also tells when an entry has no answer yet.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { entryLink } from './entries.js';
import { findingLine } from './findings.js';
import { levelPhrases, phrases } from './level-bar.js';
import { go, route } from './route.js';
import { store } from './store.js';
import { undo } from './record.js';
import { texts } from '../texts.js';

const kFindingsShown = 2; // so that the bar leaves the bench in sight
const kPlaces = ['home', 'register']; // where recording leads

class Saved extends Screen {
  static needsSession = true;

  fault = '';

  connectedCallback() {
    super.connectedCallback();
    this.clock = setInterval(() => {
      if (store.state.saved) this.requestUpdate();
    }, 1000);
    window.addEventListener('hashchange', this.redraw);
  }

  disconnectedCallback() {
    clearInterval(this.clock);
    window.removeEventListener('hashchange', this.redraw);
    super.disconnectedCallback();
  }

  undo(saved) {
    this.once(async () => {
      this.fault = '';
      try {
        await undo(saved);
      } catch (error) {
        this.fault = texts.saved.undoFailed(errorText(error));
      }
    });
  }

  level(saved) {
    const level = store.state.levels.find((one) => one.container === saved.container);
    return level ? html`<p>${texts.level.now(level.name)}
      ${phrases(levelPhrases(level))}</p>` : nothing;
  }

  /** What the rules say about what the entry names. */
  findings(saved) {
    const told = (saved.undoneBy ? [] : saved.findings ?? [])
      .filter((one) => one.severity !== 'note');
    const rest = told.length - kFindingsShown;
    return html`${told.slice(0, kFindingsShown).map(findingLine)}
      ${rest > 0 ? html`<p><a href="#/findings">${texts.findings.more(rest)}</a></p>` : nothing}`;
  }

  undoButton(saved) {
    const left = Math.ceil((saved.until - Date.now()) / 1000);
    // Once Undo was tapped it stays until it is answered, so that it can be sent again.
    if (saved.undoneBy || (left <= 0 && !saved.strikeOut)) return nothing;
    const seconds = left > 0 ? texts.saved.undoWithin(left) : '';
    return html`<button class="button primary" ?disabled=${this.busy}
      @click=${() => this.undo(saved)}>${texts.saved.undo}
      <span aria-hidden="true">${seconds}</span></button>`;
  }

  recorded(saved) {
    const title = saved.undoneBy ? texts.saved.undone(saved.seq, saved.undoneBy)
      : texts.saved.inBook(saved.seq);
    return html`<aside class="saved">
      <div role="status"><p><b>${title}</b> · ${saved.line}</p>${this.level(saved)}
        ${this.findings(saved)}${alertLine(this.fault)}</div>
      ${this.undoButton(saved)}
      ${entryLink(saved.seq, texts.saved.show)}
      <button class="button" @click=${() => store.set({ saved: null })}>
        ${texts.saved.close}</button>
    </aside>`;
  }

  render() {
    const { saved, pending, session } = store.state;
    const here = route();
    if (pending && pending.person === session.person && here.name !== 'record') {
      return html`<aside class="saved"><p role="alert">${texts.pending.waiting}</p>
        <button class="button primary" @click=${() => go(`record/${pending.about.address}`)}>
          ${texts.pending.open}</button></aside>`;
    }
    return saved && kPlaces.includes(here.name) ? this.recorded(saved) : nothing;
  }
}

customElements.define('bw-saved', Saved);
