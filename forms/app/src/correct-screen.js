// An entry corrected: its own form, filled with what stands; sent is what differs, with the reason.
import { html } from 'lit';
import { Entry } from './entry-screen.js';
import { alertLine } from './screen.js';
import { changesBetween } from './corrections.js';
import { entryByNumber, standing } from './entries.js';
import { draftOf, filesOf, unfinishedLists } from './draft.js';
import { draftAt, dropDraft } from './drafts.js';
import { formData } from './form-data.js';
import { Refusal } from './api.js';
import { mayMend, rowAt, submit } from './outbox.js';
import { refreshAfter } from './record.js';
import { go } from './route.js';
import { store } from './store.js';
import { uuid7 } from './uuid.js';
import { namesFor, valueLines } from './shown-value.js';
import { withOffset } from './time.js';
import { texts } from '../texts.js';

class Correct extends Entry {
  reason = '';

  reasonFault = '';

  saveText = texts.correct.next;

  fixedMoment = true; // a correction leaves when it happened

  fetch() {
    const { person } = store.state.session;
    this.draftKey = `${person}/correct/${this.seq}${this.mends === null ? '' : `/${this.mends}`}`;
    return this.load(async () => {
      if (this.mends !== null) this.mending = await rowAt(this.mends);
      if (this.mends !== null && !mayMend(this.mending)) return go('outbox');
      this.entry = await entryByNumber(this.seq);
      if (!this.entry) throw new Error(texts.entryPage.none(this.seq));
      this.kind = this.entry.kind;
      const stands = standing(this.entry);
      Object.assign(this, await formData(this.kind, person));
      this.kindTitle = this.form.title;
      this.form = { ...this.form, title: texts.correct.title(this.seq) };
      this.recent = []; // what stands is offered, nothing else
      this.names = await namesFor([this.form, stands]);
      this.before = draftOf(this.form.fields, stands);
      return this.begin();
    });
  }

  begin() {
    this.values = draftAt(this.draftKey) ?? this.mending?.draft ?? this.before;
    this.reason ||= this.mending?.body.reason ?? '';
    this.turnTo('main');
    if (this.mending) this.refused(new Refusal(this.mending.status, this.mending.problem));
  }

  /** What cannot be corrected is not asked. */
  fields(page) {
    return super.fields(page).filter(({ fixed }) => !fixed);
  }

  changes() {
    return changesBetween(this.form, this.before, this.values);
  }

  save() {
    this.faults = {};
    for (const name of unfinishedLists(this.form, this.values)) {
      this.faults[name] = texts.rows.someUnfinished;
    }
    const some = Object.keys(this.changes()).length > 0 || filesOf(this.values).length > 0;
    this.fault = some ? '' : texts.correct.nothing;
    if (some && !Object.keys(this.faults).length) this.turnTo('why');
    else this.requestUpdate();
  }

  write(reason) {
    this.reason = reason;
    this.reasonFault = '';
    this.attempt = null;
  }

  body() {
    const { id, confirmed, occurredAt } = this.attempt;
    const body = { id, kind: 'correction', occurred_at: occurredAt, corrects: this.entry.id,
      reason: this.reason.trim(), fields: { action: 'corrected', ...this.changes() } };
    const attachments = filesOf(this.values).map(({ digest }) => digest);
    if (attachments.length) body.attachments = attachments;
    return confirmed.length ? { ...body, confirmed } : body;
  }

  /** Which entry, what changes and why. */
  about() {
    const { seq, kindTitle } = this;
    return { title: this.title(), line: texts.entryPage.corrects(kindTitle),
      lines: [...this.differences(), texts.cylinders.reason(this.reason.trim())],
      mends: `correct/${seq}` };
  }

  /** It was corrected when it was first, also where that is mended. */
  newAttempt() {
    return { id: uuid7(), confirmed: [],
      occurredAt: this.mending?.body.occurred_at ?? withOffset(new Date()) };
  }

  record() {
    this.reasonFault = this.reason.trim() ? '' : texts.entryPage.why;
    if (this.reasonFault) {
      this.requestUpdate();
      return null;
    }
    this.attempt ??= this.newAttempt();
    return this.once(async () => {
      try {
        await submit(this.body(), this.about(), this, { draft: this.values, replaces: this.mends });
        dropDraft(this.draftKey);
        await refreshAfter();
        go(this.mending ? 'outbox' : `entry/${this.seq}`);
      } catch (error) {
        this.refused(error);
      }
    });
  }

  refused(error) {
    super.refused(error);
    this.reasonFault = error.errors?.find(({ pointer }) => pointer === '/reason')?.detail ?? '';
    if (this.reasonFault) this.turnTo('why');
  }

  change(values) {
    super.change(values);
    this.fault = '';
  }

  /** What differs, in words, each as it stood and as it is to be. */
  differences() {
    const { cleared = [], ...given } = this.changes();
    const after = { ...standing(this.entry), ...given };
    for (const { cleared_field: name } of cleared) delete after[name];
    const before = standing(this.entry);
    const names = [...Object.keys(given), ...cleared.map((row) => row.cleared_field)];
    return this.form.fields.filter(({ name }) => names.includes(name)).map((field) => {
      const words = (values) => valueLines(field, values, this.names).join('; ');
      return texts.cylinders.changed(field.label, words(before), words(after));
    });
  }

  whyPage() {
    const { session } = store.state;
    return html`<div class="ask"><h1 tabindex="-1">${texts.correct.whyTitle}</h1>
      ${this.differences().map((text) => html`<p class="asked-change">${text}</p>`)}
      <p class="quiet">${texts.correct.stays}</p>
      <label class="written"><span>${texts.entryPage.reason}</span>
        <input type="text" maxlength="500" autocomplete="off" .value=${this.reason}
          @input=${(event) => this.write(event.target.value)}></label>
      ${alertLine(this.reasonFault)}
      <div class="actions across">
        <button class="button" type="button" @click=${() => this.turnTo('main')}>
          ${texts.confirm.change}</button>
        <button class="button primary save" type="button" ?disabled=${this.busy}
          @click=${() => this.record()}>${texts.correct.save(session.name)}</button>
      </div></div>`;
  }

  render() {
    return this.loaded && this.page === 'why' ? this.whyPage() : super.render();
  }
}

customElements.define('bw-correct', Correct);
