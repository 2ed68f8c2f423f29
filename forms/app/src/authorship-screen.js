// After signing in: what was recorded in the person's name without a PIN. Nothing is marked
// beforehand; the person says of which entries they speak, and what.
import { html } from 'lit';
import { get } from './api.js';
import { Screen, alertLine, errorText } from './screen.js';
import { confirmEntries } from './authorship.js';
import { standing } from './entries.js';
import { namesFor } from './shown-value.js';
import { summary } from './summary.js';
import { momentText } from './time.js';
import { onClock, workshopZone } from './zone.js';
import { store } from './store.js';
import { texts } from '../texts.js';

class Authorship extends Screen {
  static needsSession = true;

  marked = new Set();

  fault = '';

  fetch() {
    return this.load(async () => {
      const { unconfirmed } = store.state;
      const kinds = [...new Set(unconfirmed.map(({ kind }) => kind))];
      const [zone, ...forms] = await Promise.all([workshopZone(),
        ...kinds.map((kind) => get(`/forms/${kind}`))]);
      this.zone = zone;
      this.forms = new Map(forms.map((form) => [form.kind, form]));
      this.names = await namesFor(...unconfirmed.map((entry) =>
        [this.forms.get(entry.kind), entry.fields]));
    });
  }

  mark(numbers) {
    this.marked = new Set(numbers);
    this.requestUpdate();
  }

  turn(number) {
    const others = [...this.marked].filter((one) => one !== number);
    this.mark(this.marked.has(number) ? others : [...others, number]);
  }

  say(authorship) {
    return this.once(async () => {
      this.fault = '';
      try {
        await confirmEntries([...this.marked], authorship, this);
        this.marked = new Set();
      } catch (error) {
        this.fault = error.errors?.map(({ detail }) => detail).join(' ') || errorText(error);
      }
    });
  }

  row(entry) {
    const form = this.forms.get(entry.kind);
    return html`<li><label class="choice"><input type="checkbox" value=${entry.seq}
        .checked=${this.marked.has(entry.seq)} @change=${() => this.turn(entry.seq)}>
      <span class="choice-face"><b>${form.title}</b>
        <small>${summary(form, standing(entry), this.names)}</small>
        <small>${momentText(onClock(entry.occurred_at, this.zone))} · ${texts.entryPage.number(entry.seq)}</small>
      </span></label></li>`;
  }

  render() {
    const told = texts.authorship;
    const { unconfirmed, session } = store.state;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    const none = this.busy || this.marked.size === 0;
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead(session.name)}</p>
      <p><button class="button" @click=${() => this.mark(unconfirmed.map(({ seq }) => seq))}>
        ${told.markAll}</button></p>
      <ul class="due">${unconfirmed.map((entry) => this.row(entry))}</ul>
      ${alertLine(this.fault)}
      <div class="links authorship">
        <button class="button primary" ?disabled=${none} @click=${() => this.say('mine')}>
          ${told.mine(session.name)}</button>
        <button class="button" ?disabled=${none} @click=${() => this.say('not-mine')}>
          ${told.notMine(session.name)}</button>
        <button class="button" @click=${() => store.set({ unconfirmed: [] })}>${told.later}</button>
      </div>`;
  }
}

customElements.define('bw-authorship', Authorship);
