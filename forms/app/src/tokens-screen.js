// Tokens for scripts: which there are and when each was used; a manager makes and ends them.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, post, request } from './api.js';
import { mayEnter, personName } from './session.js';
import { momentText } from './time.js';
import { onClock, workshopZone } from './zone.js';
import { lastDay } from './inspection-part.js';
import { store } from './store.js';
import { texts } from '../texts.js';

class Tokens extends Screen {
  static needsSession = true;

  making = null; // {name, scope, last_day} while one is being made

  made = null; // what the daemon gave, with its secret

  ending = null; // the id of the one whose end is asked

  fault = '';

  fetch() {
    if (!mayEnter(store.state.session)) return null;
    return this.load(async () => {
      const [{ tokens }, zone] = await Promise.all([get('/tokens'), workshopZone()]);
      Object.assign(this, { tokens, zone });
    });
  }

  turn(change) {
    Object.assign(this, { making: null, ending: null, made: null, fault: '', ...change });
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('.asked-now input')?.focus());
  }

  change(work) {
    return this.once(async () => {
      this.fault = '';
      try {
        await work();
        await this.fetch();
      } catch (error) {
        const said = error.errors?.map(({ detail }) => texts.problem.sentence(detail)).join(' ');
        this.fault = said || errorText(error);
      }
    });
  }

  make() {
    const told = texts.tokens;
    const { name = '', scope, last_day: lastDay = '' } = this.making;
    this.fault = (!name.trim() && told.needsName) || (!scope && told.needsScope) || '';
    this.requestUpdate();
    if (this.fault) return null;
    return this.change(async () => {
      this.made = await post('/tokens', { name: name.trim(), scope, last_day: lastDay });
      this.making = null;
    });
  }

  end(id) {
    return this.change(async () => {
      await request('DELETE', `/tokens/${encodeURIComponent(id)}`);
      this.ending = null;
    });
  }

  moment(at) {
    return momentText(onClock(at, this.zone));
  }

  fill(name, value) {
    this.making = { ...this.making, [name]: value };
    this.requestUpdate();
  }

  form() {
    const told = texts.tokens;
    return html`<form class="block asked-now" @submit=${(event) => {
      event.preventDefault();
      this.make();
    }}><h2>${told.make}</h2>
      <label class="written"><span>${told.name}</span><input type="text" name="name" maxlength="80"
        autocomplete="off" @input=${(event) => this.fill('name', event.target.value)}></label>
      <fieldset class="group"><legend>${told.scope}</legend><div class="choices across-2">
        ${Object.entries(told.scopes).map(([scope, [label, help]]) => html`<label class="choice">
          <input type="radio" name="scope" value=${scope} .checked=${this.making.scope === scope}
            @change=${() => this.fill('scope', scope)}>
          <span class="choice-face"><b>${label}</b><small>${help}</small></span></label>`)}
      </div></fieldset>
      <label class="written"><span>${told.lastDay}</span>
        <small class="quiet help">${told.lastDayHelp}</small>
        <input type="date" name="last_day"
          @input=${(event) => this.fill('last_day', event.target.value)}></label>
      ${alertLine(this.fault)}
      <div class="links"><button class="button" type="button" @click=${() => this.turn({})}>
        ${texts.kept.leave}</button>
      <button class="button primary" type="submit" ?disabled=${this.busy}>${told.save}</button></div>
    </form>`;
  }

  makingPart() {
    const told = texts.tokens;
    if (this.made) {
      return html`<section class="block"><h2>${this.made.name}</h2><p>${told.secret}</p>
        <p class="address secret">${this.made.secret}</p>
        <button class="button" @click=${() => this.turn({})}>${told.copied}</button></section>`;
    }
    if (this.making) return this.form();
    return html`<p><button class="button primary" @click=${() => this.turn({ making: {} })}>
      ${told.make}</button></p>`;
  }

  acts({ id, name, isOver }) {
    const told = texts.tokens;
    if (isOver) return nothing;
    if (this.ending !== id) {
      return html`<button class="button" @click=${() => this.turn({ ending: id })}>${told.end}</button>`;
    }
    return html`<p class="heed">${told.ends(name)}</p>${alertLine(this.fault)}
      <div class="links"><button class="button" @click=${() => this.turn({})}>
        ${texts.kept.leave}</button>
      <button class="button primary" ?disabled=${this.busy} @click=${() => this.end(id)}>
        ${told.endNow(name)}</button></div>`;
  }

  token(one) {
    const told = texts.tokens;
    const over = one.ended_at ?? (Date.parse(one.ends_at) <= Date.now() ? one.ends_at : null);
    return html`<li class="note account" data-token=${one.id}><h2>${one.name}</h2>
      <p>${told.scopes[one.scope][0]}. ${told.made(this.moment(one.made_at), personName(one.made_by))}
        ${one.last_used_at ? told.used(this.moment(one.last_used_at)) : told.unused}</p>
      <p>${over ? html`<b>${told.over(this.moment(over))}</b>` : told.until(lastDay(one.ends_at, (at) => onClock(at, this.zone)))}</p>
      ${this.acts({ ...one, isOver: Boolean(over) })}</li>`;
  }

  render() {
    const told = texts.tokens;
    if (!mayEnter(store.state.session)) return html`<h1 tabindex="-1">${told.title}</h1>`;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead}</p>
      ${this.makingPart()}
      ${this.tokens.length ? nothing : html`<p>${told.none}</p>`}
      <ul class="due accounts">${this.tokens.map((one) => this.token(one))}</ul>`;
  }
}

customElements.define('bw-tokens', Tokens);
