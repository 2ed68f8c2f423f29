// The gas cylinders, and the checks of one of them in order, with corrections beside originals.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { checkRow } from './check-row.js';
import { get } from './api.js';
import { reportLinks } from './report-screen.js';
import { thingName } from './form-data.js';
import { texts } from '../texts.js';

function state(thing) {
  if (thing.retired) return texts.cylinders.retired;
  return thing.in_service === false ? texts.cylinders.outOfService : '';
}

class Cylinders extends Screen {
  static needsSession = true;

  things = [];

  connectedCallback() {
    super.connectedCallback();
    this.fetch();
  }

  fetch() {
    return this.load(async () => {
      this.things = (await get('/register/cylinder')).things;
    });
  }

  render() {
    if (!this.loaded) return this.waiting(texts.cylinders.title, () => this.fetch());
    return html`<h1 tabindex="-1">${texts.cylinders.title}</h1>
      ${this.things.length ? nothing : html`<p>${texts.cylinders.none}</p>`}
      <ul class="people">${this.things.map((thing) => html`<li>
        <a class="button person" href=${`#/cylinders/${encodeURIComponent(thing.id)}`}>
          <b>${thingName(thing)}</b><span>${[thing.id, state(thing)].filter(Boolean).join(' · ')}
          </span></a></li>`)}</ul>`;
  }
}

class Cylinder extends Screen {
  static needsSession = true;

  connectedCallback() {
    super.connectedCallback();
    this.fetch();
  }

  fetch() {
    return this.load(async () => {
      const path = `/history/cylinders/${encodeURIComponent(this.cylinder)}`;
      [this.history, this.form] = await Promise.all([get(path), get('/forms/cylinder-check')]);
    });
  }

  render() {
    if (!this.loaded) {
      return this.waiting(texts.cylinders.history(this.cylinder), () => this.fetch());
    }
    const { subject, checks } = this.history;
    const query = `subject=${encodeURIComponent(this.cylinder)}`;
    return html`<h1 tabindex="-1">${texts.cylinders.history(thingName(subject))}</h1>
      <h2>${texts.cylinders.papers}</h2>
      ${reportLinks('cylinder-history', query, 'a4')}
      ${checks.length ? nothing : html`<p>${texts.cylinders.noChecks}</p>`}
      <ol class="checks">${checks.map((check) => checkRow(check, this.form))}</ol>
      <p><a class="button" href="#/cylinders">${texts.cylinders.list}</a></p>`;
  }
}

customElements.define('bw-cylinders', Cylinders);
customElements.define('bw-cylinder', Cylinder);
