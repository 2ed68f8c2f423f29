// One form as a page: choices left and right, the keypad in the middle, one button that records.
import { html, nothing } from 'lit';
import { alertLine, errorText } from './screen.js';
import { Refusal, get, sendFile } from './api.js';
import { filesPage, kFileBytesMax } from './attachments.js';
import { TypedKeys } from './keypad.js';
import { finished, isDecimal } from './decimal.js';
import { carried, echo } from './units.js';
import {
  draftOf, filesOf, located, missing, pageFields, sortFaults, submission, unfinishedLists,
  unitIn, unitSaid, withFiles, withoutSame,
} from './draft.js';
import {
  beginning, begunWith, differing, emptied, named, opened,
} from './beginnings.js';
import { formData, thingName } from './form-data.js';
import { optionsOf } from './form-parts.js';
import { Dip } from './dip.js';
import { formPage } from './form-page.js';
import { FormPages } from './form-pages.js';
import { pointsPage } from './points-page.js';
import { listPage, rowPage } from './row-editor.js';
import { endScan, offerScan, scanPage } from './scan-page.js';
import { cautionsPage, confirmPage, resumePage } from './entry-pages.js';
import {
  draftAt, dropDraft, forgetDraft, keepDraft, leaveDraft, letGo, onDraft, wasLeft,
} from './drafts.js';
import { earlierPage, happenedAt, withMoment } from './earlier.js';
import { go, route } from './route.js';
import { mayRecord } from './session.js';
import { pressed } from './keys.js';
import { record } from './record.js';
import { mayMend, rowAt } from './outbox.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import { withDays, withOffset } from './time.js';
import { texts } from '../texts.js';

export class Entry extends FormPages {
  static needsSession = true;

  page = 'main'; // main, more, list, row, cautions, files, scan, earlier, confirm, resume

  values = {};

  mends = null; // the `order` of a row of the outbox that needs attention

  mending = null; // that row as it was when the page was opened

  preset = {}; // what the address gives, not asked for

  thing = null; // of the register, that is changed or retired

  standing = {}; // what the register has of it, as a draft has it

  faults = {}; // by field name

  fault = ''; // about the whole entry

  fileFault = ''; // about the file that was added last

  begunBy = null; // the thing that the address names, to be chosen in the form

  given = {}; // that choice

  scan = {}; // what became of a label: see scan-page.js

  others = {}; // by field name: the number of the option that is shown first

  dip = new Dip(() => this.requestUpdate()); // the volume that follows from a height

  active = null; // the quantity the keypad turns to

  replace = false; // the next digit replaces an offered value

  keys = new TypedKeys(this, (name) => this.press(name));

  followDraft = (key) => this.followed(key);

  connectedCallback() {
    super.connectedCallback();
    onDraft(this.followDraft);
  }

  /** A draft is kept when the form is left. After a session that ended half-way and a look at the
   *  emergency page it goes on; otherwise it is offered, so that no finding is chosen beforehand. */
  disconnectedCallback() {
    letGo(this.followDraft);
    endScan();
    if (store.state.session && route().name !== 'emergency') leaveDraft(this.draftKey);
    super.disconnectedCallback();
  }

  fetch() {
    if (this.mends !== null) return this.load(() => this.mend());
    return this.load(() => this.fetchForm());
  }

  async fetchForm() {
    const { person } = store.state.session;
    Object.assign(this, opened(this.address));
    if (this.kind === 'register-change' && !this.preset.act) return go('register');
    this.draftKey = `${person}/${this.mending ? `mend/${this.mends}` : this.address}`;
    Object.assign(this, await formData(this.kind, person, this.preset));
    if (this.begunBy) Object.assign(this, begunWith(this.form, this.things, this.begunBy));
    await this.fetchThing();
    if (this.isConnected) offerScan(this);
    return this.begin();
  }

  /** Opens what the daemon refused when nobody looked: its values, and what spoke against them. */
  async mend() {
    this.mending = await rowAt(this.mends);
    if (!mayMend(this.mending)) return go('outbox');
    const { about, status, problem } = this.mending;
    this.address = about.address;
    await this.fetchForm();
    return this.refused(new Refusal(status, problem));
  }

  /** What the register has of the thing that is changed or retired. */
  async fetchThing() {
    const { act, thing_class: thingClass, thing } = this.preset;
    if (!thing) return;
    this.thing = await get(`/register/${thingClass}/${encodeURIComponent(thing)}`);
    if (act === 'changed') this.standing = draftOf(this.form.fields, this.thing.attributes);
  }

  begin() {
    const draft = draftAt(this.draftKey);
    this.values = draft ?? this.startValues();
    this.turnTo(draft && wasLeft(this.draftKey) && !this.mending ? 'resume' : 'main');
  }

