// People who sign in: a manager adds them, sets a new PIN, and ends or gives back their access. Below
// stand the changes that were made and the sign-ins that were refused.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, post, put, request } from './api.js';
import { dayAhead, inspectionForm, inspectionText } from './inspection-part.js';
import { mayEnter, refreshPeople } from './session.js';
import { momentText } from './time.js';
import { onClock, workshopZone } from './zone.js';
import { store } from './store.js';
import { texts } from '../texts.js';

const kShown = 10; // of each list until more are asked for

class People extends Screen {
  static needsSession = true;

  asking = null; // what is being filled in: {what: 'add' | 'pin' | 'active', id, …values}

  fault = '';

  done = '';

  all = {}; // lists that are shown whole

  fetch() {
    if (!mayEnter(store.state.session)) return null;
    return this.load(async () => {
      [this.accounts, this.zone] = await Promise.all([get('/people/accounts'), workshopZone()]);
    });
  }

  ask(asking) {
    Object.assign(this, { asking, fault: '', done: '' });
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('.asked-now input')?.focus());
  }

  nameOf(id) {
    return this.accounts.people.find((person) => person.id === id)?.name
      || (texts.accounts.others[id] ?? texts.people.unknown(id));
  }

  /** Sends a change, says what was done, and shows the lists as they are then. */
  send(work, done) {
    return this.once(async () => {
      this.fault = '';
      try {
        await work();
        await Promise.all([this.fetch(), refreshPeople()]);
        Object.assign(this, { asking: null, done });
      } catch (error) {
        const said = error.errors?.map(({ detail }) => texts.problem.sentence(detail)).join(' ');
        this.fault = said || errorText(error);
      }
    });
  }

  save() {
    const { what, id, name, role, pin, again, active } = this.asking;
    const told = texts.accounts;
    if (what === 'inspection') {
      if (!this.asking.scope) return this.refuse(texts.inspection.chooseScope);
      const { first_day: first, last_day: last, scope } = this.asking;
      return this.send(() => put(`/people/${id}/inspection`, { first_day: first, last_day: last, scope }),
        texts.inspection.done(this.nameOf(id)));
    }
    if (what === 'no-inspection') {
      return this.send(() => request('DELETE', `/people/${id}/inspection`),
        texts.inspection.ended(this.nameOf(id)));
    }
    if (what === 'active') {
      const done = (active ? told.activated : told.deactivated)(this.nameOf(id));
      return this.send(() => put(`/people/${id}/active`, { active }), done);
    }
    if (pin !== again) return this.refuse(texts.setup.pinDiffers);
    if (what === 'pin') {
      return this.send(() => put(`/people/${id}/pin`, { pin: pin ?? '' }), told.newPin(this.nameOf(id)));
    }
    if (!role) return this.refuse(told.chooseRole);
    return this.send(() => post('/people', { name: name ?? '', role, pin: pin ?? '' }),
      (role === 'inspector' ? told.addedInspector : told.added)(name));
  }

  refuse(fault) {
    this.fault = fault;
    this.requestUpdate();
    return null;
  }

  fill(name, value) {
    this.asking = { ...this.asking, [name]: value };
    this.requestUpdate();
  }

  input(name, label, type = 'text') {
    return html`<label class="written"><span>${label}</span>
      <input type=${type} name=${name} autocomplete=${type === 'password' ? 'new-password' : 'off'}
        inputmode=${type === 'password' ? 'numeric' : nothing} maxlength="80"
        @input=${(event) => this.fill(name, event.target.value)}></label>`;
  }

  pins() {
    return html`${this.input('pin', texts.setup.pin, 'password')}
      ${this.input('again', texts.setup.pinAgain, 'password')}`;
  }

  roles() {
    return html`<fieldset class="group"><legend>${texts.accounts.role}</legend>
      <div class="choices across-3">${Object.entries(texts.roles).map(([role, label]) => html`
        <label class="choice"><input type="radio" name="role" value=${role}
          .checked=${this.asking.role === role} @change=${() => this.fill('role', role)}>
          <span class="choice-face"><b>${label}</b><small>${texts.accounts.roles[role]}</small></span>
        </label>`)}</div></fieldset>`;
  }

  /** The part in which something is filled in, with its two buttons. */
  asked(fields, save) {
    return html`<form class="asked-now" @submit=${(event) => {
      event.preventDefault();
      this.save();
    }}>${fields}${alertLine(this.fault)}
      <div class="links"><button class="button" type="button" @click=${() => this.ask(null)}>
        ${texts.kept.leave}</button>
      <button class="button primary" type="submit" ?disabled=${this.busy}>${save}</button></div>
    </form>`;
  }

  /** What of an inspector's access is being asked, if anything. */
  inspectionAsked(what, name) {
    const told = texts.inspection;
    if (what === 'no-inspection') {
      return this.asked(html`<p class="heed">${told.ends(name)}</p>`, told.endNow(name));
    }
    const form = inspectionForm(this.asking, (field, value) => this.fill(field, value));
    return this.asked(html`${this.asking.given ? html`<p class="heed">${told.replaces(name)}</p>` : nothing}
      ${form}`, told.save(name));
  }

  inspectionActs({ id, role, active, inspection }) {
    if (role !== 'inspector' || !active) return nothing;
    const told = texts.inspection;
    return html`<button class="button" @click=${() => this.ask({ what: 'inspection', id,
      first_day: dayAhead(0), last_day: dayAhead(6), scope: '', given: Boolean(inspection) })}>
        ${told.give}</button>
      ${inspection ? html`<button class="button"
        @click=${() => this.ask({ what: 'no-inspection', id })}>${told.end}</button>` : nothing}`;
  }

  acts(person) {
    const { id, name, active } = person;
    const told = texts.accounts;
    const { what, id: asked } = this.asking ?? {};
    if (asked === id && what?.endsWith('inspection')) return this.inspectionAsked(what, name);
    if (asked === id && what === 'pin') {
      return this.asked(html`<p class="heed">${told.pinEnds(name)}</p>${this.pins()}`, told.setPin(name));
    }
    if (asked === id) {
      return this.asked(html`<p class="heed">${active ? told.ends(name) : told.givesBack(name)}</p>`,
        active ? told.deactivate(name) : told.activate(name));
    }
    return html`<div class="links">
      ${active ? html`<button class="button" @click=${() => this.ask({ what: 'pin', id })}>
        ${told.pin}</button>` : nothing}
      <button class="button" @click=${() => this.ask({ what: 'active', id, active: !active })}>
        ${active ? told.end : told.giveBack}</button>${this.inspectionActs(person)}</div>`;
  }

  person(one) {
    return html`<li class="note account" data-account=${one.id}><h2>${
      one.name || texts.people.unknown(one.id)}</h2>
      <p>${[texts.roles[one.role], one.active ? '' : texts.accounts.inactive].filter(Boolean)
    .join(' · ')}</p>
      ${one.role === 'inspector' && one.active ? html`<p>${inspectionText(one.inspection,
    (at) => onClock(at, this.zone))}</p>` : nothing}${one.name ? this.acts(one)
    : html`<p>${texts.accounts.nameless}</p>`}</li>`;
  }

  adding() {
    const told = texts.accounts;
    if (this.asking?.what !== 'add') {
      return html`<p><button class="button primary" @click=${() => this.ask({ what: 'add' })}>
        ${told.add}</button></p>`;
    }
    return html`<section class="block"><h2>${told.add}</h2>
      ${this.asked(html`${this.input('name', told.name)}${this.roles()}${this.pins()}`, told.save)}
    </section>`;
  }

  moment(at) {
    return momentText(onClock(at, this.zone));
  }

  change({ at, by, person, what, device }) {
    const told = texts.accounts;
    const say = told.changes[what] ?? told.otherChange;
    return [this.moment(at), say(this.nameOf(person), device ?? '', what), told.by(this.nameOf(by))]
      .join(' · ');
  }

  refusal({ at, person, reason, address }) {
    const told = texts.accounts;
    return [this.moment(at), person ? this.nameOf(person) : told.nobody,
      told.reasons[reason] ?? reason, address && told.from(address)].filter(Boolean).join(' · ');
  }

  list(name, lines) {
    const told = texts.accounts[name];
    const newest = [...lines].sort((a, b) => Date.parse(b.at) - Date.parse(a.at));
    const shown = this.all[name] ? newest : newest.slice(0, kShown);
    return html`<section data-list=${name}><h2>${told.title}</h2>
      ${lines.length ? nothing : html`<p>${told.none}</p>`}
      <ol class="plain-list">${shown.map((line) => html`<li>${name === 'changed' ? this.change(line)
    : this.refusal(line)}</li>`)}</ol>
      ${shown.length < lines.length ? html`<button class="button" @click=${() => {
    this.all = { ...this.all, [name]: true };
    this.requestUpdate();
  }}>${told.more(lines.length - shown.length)}</button>` : nothing}</section>`;
  }

  render() {
    const told = texts.accounts;
    if (!mayEnter(store.state.session)) {
      return html`<h1 tabindex="-1">${told.title}</h1><p>${told.managersOnly}</p>`;
    }
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    const { people, changes, refusals } = this.accounts;
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead}</p>
      ${this.done ? html`<p class="note" role="status">${this.done}</p>` : nothing}
      ${this.adding()}
      <ul class="due accounts">${people.map((one) => this.person(one))}</ul>
      ${this.list('changed', changes)}
      ${this.list('refused', refusals)}`;
  }
}

customElements.define('bw-people', People);
