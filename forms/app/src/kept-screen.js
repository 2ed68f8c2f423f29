// How long records are kept and by what, and the holds that stop any purge: for managers, who place
// and lift them, and for inspectors.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get } from './api.js';
import { applies, sortFaults } from './draft.js';
import { entryLink, entryLinks } from './entries.js';
import { sourceText } from './findings.js';
import { writtenField } from './form-parts.js';
import { dayText, withOffset } from './time.js';
import { submit } from './outbox.js';
import { mayReport } from './session.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import { texts } from '../texts.js';

/** [[until, numbers]]: entries of a rule by the day until which they are kept. */
function byDay(entries) {
  const days = new Map();
  for (const { entry, until } of entries) days.set(until, [...(days.get(until) ?? []), entry]);
  return [...days];
}

class Kept extends Screen {
  static needsSession = true;

  values = {};

  faults = {};

  fault = '';

  placing = false;

  lifting = null; // the entry of the hold that is to be lifted

  fetch() {
    return this.load(async () => {
      [this.kept, this.form] = await Promise.all([get('/retention'), get('/forms/hold')]);
    });
  }

  set(name, value) {
    this.values = { ...this.values, [name]: value };
    this.faults = { ...this.faults, [name]: '' };
    this.entryId = null;
    this.requestUpdate();
  }

  turn(change) {
    Object.assign(this, { placing: false, lifting: null, values: {}, faults: {}, fault: '',
      entryId: null }, change);
    this.requestUpdate();
  }

  /** Records a hold as placed or lifted; what is sent again keeps its id. */
  record(values) {
    const asked = this.form.fields.filter((field) => applies(field, values));
    const fields = Object.fromEntries(asked.filter(({ name }) => values[name]?.trim())
      .map(({ name }) => [name, values[name].trim()]));
    this.entryId ??= uuid7();
    return this.once(async () => {
      try {
        await submit({ id: this.entryId, kind: 'hold', occurred_at: withOffset(new Date()), fields },
          { title: this.form.title, line: values.authority ?? '', page: 'kept' }, this);
        this.turn({});
        await this.fetch();
      } catch (error) {
        const { byField, general } = sortFaults(error.errors ?? []);
        this.faults = byField;
        this.fault = general.join(' ') || (Object.keys(byField).length ? '' : errorText(error));
      }
    });
  }

  written(given) {
    const parts = { values: this.values, faults: this.faults,
      onSet: (name, value) => this.set(name, value) };
    return this.form.fields.filter((field) => field.type === 'text' && applies(field, given)
      && !(field.name in given)).map((field) => writtenField(field, parts));
  }

  /** The part in which a hold is placed, or one that stands is lifted. */
  asked(given, save) {
    const { session } = store.state;
    const others = Object.keys(given).map((name) => this.faults[name]).filter(Boolean);
    return html`${this.written(given)}
      ${alertLine([this.fault, ...others].filter(Boolean).join(' '))}
      <div class="links"><button class="button" @click=${() => this.turn({})}>
        ${texts.kept.leave}</button>
      <button class="button primary" ?disabled=${this.busy}
        @click=${() => this.record({ ...this.values, ...given })}>${save(session.name)}</button>
      </div>`;
  }

  acts(hold) {
    if (store.state.session.role !== 'manager') return nothing;
    if (this.lifting !== hold.entry) {
      return html`<button class="button" @click=${() => this.turn({ lifting: hold.entry })}>
        ${texts.kept.lift}</button>`;
    }
    const { authority, scope } = hold;
    return html`<p class="heed">${texts.kept.liftCaution}</p>
      ${this.asked({ hold: 'lifted', authority, scope }, texts.kept.liftAs)}`;
  }

  hold(one) {
    return html`<li class="note handover" data-hold=${one.entry}><h3>${one.authority}</h3>
      <p>${one.scope}</p><div class="links">${entryLink(one.entry)}
      ${this.lifting === one.entry ? nothing : this.acts(one)}</div>
      ${this.lifting === one.entry ? this.acts(one) : nothing}</li>`;
  }

  place() {
    if (store.state.session.role !== 'manager') return nothing;
    if (!this.placing) {
      return html`<button class="button" @click=${() => this.turn({ placing: true })}>
        ${texts.kept.place}</button>`;
    }
    return html`<section class="block placing"><h3>${texts.kept.place}</h3>
      ${this.asked({ hold: 'placed' }, texts.kept.placeAs)}</section>`;
  }

  rule(one) {
    return html`<li class="note handover" data-kept=${one.rule}><h3>${one.says}</h3>
      <p class="quiet">${sourceText(one)}</p>
      ${byDay(one.entries).map(([until, numbers]) => entryLinks(
    until ? texts.kept.until(dayText(until)) : texts.kept.noEnd, numbers))}</li>`;
  }

  render() {
    const told = texts.kept;
    if (!mayReport(store.state.session)) return html`<h1 tabindex="-1">${told.title}</h1>`;
    if (!this.loaded) return this.waiting(told.title, () => this.fetch());
    const { holds, kept } = this.kept;
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead}</p>
      <section><h2>${told.holds}</h2>
        <p>${holds.length ? told.holdsLead : told.noHold}</p>
        <ul class="due">${holds.map((one) => this.hold(one))}</ul>
        <div class="below">${this.place()}</div></section>
      <section><h2>${told.rules}</h2>
        ${kept.length ? nothing : html`<p>${told.nothing}</p>`}
        <ul class="due">${kept.map((one) => this.rule(one))}</ul></section>`;
  }
}

customElements.define('bw-kept', Kept);
