// One entry about a cylinder, tool or gauge: what was recorded and what follows from it on the left,
// corrections of it on the right.
import { html, nothing } from 'lit';
import { attachedFiles } from './attachments.js';
import { courseFacts } from './course.js';
import { changed, entryLink } from './entries.js';
import { momentText } from './time.js';
import { onClock } from './zone.js';
import { personName } from './session.js';
import { fieldOf, typedText, valueLines } from './shown-value.js';
import { texts } from '../texts.js';

function typed(entry, name) {
  const read = entry.as_read?.[name];
  return read ? html` <span class="quiet">(${typedText(read)})</span>`
    : nothing;
}

function fact(entry, name, form, names) {
  const field = fieldOf(form, name);
  const [first, ...others] = valueLines(field, entry.fields, names);
  return html`<div class=${field.type === 'list' ? 'wide' : ''}><dt>${field.label}</dt><dd>${first}${typed(entry, name)}</dd>
    ${others.map((line) => html`<dd>${line}</dd>`)}</div>`;
}

function who(entry, zone) {
  return texts.cylinders.entryLine(entry.seq, momentText(onClock(entry.occurred_at, zone)),
    personName(entry.person));
}

function changes(later, before, form, names) {
  if (later.fields.action === 'struck-out') return html`<p>${texts.cylinders.struckOut}</p>`;
  const after = { ...before, ...changed(later) };
  return Object.keys(changed(later)).map((name) => {
    const field = fieldOf(form, name);
    const words = (values) => valueLines(field, values, names).join('; ');
    return html`<div>${texts.cylinders.changed(field.label, words(before), words(after))}</div>`;
  });
}

/** Corrections in order; each is set against what stood before it. */
function corrections(check, form, { names, zone }) {
  let before = check.entry.fields;
  return check.corrections.map((later) => {
    const shown = html`<div class="correction"><h4>${who(later, zone)}</h4>
      ${changes(later, before, form, names)}
      ${later.reason ? html`<p>${texts.cylinders.reason(later.reason)}</p>` : nothing}
      ${attachedFiles(later)}
      <p>${entryLink(later.seq)}</p></div>`;
    before = { ...before, ...changed(later) };
    return shown;
  });
}

/** The row of one entry of GET /history/{class}/{id}; `form` is that of its kind, `told` has the names
 *  of the things it names and the zone of the workshop. */
export function checkRow(check, form, told) {
  const { names, zone } = told;
  const { entry } = check;
  const subject = form.fields.find((field) => field.type === 'id')?.name;
  const known = form.fields.map((field) => field.name)
    .filter((name) => name in entry.fields && name !== subject);
  const others = Object.keys(entry.fields)
    .filter((name) => !known.includes(name) && name !== subject);
  const corrected = check.corrections.length > 0;
  return html`<li class="check ${check.struck ? 'struck' : ''} ${corrected ? 'corrected' : ''}">
    <div><div class="check-head"><h3>${who(entry, zone)}</h3>
      ${corrected ? nothing : html`<p class="quiet">${texts.cylinders.noCorrection}</p>`}
      ${entryLink(entry.seq, texts.entryPage.open)}</div>
      <p class="quiet">${form.title}</p>
      <dl class="facts">${[...known, ...others].map((name) => fact(entry, name, form, names))}</dl>
      ${courseFacts(check.figures)}
      ${attachedFiles(entry)}</div>
    ${corrected ? html`<div class="beside"><h4>${texts.cylinders.corrections}</h4>
      ${corrections(check, form, told)}</div>` : nothing}
  </li>`;
}
