// What an entry says, field by field; where it was corrected, as recorded beside what stands now,
// with every correction below.
import { html, nothing } from 'lit';
import { attachedFiles } from './attachments.js';
import { changed, corrected, entryLink, signedBy, standing } from './entries.js';
import { momentText } from './time.js';
import { onClock } from './zone.js';
import { fieldOf, typedText, valueLines } from './shown-value.js';
import { texts } from '../texts.js';

const kept = (fields) => Object.keys(fields).filter((name) => fields[name] !== null);

const lines = (field, values, names) => valueLines(field, values, names)
  .map((line) => html`<dd>${line}</dd>`);

function facts(form, shown, values, names, differing = []) {
  return html`<dl class="facts">${form.fields.filter(({ name }) => shown.includes(name))
    .map((field) => html`<div class="${field.type === 'list' ? 'wide' : ''} ${
      differing.includes(field.name) ? 'differs' : ''}">
      <dt>${field.label}</dt>${lines(field, values, names)}${typed(values, field)}</div>`)}</dl>`;
}

/** What was typed in another unit than the one it is kept in. */
function typed({ asRead }, { name }) {
  const read = asRead?.[name];
  return read ? html`<dd class="quiet">${typedText(read)}</dd>`
    : nothing;
}

function change(form, { later, before }, names) {
  const after = { ...before, ...changed(later) };
  return Object.keys(changed(later)).map((name) => {
    const field = fieldOf(form, name);
    const words = (values) => valueLines(field, values, names).join('; ');
    return html`<p>${texts.cylinders.changed(field.label, words(before), words(after))}</p>`;
  });
}

/** One correction or strike-out: who, when, why, and what it changed. */
function step(form, one, { names, zone }) {
  const { later } = one;
  return html`<li class="correction">
    <h3>${texts.entryPage.line(momentText(onClock(later.occurred_at, zone)),
    signedBy(later))}</h3>
    ${later.fields.action === 'struck-out' ? html`<p><b>${texts.cylinders.struckOut}</b></p>`
    : change(form, one, names)}
    ${later.reason ? html`<p>${texts.cylinders.reason(later.reason)}</p>` : nothing}
    ${attachedFiles(later)}
    <p>${entryLink(later.seq)}</p></li>`;
}

/** The correction `later` of `entry`, as the page of the correction itself shows it. */
export function correctionFacts(form, entry, later, names) {
  const one = corrected(entry).find((each) => each.later.seq === later.seq);
  return one ? change(form, one, names) : html`<p><b>${texts.cylinders.struckOut}</b></p>`;
}

function beside(form, entry, names) {
  const now = standing(entry);
  const steps = corrected(entry);
  const differing = [...new Set(steps.flatMap(({ later }) => Object.keys(changed(later))))];
  return html`<div class="twice">
    <section><h2>${texts.entryPage.recorded}</h2>
      ${facts(form, kept(entry.fields), { ...entry.fields, asRead: entry.as_read }, names, differing)}
    </section>
    <section><h2>${texts.entryPage.standing}</h2>
      ${facts(form, kept(now), now, names, differing)}</section></div>`;
}

/** All that an entry says; `form` is that of its kind, `told` has the names of what it names and the
 *  zone of the workshop. */
export function entryFacts(form, entry, told) {
  const { names } = told;
  const struck = entry.corrections.filter(({ fields }) => fields.action === 'struck-out')
    .map((later) => ({ later }));
  const steps = [...corrected(entry), ...struck];
  return html`${corrected(entry).length ? beside(form, entry, names)
    : facts(form, kept(entry.fields), { ...entry.fields, asRead: entry.as_read }, names)}
    ${attachedFiles(entry)}
    ${steps.length ? html`<section><h2>${texts.cylinders.corrections}</h2>
      <ol class="due">${steps.map((one) => step(form, one, told))}</ol></section>` : nothing}`;
}
