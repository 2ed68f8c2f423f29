// One form as a page: choices left and right, the keypad in the middle, one button that records.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { NoAnswer, sendFile } from './api.js';
import { filesPage, kFileBytesMax } from './attachments.js';
import { TypedKeys } from './keypad.js';
import { finished } from './decimal.js';
import { echo } from './units.js';
import {
  filesOf, firstValues, located, missing, pageFields, rowsOf, sortFaults, submission,
  unfinishedLists, withFiles,
} from './draft.js';
import { formData } from './form-data.js';
import { optionsOf } from './form-parts.js';
import { formPage } from './form-page.js';
import { listPage, rowPage } from './row-editor.js';
import { cautionsPage, confirmPage, pendingPage } from './entry-pages.js';
import { earlierPage, happenedAt } from './earlier.js';
import { go, route } from './route.js';
import { mayRecord } from './session.js';
import { pressed } from './keys.js';
import { record } from './record.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import { withOffset } from './time.js';
import { texts } from '../texts.js';

/** One try to record: the id stays while the same values are sent. */
function newAttempt(values) {
  const occurredAt = happenedAt(values) || withOffset(new Date());
  return { id: uuid7(), occurredAt, confirmed: [] };
}

export class Entry extends Screen {
  static needsSession = true;

  page = 'main'; // main, more, list, row, cautions, files, earlier, confirm

  values = {};

  faults = {}; // by field name

  fault = ''; // about the whole entry

  fileFault = ''; // about the file that was added last

  list = ''; // the list whose rows are shown

  row = 0; // the row of it that is filled in

  active = null; // the quantity the keypad turns to

  replace = false; // the next digit replaces an offered value

  keys = new TypedKeys(this, (name) => this.press(name));

  /** A draft outlives a session that ended half-way, and a look at the emergency page; whoever
   *  leaves the form otherwise starts anew, so that no finding is chosen beforehand. */
  disconnectedCallback() {
    const away = store.state.session && route().name !== 'emergency';
    if (away && !this.pending()) delete store.state.drafts[this.draftKey];
    super.disconnectedCallback();
  }

  fetch() {
    const { person } = store.state.session;
    this.draftKey = `${person}/${this.kind}`;
    return this.load(async () => {
      Object.assign(this, await formData(this.kind, person));
      this.values = store.state.drafts[this.draftKey] ?? this.startValues();
      this.turnTo('main');
    });
  }

  /** Last values, as far as the things they name can still be chosen. */
  startValues() {
    const values = firstValues(this.form, this.last);
    for (const field of this.form.fields.filter((one) => one.name in values)) {
      const known = optionsOf(field, this.things).map(({ value }) => value);
      if (!known.includes(values[field.name])) delete values[field.name];
    }
    return values;
  }

  turnTo(page) {
    this.page = page;
    this.fileFault = '';
    const first = this.fields(page).find((field) => field.type === 'quantity');
    if (first) this.active = first.name;
    this.replace = false;
    this.requestUpdate();
    this.updateComplete.then(() => this.querySelector('h1')?.focus({ preventScroll: true }));
  }

  fields(page) {
    return pageFields(this.form, this.values, page);
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
    this.change({ ...this.values, [name]: value });
  }

