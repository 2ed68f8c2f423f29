// The bar after recording: the number in the book, the container's level now, Undo for a while.
// What is on this tablet only can be undone as well.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { entryLink } from './entries.js';
import { findingLine } from './findings.js';
import { levelPhrases, phrases } from './level-bar.js';
import { route } from './route.js';
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
        await undo(saved, this);
      } catch (error) {
        this.fault = texts.saved.undoFailed(errorText(error));
      }
    });
  }

  level(saved) {
    if (!saved.seq) return nothing; // what stands there does not count it
    const level = store.state.levels.find((one) => one.container === saved.container);
    return level ? html`<p>${texts.level.now(level.name)}
      ${phrases(levelPhrases(level))}</p>` : nothing;
  }

  /** What the rules say about what the entry names. */
  findings(saved) {
    const told = (saved.undone ? [] : saved.findings)
      .filter((one) => one.severity !== 'note');
    const rest = told.length - kFindingsShown;
    return html`${told.slice(0, kFindingsShown).map(findingLine)}
      ${rest > 0 ? html`<p><a href="#/findings">${texts.findings.more(rest)}</a></p>` : nothing}`;
  }

  undoButton(saved) {
    const left = Math.ceil((saved.until - Date.now()) / 1000);
    // Once Undo was tapped it stays until it is answered, so that it can be sent again.
    if (saved.undone || (left <= 0 && !saved.strikeOut)) return nothing;
    const seconds = left > 0 ? texts.saved.undoWithin(left) : '';
    return html`<button class="button primary" ?disabled=${this.busy}
      @click=${() => this.undo(saved)}>${texts.saved.undo}
      <span aria-hidden="true">${seconds}</span></button>`;
  }

  title({ seq, undone, undoneBy }) {
    const told = texts.saved;
    if (undone) return seq && undoneBy ? told.undone(seq, undoneBy) : told.undoneHere;
    return seq ? told.inBook(seq) : told.onTablet;
  }

  recorded(saved) {
    return html`<aside class="saved">
      <div role="status"><p><b>${this.title(saved)}</b> · ${saved.line}</p>${this.level(saved)}
        ${this.findings(saved)}${alertLine(this.fault)}</div>
      ${this.undoButton(saved)}
      ${saved.seq ? entryLink(saved.seq, texts.saved.show) : nothing}
      <button class="button" @click=${() => store.set({ saved: null })}>
        ${texts.saved.close}</button>
    </aside>`;
  }

  render() {
    const { saved } = store.state;
    return saved && kPlaces.includes(route().name) ? this.recorded(saved) : nothing;
  }
}

customElements.define('bw-saved', Saved);
