// Who is signed in, and where: managers see everybody, others their own; each can be ended.
import { html, nothing } from 'lit';
import './passphrase-part.js';
import { Screen, alertLine, errorText } from './screen.js';
import { get, request } from './api.js';
import { personName, signOut } from './session.js';
import { momentText } from './time.js';
import { onClock, workshopZone } from './zone.js';
import { texts } from '../texts.js';

class Sessions extends Screen {
  static needsSession = true;

  ending = null; // the id of the one whose end is asked

  fault = '';

  fetch() {
    return this.load(async () => {
      const [{ sessions }, zone] = await Promise.all([get('/sessions'), workshopZone()]);
      Object.assign(this, { sessions, zone });
    });
  }

  ask(ending) {
    Object.assign(this, { ending, fault: '' });
    this.requestUpdate();
  }

  end({ id, is_this: isThis }) {
    return this.once(async () => {
      this.fault = '';
      try {
        if (isThis) {
          await signOut();
          return;
        }
        await request('DELETE', `/sessions/${encodeURIComponent(id)}`);
        this.ending = null;
        await this.fetch();
      } catch (error) {
        this.fault = errorText(error);
      }
    });
  }

  moment(at) {
    return momentText(onClock(at, this.zone));
  }

  place({ place, device }) {
    const said = texts.sessions.places[place];
    return device ? said(device.name) : said;
  }

  acts(one) {
    const told = texts.sessions;
    if (this.ending !== one.id) {
      return html`<button class="button" @click=${() => this.ask(one.id)}>${told.end}</button>`;
    }
    const name = personName(one.person);
    return html`<p class="heed">${told.ends(name)}</p>${alertLine(this.fault)}
      <div class="links"><button class="button" @click=${() => this.ask(null)}>
        ${texts.kept.leave}</button>
      <button class="button primary" ?disabled=${this.busy} @click=${() => this.end(one)}>
        ${told.endNow(name)}</button></div>`;
  }

  session(one) {
    const told = texts.sessions;
    return html`<li class="note account" data-session=${one.id}>
      <h2>${personName(one.person)}, ${this.place(one)}</h2>
      <p>${told.began(this.moment(one.began_at))} ${told.seen(this.moment(one.last_seen_at))}</p>
      ${one.is_this ? html`<p><b>${told.here}</b></p>` : nothing}${this.acts(one)}</li>`;
  }

  render() {
    const told = texts.sessions;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead}</p>
      ${this.sessions.length ? nothing : html`<p>${told.none}</p>`}
      <bw-passphrase></bw-passphrase>
      <ul class="due accounts">${this.sessions.map((one) => this.session(one))}</ul>`;
  }
}

customElements.define('bw-sessions', Sessions);