  change(values) {
    this.values = values;
    this.attempt = null;
    store.state.drafts[this.draftKey] = this.values;
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

  openList(name) {
    this.list = name;
    this.turnTo('list');
  }

  /** Back to the page that has the button of the list. */
  closeList() {
    const onMain = this.fields('main').some((field) => field.name === this.list);
    this.turnTo(onMain ? 'main' : 'more');
  }

  openRow(index) {
    this.row = index;
    this.turnTo('row');
    const numbers = this.field(this.list).columns.filter(({ type }) => type === 'quantity');
    const filled = numbers.find(({ name }) => this.cells()[name]);
    this.active = (filled ?? numbers[0])?.name ?? null;
  }

  /** A row nothing was filled into is none. */
  closeRow() {
    const empty = Object.values(this.cells()).every((text) => !text);
    if (empty) this.dropRow();
    else this.turnTo('list');
  }

  dropRow() {
    const rows = rowsOf(this.values, this.field(this.list));
    this.setRows(rows.filter((_, index) => index !== this.row));
    this.turnTo('list');
  }

  /** What is filled into the row that is open. */
  cells() {
    return rowsOf(this.values, this.field(this.list))[this.row] ?? {};
  }

  setCell(name, value) {
    const rows = [...rowsOf(this.values, this.field(this.list))];
    rows[this.row] = { ...this.cells(), [name]: value };
    this.setRows(rows);
  }

  /** Faults name rows by their place, which changes with the rows. */
  setRows(rows) {
    const others = Object.entries(this.faults).filter(([name]) => name.split('/')[0] !== this.list);
    this.faults = Object.fromEntries(others);
    this.change({ ...this.values, [this.list]: rows });
  }

  press(key) {
    if (!this.loaded || !['main', 'more', 'row'].includes(this.page) || !this.active) return;
    if (this.pending() || this.busy) return;
    const inRow = this.page === 'row';
    const standing = (inRow ? this.cells() : this.values)[this.active];
    const before = this.replace && key !== 'back' && key !== 'sign' ? '' : standing;
    this.replace = false;
    const after = pressed(before ?? '', key);
    if (inRow) this.setCell(this.active, after);
    else this.set(this.active, after);
  }

  offer(name, value) {
    this.active = name;
    this.set(name, value);
    this.replace = true;
  }

  /** The entry sent without an answer, if it is this person's and of this form. */
  pending() {
    const { pending, session } = store.state;
    const mine = pending && pending.person === session.person && pending.body.kind === this.kind;
    return mine ? pending : null;
  }

  demand() {
    const demand = { quantity: texts.entry.enter, text: texts.entry.write, list: texts.rows.needed };
    for (const name of missing(this.form, this.values)) {
      this.faults[name] = demand[this.field(name).type] ?? texts.entry.choose;
    }
    for (const name of unfinishedLists(this.form, this.values)) {
      this.faults[name] = texts.rows.someUnfinished;
    }
    return Object.values(this.faults).some(Boolean);
  }

  save() {
    this.faults = {};
    this.fault = '';
    if (this.demand()) {
      const onMain = this.fields('main').some((field) => this.faults[field.name]);
      this.turnTo(onMain ? 'main' : 'more');
      return;
    }
    this.attempt ??= newAttempt(this.values);
    this.send(submission(this.form, this.values, this.attempt));
  }

  confirm() {
    this.attempt ??= newAttempt(this.values);
    this.attempt.confirmed = [...new Set([...this.attempt.confirmed, ...this.asked])];
    this.send(submission(this.form, this.values, this.attempt));
  }

  send(body, about = this.about()) {
    return this.once(async () => {
      try {
        await record(body, about);
        this.leave();
      } catch (error) {
        this.refused(error);
      }
    });
  }

  refused(error) {
    if (error instanceof NoAnswer) return;
    const { byField, confirm, general } = sortFaults(error.errors ?? []);
    const hidden = Object.keys(byField).filter((name) => !this.fields('main')
      .concat(this.fields('more')).some((field) => field.name === name.split('/')[0]));
    this.faults = byField;
    this.asked = confirm.map(({ name }) => name);
    this.details = confirm.map(({ detail }) => detail);
    const told = Object.keys(byField).length || confirm.length;
    this.fault = [...general, ...hidden.map((name) => byField[name])].join(' ')
      || (told ? '' : errorText(error));
    const onlyAsked = confirm.length && !Object.keys(byField).length && !general.length;
    const onMore = this.fields('more').some((field) => byField[field.name]);
    this.turnTo(onlyAsked ? 'confirm' : (onMore ? 'more' : 'main'));
  }

  /** What the bar says about this entry, and whose level it shows. */
  about() {
    const given = this.form.fields.filter((field) => this.values[field.name]);
    const number = given.find((field) => field.type === 'quantity');
    const thing = given.find((field) => field.type === 'id');
    const name = thing && optionsOf(thing, this.things)
      .find(({ value }) => value === this.values[thing.name])?.label;
    const value = number && echo(finished(this.values[number.name]), number.unit);
    return { line: [value, name].filter(Boolean).join(' · '),
      container: thing?.thing_class === 'container' ? this.values[thing.name] : null };
  }

  leave() {
    delete store.state.drafts[this.draftKey];
    go('');
  }

  render() {
    const { session } = store.state;
    if (!mayRecord(session)) {
      return html`<h1 tabindex="-1">${texts.entry.cannotRecord}</h1>
        <a class="button" href="#/">${texts.entry.leave}</a>`;
    }
    if (!this.loaded) return this.waiting(texts.home.title, () => this.fetch());
    const pending = this.pending();
    if (pending) return pendingPage(this, pending);
    if (this.page === 'list') return listPage(this);
    if (this.page === 'row') return rowPage(this);
    if (this.page === 'cautions') return cautionsPage(this);
    if (this.page === 'files') return filesPage(this);
    if (this.page === 'earlier') return earlierPage(this);
    if (this.page === 'confirm') return confirmPage(this, session);
    return html`${this.fault ? alertLine(this.fault) : nothing}${formPage(this, session)}`;
  }
}

customElements.define('bw-entry', Entry);
