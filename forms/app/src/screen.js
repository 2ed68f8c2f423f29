// What every screen has in common: light DOM (one stylesheet, labels and checks work across), and
// a redraw when the store changes.
import { LitElement, html, nothing } from 'lit';
import { NoAnswer, isAway } from './api.js';
import { store } from './store.js';
import { texts } from '../texts.js';

/** The sentence to show for an error of api.js. */
export function errorText(error) {
  const { detail, title } = error.problem ?? {};
  if (detail || title) return texts.problem.sentence(detail || title);
  if (error instanceof NoAnswer) return texts.problem.noAnswer;
  if (error instanceof DOMException) return texts.problem.notKept(error.message);
  return texts.problem.plain(error.status ?? error.message);
}

/** A line that is read out when it appears. */
export function alertLine(text) {
  return text ? html`<p class="fault" role="alert">${text}</p>` : nothing;
}

export class Screen extends LitElement {
  static needsSession = false;

  createRenderRoot() {
    return this;
  }

  connectedCallback() {
    super.connectedCallback();
    this.redraw = () => {
      this.requestUpdate();
      if (!this.lacking || store.state.away) return;
      this.lacking = false;
      this.fetch();
    };
    store.addEventListener('change', this.redraw);
    this.fetch();
  }

  /** What a screen shows of the book is asked for when it appears. */
  fetch() {}

  /** A screen for signed-in people stands still while the session ends, until it is taken away. */
  shouldUpdate() {
    return store.state.session !== null || !this.constructor.needsSession;
  }

  disconnectedCallback() {
    store.removeEventListener('change', this.redraw);
    super.disconnectedCallback();
  }

  /** Runs `work` once at a time: a second tap while it runs does nothing. */
  async once(work) {
    if (this.busy) return;
    this.busy = true;
    this.requestUpdate();
    try {
      await work();
    } finally {
      this.busy = false;
      this.requestUpdate();
    }
  }

  /** Fetches what the screen shows; a failure is shown with a button to try again. */
  async load(work) {
    this.loadFault = '';
    try {
      await work();
      this.loaded = true;
    } catch (error) {
      this.lacking = isAway(error); // fetched by itself when the daemon answers again
      this.loadFault = this.lacking ? texts.away.needed : errorText(error);
    }
    this.requestUpdate();
  }

  /** The page while it is being fetched, or could not be. */
  waiting(title, retry) {
    return html`<h1 tabindex="-1">${title}</h1>
      ${this.loadFault
    ? html`${alertLine(this.loadFault)}
        <button class="button" @click=${retry}>${texts.problem.tryAgain}</button>`
    : html`<p>${texts.loading}</p>`}`;
  }
}
