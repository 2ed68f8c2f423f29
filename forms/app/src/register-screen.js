// The register: which things of each class there are, and what it has of one of them. A manager adds,
// changes and retires from here, so that nobody has to know an id.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { get } from './api.js';
import { canAsk } from './draft.js';
import { thingName } from './form-data.js';
import { mayEnter } from './session.js';
import { sheetLinks, sheetsOfThing } from './sheets.js';
import { namesFor, valueLines } from './shown-value.js';
import { store } from './store.js';
import { thingsOf } from './within.js';
import { texts } from '../texts.js';

const kSingle = 'workshop'; // a book has one

function link(path, text, primary = false) {
  return html`<a class="button ${primary ? 'primary' : ''}" href="#/${path}">${text}</a>`;
}

const thingPath = ({ class: name, id }) => `${name}/${encodeURIComponent(id)}`;

class Register extends Screen {
  static needsSession = true;

  fetch() {
    const [thingClass, ...rest] = this.address.split('/');
    Object.assign(this, { thingClass, subject: rest.join('/') });
    return this.load(async () => {
      this.form = await get('/forms/register-change');
      this.kinds = this.form.fields.find(({ name }) => name === 'thing_class').options;
      if (this.subject) await this.fetchThing();
      else await this.fetchLists();
    });
  }

  async fetchLists() {
    const codes = this.thingClass ? [this.thingClass] : this.kinds.map(({ code }) => code);
    const lists = await Promise.all(codes.map(thingsOf));
    this.lists = Object.fromEntries(codes.map((code, index) => [code, lists[index] ?? []]));
    this.kinds = this.kinds.filter(({ code }) => lists[codes.indexOf(code)] !== null);
  }

  async fetchThing() {
    const { thingClass, subject } = this;
    this.thing = await get(`/register/${thingClass}/${encodeURIComponent(subject)}`);
    this.names = await namesFor([this.form, this.thing.attributes]);
  }

  classLabel() {
    return this.kinds.find(({ code }) => code === this.thingClass)?.label ?? '';
  }

  kindList() {
    return html`<h1 tabindex="-1">${texts.register.title}</h1>
      <p>${texts.register.lead}</p>
      <ul class="people">${this.kinds.map(({ code, label }) => html`<li>
        <a class="button person" href="#/register/${code}"><b>${label}</b>
          <span>${texts.register.count(this.lists[code].filter((one) => !one.retired).length)}</span>
        </a></li>`)}</ul>
      ${mayEnter(store.state.session) ? html`<p>${link('import', texts.home.import)}</p>` : nothing}`;
  }

  addButton() {
    const { thingClass } = this;
    const full = thingClass === kSingle && this.lists[kSingle].length > 0;
    if (!mayEnter(store.state.session) || full) return nothing;
    return html`<p>${link(`record/register-change/added/${thingClass}`, texts.register.add, true)}</p>`;
  }

  thingItem(thing) {
    const shown = thing.class === 'person' ? '' : thing.id;
    const state = thing.retired ? texts.cylinders.retired
      : (thing.in_service === false ? texts.cylinders.outOfService : '');
    return html`<li><a class="button person" href="#/register/${thingPath(thing)}">
      <b>${thingName(thing)}</b><span>${[shown, state].filter(Boolean).join(' · ')}</span></a></li>`;
  }

  thingList() {
    const things = this.lists[this.thingClass];
    return html`<h1 tabindex="-1">${this.classLabel()}</h1>
      ${this.addButton()}
      ${things.length ? nothing : html`<p>${texts.register.none}</p>`}
      <ul class="people">${things.map((thing) => this.thingItem(thing))}</ul>
      <p>${link('register', texts.register.all)}</p>`;
  }

  acts() {
    const path = (act) => `record/register-change/${act}/${thingPath(this.thing)}`;
    if (this.thing.retired) return html`<p>${texts.register.retired}</p>`;
    if (!mayEnter(store.state.session)) return nothing;
    return html`<div class="links">${link(path('changed'), texts.register.change, true)}
      ${this.thingClass === kSingle ? nothing : link(path('retired'), texts.register.retire)}</div>`;
  }

  fact(field) {
    const lines = valueLines(field, this.thing.attributes, this.names);
    return html`<div><dt>${field.label}</dt>${lines.map((line) => html`<dd>${line}</dd>`)}</div>`;
  }

  thingPage() {
    const { attributes } = this.thing;
    const applying = this.form.fields.filter(({ name }) => name in attributes);
    const current = applying.filter(canAsk);
    return html`<h1 tabindex="-1">${thingName(this.thing)}</h1>
      <p class="quiet">${this.classLabel()}${this.thingClass === 'person' ? nothing
  : html` · ${this.thing.id}`}</p>
      ${this.acts()}
      ${this.thing.retired ? nothing : sheetLinks(sheetsOfThing(this.thing))}
      ${current.length ? html`<dl class="facts note">${current.map((field) => this.fact(field))}</dl>`
    : html`<p>${texts.register.nothing}</p>`}
      <p>${link(`register/${this.thingClass}`, texts.register.back)}</p>`;
  }

  render() {
    if (!this.loaded) return this.waiting(texts.register.title, () => this.fetch());
    if (this.subject) return this.thingPage();
    return this.thingClass ? this.thingList() : this.kindList();
  }
}

customElements.define('bw-register', Register);
