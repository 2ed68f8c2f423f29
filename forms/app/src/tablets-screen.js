// Paired tablets: which there are, whether every entry they numbered has arrived, and for managers how
// another is paired and how a pairing is ended.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, post, request } from './api.js';
import { inBlocks } from './blocks.js';
import { mayEnter, mayReport, personName } from './session.js';
import { momentText } from './time.js';
import { onClock, workshopZone } from './zone.js';
import { qrCode } from './qr-code.js';
import { store } from './store.js';
import { texts } from '../texts.js';

/** "3, 5 to 7": the numbers that did not arrive. */
export const rangesText = (ranges) => ranges.map(({ from, to }) =>
  (from === to ? String(from) : texts.tablets.range(from, to))).join(', ');

class Tablets extends Screen {
  static needsSession = true;

  naming = null; // the name while another is being paired

  pairing = null; // what the daemon gave for it

  ending = null; // the id of whose pairing the end is asked

  fault = '';

  fetch() {
    if (!mayReport(store.state.session)) return null;
    return this.load(async () => {
      const [{ devices }, zone] = await Promise.all([get('/devices'), workshopZone()]);
      Object.assign(this, { devices, zone });
    });
  }

  turn(change) {
    Object.assign(this, { naming: null, ending: null, fault: '', ...change });
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('.asked-now input')?.focus());
  }

  change(work) {
    return this.once(async () => {
      this.fault = '';
      try {
        await work();
      } catch (error) {
        const said = error.errors?.map(({ detail }) => texts.problem.sentence(detail)).join(' ');
        this.fault = said || errorText(error);
      }
    });
  }

  pair() {
    const name = this.naming.trim();
    if (!name) {
      this.fault = texts.tablets.needsName;
      this.requestUpdate();
      return null;
    }
    return this.change(async () => {
      this.pairing = await post('/devices/pairing', { name });
      this.naming = null;
    });
  }

  end(id) {
    return this.change(async () => {
      await request('DELETE', `/devices/${encodeURIComponent(id)}`);
      this.ending = null;
      await this.fetch();
    });
  }

  moment(at) {
    return momentText(onClock(at, this.zone));
  }

  /** What is missing or came twice, in sentences; that all came, where it did. */
  sequence({ entries, last_device_seq: last, missing, repeated }) {
    const told = texts.tablets;
    if (!last && !entries) return html`<p>${told.nothingYet}</p>`;
    if (!missing.length && !repeated.length) return html`<p>${told.complete(entries)}</p>`;
    return html`<p>${told.arrived(entries, last)}</p>
      ${missing.length ? html`<p class="heed">${told.missing(rangesText(missing))}</p>` : nothing}
      ${repeated.length ? html`<p class="heed">${told.repeated(repeated.join(', '))}</p>` : nothing}`;
  }

  acts({ id, name, ended_at: ended }) {
    const told = texts.tablets;
    if (ended || !mayEnter(store.state.session)) return nothing;
    if (this.ending !== id) {
      return html`<button class="button" @click=${() => this.turn({ ending: id })}>
        ${told.end}</button>`;
    }
    return html`<p class="heed">${told.ends(name)}</p>${alertLine(this.fault)}
      <div class="links"><button class="button" @click=${() => this.turn({})}>
        ${texts.kept.leave}</button>
      <button class="button primary" ?disabled=${this.busy} @click=${() => this.end(id)}>
        ${told.endNow(name)}</button></div>`;
  }

  tablet(one) {
    const told = texts.tablets;
    return html`<li class="note account" data-tablet=${one.id}><h2>${one.name}</h2>
      <p>${told.paired(this.moment(one.paired_at), personName(one.paired_by))}
        ${one.last_seen_at ? told.seen(this.moment(one.last_seen_at)) : nothing}</p>
      ${one.ended_at ? html`<p><b>${told.ended(this.moment(one.ended_at))}</b></p>` : nothing}
      ${this.sequence(one)}${this.acts(one)}</li>`;
  }

  /** Where the certificate is installed first, when the daemon speaks TLS with its own. */
  setUp({ address, qr, ca_fingerprint: print }) {
    const told = texts.tablets;
    return html`<section class="pairing-step"><h3>${told.firstTrust}</h3>
      <p>${told.trustLead}</p>
      ${qrCode(qr, told.opens(address))}
      <p class="address">${inBlocks(address)}</p>
      ${print ? html`<p>${told.compare}</p><p class="address">${inBlocks(print)}</p>` : nothing}</section>`;
  }

  pairingPart() {
    const { code, ends_at: ends, address, qr, set_up: setUp } = this.pairing;
    const told = texts.tablets;
    return html`<section class="block pairing"><h2>${told.pair}</h2>
      <p>${told.until(this.moment(ends))}</p>
      <div class="pairing-steps">${setUp ? this.setUp(setUp) : nothing}
        <section class="pairing-step"><h3>${setUp ? told.thenPair : told.scan}</h3>
          <p>${told.scanLead}</p>
          ${qrCode(qr, told.opens(address))}
          <p>${told.orWrite}</p><p class="address">${inBlocks(address.replace(/#.*$/, ''))}</p>
          <p class="code">${code}</p></section></div>
      <button class="button" @click=${() => {
    this.turn({ pairing: null });
    this.fetch();
  }}>${told.donePairing}</button></section>`;
  }

  pairPart() {
    const told = texts.tablets;
    if (!mayEnter(store.state.session)) return nothing;
    if (this.pairing) return this.pairingPart();
    if (this.naming === null) {
      return html`<p><button class="button primary" @click=${() => this.turn({ naming: '' })}>
        ${told.pair}</button></p>`;
    }
    return html`<form class="block asked-now" @submit=${(event) => {
      event.preventDefault();
      this.pair();
    }}><h2>${told.pair}</h2>
      <label class="written"><span>${told.name}</span><small class="quiet help">${told.nameHelp}</small>
        <input type="text" name="name" maxlength="80" autocomplete="off"
          @input=${(event) => { this.naming = event.target.value; }}></label>
      ${alertLine(this.fault)}
      <div class="links"><button class="button" type="button" @click=${() => this.turn({})}>
        ${texts.kept.leave}</button>
      <button class="button primary" type="submit" ?disabled=${this.busy}>${told.makeCode}</button>
      </div></form>`;
  }

  render() {
    const told = texts.tablets;
    if (!mayReport(store.state.session)) return html`<h1 tabindex="-1">${told.title}</h1>`;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead}</p>
      ${this.pairPart()}
      ${this.devices.length ? nothing : html`<p>${told.none}</p>`}
      <ul class="due accounts">${this.devices.map((one) => this.tablet(one))}</ul>`;
  }
}

customElements.define('bw-tablets', Tablets);