  /** The draft was changed or recorded in another window: what it was is not recorded once more. */
  followed(key) {
    if (key !== this.draftKey || !this.loaded || this.busy) return;
    Object.assign(this, { attempt: null, faults: {}, fault: '' });
    this.begin();
  }

  startValues() {
    if (this.mending) return withMoment(this.mending.draft, this.mending.body.occurred_at);
    const { form, things, recent, last } = this;
    return { ...beginning(form, things, recent, last), ...this.standing, ...this.given,
      ...this.preset };
  }

  startAnew() {
    dropDraft(this.draftKey);
    this.values = this.startValues();
    this.turnTo('main');
  }

  /** What the form is about: its own title, or a thing of the register with what is done. */
  title() {
    const { act, thing_class: thingClass } = this.preset;
    if (!act) return this.form.title;
    const label = this.labelOf('thing_class', thingClass);
    return texts.register.titles[act](label, this.thing ? thingName(this.thing) : '');
  }

  labelOf(name, code) {
    return this.field(name).options.find((option) => option.code === code)?.label ?? code;
  }

  turnTo(page, step = 0) {
    this.page = page;
    this.step = step;
    this.fileFault = '';
    this.active = null;
    this.replace = false;
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('h1')?.focus({ preventScroll: true }));
  }

  /** What the address gives is not asked for, nor what cannot change once it was entered. */
  fields(page) {
    return pageFields(this.form, this.values, page, this.standing)
      .filter((field) => !(field.name in this.preset) && !(this.thing && field.fixed));
  }

  /** The number the keypad is turned to: the one that was tapped, as long as it is asked for. */
  number() {
    const inRow = ['row', 'points'].includes(this.page);
    const fields = inRow ? this.field(this.list).columns : this.stepFields();
    const numbers = fields.filter((field) => field.type === 'quantity');
    return numbers.find((field) => field.name === this.active) ?? numbers[0] ?? null;
  }

  /** A field of the form, or a column of one of its lists by "loads/0/volume_ml". */
  located(path) {
    return located(this.form, this.values, path);
  }

  field(name) {
    return this.form.fields.find((field) => field.name === name);
  }

  set(name, value) {
    this.faults = { ...this.faults, [name]: '' };
    const before = this.values[name];
    const values = withoutSame(this.form, { ...this.values, [name]: value }, name);
    const code = this.field(name).type === 'code';
    this.change(code ? named(this.form, this.things, this.recent, values) : values);
    this.dip.follow(this.form, this.values);
    this.turnWhenDone(name, before);
  }

  /** Goes on in another unit: the same amount where it can be written in it, else none. */
  turnUnit(field, unit) {
    const inRow = ['row', 'points'].includes(this.page);
    const values = inRow ? this.cells() : this.values;
    const text = finished(values[field.name] ?? '');
    const after = isDecimal(text) ? carried(text, unitIn(values, field), unit) : '';
    const changed = { ...values, ...unitSaid(field.name, unit), [field.name]: after };
    if (inRow) this.setRow(changed);
    else this.change(changed);
    this.dip.follow(this.form, this.values);
  }

  change(values) {
    this.values = values;
    this.attempt = null;
    keepDraft(this.draftKey, values);
    this.requestUpdate();
  }

  /** Sends the chosen file in; what it is named on the tablet stays on the tablet. */
  addFile(input) {
    const [file] = input.files;
    return this.once(async () => {
      this.fileFault = file.size > kFileBytesMax ? texts.files.tooLarge(file.name) : '';
      if (this.fileFault) return;
      try {
        const sent = await sendFile(file);
        const others = filesOf(this.values).filter(({ digest }) => digest !== sent.digest);
        this.change(withFiles(this.values, [...others, { ...sent, name: file.name }]));
      } catch (error) {
        this.fileFault = errorText(error);
      }
    });
  }

  dropFile(file) {
    this.change(withFiles(this.values, filesOf(this.values).filter((one) => one !== file)));
  }

  press(key) {
    if (!this.loaded || !['main', 'more', 'row', 'points'].includes(this.page)) return;
    const name = this.number()?.name;
    if (!name || this.busy) return;
    const inRow = ['row', 'points'].includes(this.page);
    const standing = (inRow ? this.cells() : this.values)[name];
    const before = this.replace && key !== 'back' && key !== 'sign' ? '' : standing;
    this.replace = false;
    const after = pressed(before ?? '', key);
    if (inRow) this.setCell(name, after);
    else this.set(name, after);
  }

  /** Takes an amount that was offered: {text, unit}. */
  offer(name, { text, unit }) {
    this.active = name;
    this.values = { ...this.values, ...unitSaid(name, unit) };
    this.set(name, text);
    this.replace = true;
  }

  demand() {
    const demand = { quantity: texts.entry.enter, text: texts.entry.write, list: texts.rows.needed };
    for (const name of missing(this.form, this.values)) {
      this.faults[name] = demand[this.field(name).type] ?? texts.entry.choose;
    }
    for (const name of unfinishedLists(this.form, this.values)) {
      this.faults[name] = texts.rows.someUnfinished;
    }
    for (const name of emptied(this.form, this.values, this.standing)) {
      this.faults[name] = texts.register.cannotEmpty;
    }
    return Object.values(this.faults).some(Boolean);
  }

  /** One try to record: the id stays while the same values are sent. */
  newAttempt() {
    const occurredAt = happenedAt(this.values) || withOffset(new Date());
    return { id: uuid7(), occurredAt, confirmed: [] };
  }

  /** What is sent: of a change of the register only what differs. */
  body() {
    const given = { ...differing(this.values, this.standing), ...this.preset };
    return submission(this.form, given, this.attempt);
  }

  save() {
    this.faults = {};
    this.fault = '';
    if (this.demand()) {
      this.turnToField((name) => this.faults[name]);
      return;
    }
    this.record();
  }

  confirm() {
    this.attempt ??= this.newAttempt();
    this.attempt.confirmed = [...new Set([...this.attempt.confirmed, ...this.asked])];
    return this.record();
  }

  record() {
    this.attempt ??= this.newAttempt();
    return this.send(this.body());
  }

  send(body) {
    return this.once(async () => {
      try {
        const { draftKey, values: draft } = this;
        forgetDraft(draftKey);
        await record(body, this.about(), this, { draft, draftKey, replaces: this.mends });
        if (this.isConnected) this.leave();
      } catch (error) {
        if (error.kept && !this.isConnected) return; // told where it needs attention
        keepDraft(this.draftKey, this.values);
        this.refused(error);
      }
    });
  }

  refused(error) {
    const { byField, confirm, general } = sortFaults(error.errors ?? []);
    const hidden = Object.keys(byField).filter((name) => !this.fields('main')
      .concat(this.fields('more')).some((field) => field.name === name.split('/')[0]));
    this.faults = byField;
    this.asked = [...new Set(confirm.map(({ name }) => name))];
    this.details = confirm.map(({ detail }) => withDays(detail));
    const told = Object.keys(byField).length || confirm.length;
    this.fault = [...general, ...hidden.map((name) => byField[name])].join(' ')
      || (told ? '' : errorText(error));
    const onlyAsked = confirm.length && !Object.keys(byField).length && !general.length;
    if (onlyAsked) this.turnTo('confirm');
    else this.turnToField((name) => byField[name]);
  }

  /** What the bar says about this entry, and whose level it shows. */
  about() {
    const given = this.form.fields.filter((field) => this.values[field.name]
      && !(field.name in this.preset));
    const number = given.find((field) => field.type === 'quantity');
    const thing = given.find((field) => field.type === 'id');
    const name = thing && optionsOf(thing, this.things)
      .find(({ value }) => value === this.values[thing.name])?.label;
    const value = number && echo(finished(this.values[number.name]), number.unit,
      unitIn(this.values, number));
    const line = [value, name].filter(Boolean).join(' · ');
    return { title: this.title(), line: this.preset.act || !line ? this.title() : line,
      address: this.address,
      container: thing?.thing_class === 'container' ? this.values[thing.name] : null };
  }

  leave() {
    dropDraft(this.draftKey);
    if (this.mending) return go('outbox');
    return go(this.preset.act ? `register/${this.preset.thing_class}` : '');
  }

  render() {
    const { session } = store.state;
    if (!mayRecord(session)) {
      return html`<h1 tabindex="-1">${texts.entry.cannotRecord}</h1>
        <a class="button" href="#/">${texts.entry.leave}</a>`;
    }
    if (!this.loaded) return this.waiting(texts.home.title, () => this.fetch());
    if (this.page === 'resume') return resumePage(this);
    if (this.page === 'list') return listPage(this);
    if (this.page === 'row') return rowPage(this);
    if (this.page === 'points') return pointsPage(this);
    if (this.page === 'cautions') return cautionsPage(this);
    if (this.page === 'files') return filesPage(this);
    if (this.page === 'scan') return scanPage(this);
    if (this.page === 'earlier') return earlierPage(this);
    if (this.page === 'confirm') return confirmPage(this, session);
    return html`${this.fault ? alertLine(this.fault) : nothing}${formPage(this, session)}`;
  }
}

customElements.define('bw-entry', Entry);
