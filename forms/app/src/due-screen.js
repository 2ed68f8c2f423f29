// What is due: a list by day, in sentences; for managers the calendar feed of it as well.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, post, request } from './api.js';
import { entryLink } from './entries.js';
import { sourceText } from './findings.js';
import { dayText, withDays } from './time.js';
import { store } from './store.js';
import './paper-head.js';
import { texts } from '../texts.js';

/** [[title, items]]: days that have passed, today, days to come; none of them empty. */
function byDay({ today, items }) {
  const { passed, today: now, coming } = texts.due;
  return [
    [passed, items.filter((item) => item.day < today)],
    [now, items.filter((item) => item.day === today)],
    [coming, items.filter((item) => item.day > today)],
  ].filter(([, some]) => some.length);
}

class Due extends Screen {
  static needsSession = true;

  fetch() {
    return this.load(async () => {
      this.due = await get('/due');
    });
  }

  group([title, items]) {
    return html`<section><h2>${title}</h2>
      <ul class="due">${items.map((item) => html`<li class="note">
        <p>${withDays(item.sentence)}</p><p class="quiet">${sourceText(item)}</p>
        ${item.entry ? html`<p>${entryLink(item.entry)}</p>` : nothing}</li>`)}</ul></section>`;
  }

  render() {
    if (!this.loaded) return this.waiting(texts.due.title, () => this.fetch());
    const groups = byDay(this.due);
    return html`<h1 tabindex="-1">${texts.due.title}</h1>
      <bw-paper-head></bw-paper-head>
      ${groups.length ? groups.map((group) => this.group(group)) : html`<p>${texts.due.none}</p>`}
      ${store.state.session.role === 'manager' ? html`<bw-feed class="screen"></bw-feed>` : nothing}`;
  }
}

class Feed extends Screen {
  static needsSession = true;

  link = '';

  fault = '';

  note = '';

  fetch() {
    return this.load(async () => {
      this.madeAt = (await get('/calendar')).made_at;
    });
  }

  change(work) {
    return this.once(async () => {
      this.fault = '';
      this.note = '';
      try {
        await work();
      } catch (error) {
        this.fault = errorText(error);
      }
    });
  }

  make() {
    return this.change(async () => {
      const feed = await post('/calendar', {});
      this.madeAt = feed.made_at;
      this.link = location.origin + feed.path;
    });
  }

  end() {
    return this.change(async () => {
      await request('DELETE', '/calendar');
      this.madeAt = null;
      this.link = '';
      this.note = texts.feed.ended;
    });
  }

  /** A browser lets a page write to the clipboard only where the connection is encrypted or of
   *  this machine; elsewhere the link is marked, to be copied by hand. */
  async copy() {
    const field = this.querySelector('input');
    field.select();
    try {
      await navigator.clipboard.writeText(this.link);
      this.note = texts.feed.copied;
    } catch {
      this.note = texts.feed.marked;
    }
    this.requestUpdate();
  }

  /** The new link; where it was made earlier, since when there is one. */
  linkPart() {
    if (!this.link) {
      return html`<p>${this.madeAt ? texts.feed.since(dayText(this.madeAt)) : texts.feed.none}</p>`;
    }
    return html`<label class="written"><span>${texts.feed.link}</span>
        <input type="text" readonly .value=${this.link}></label>
      <p>${texts.feed.once}</p>
      <button class="button" @click=${() => this.copy()}>${texts.feed.copy}</button>`;
  }

  buttons() {
    const made = Boolean(this.madeAt);
    return html`<div class="links">
      <button class="button" ?disabled=${this.busy} @click=${() => this.make()}>
        ${made ? texts.feed.makeAgain : texts.feed.make}</button>
      ${made ? html`<button class="button" ?disabled=${this.busy} @click=${() => this.end()}>
        ${texts.feed.end}</button>` : nothing}</div>`;
  }

  render() {
    if (!this.loaded) {
      return html`<h2>${texts.feed.title}</h2>${alertLine(this.loadFault)}`;
    }
    return html`<h2>${texts.feed.title}</h2>
      <p>${texts.feed.lead}</p>
      <p class="heed">${texts.feed.caution}</p>
      ${this.linkPart()}
      ${this.buttons()}
      <p role="status">${this.note}</p>
      ${alertLine(this.fault)}`;
  }
}

customElements.define('bw-due', Due);
customElements.define('bw-feed', Feed);
