// One recorded entry as a line of a list that leads to its page, and the forms and names that such
// lines need.
import { html } from 'lit';
import { get } from './api.js';
import { isStruckOut } from './draft.js';
import { signedBy, standing } from './entries.js';
import { namesFor } from './shown-value.js';
import { summary } from './summary.js';
import { momentText } from './time.js';
import { onClock, workshopZone } from './zone.js';
import { texts } from '../texts.js';

/** {forms, names, zone} for these entries; `known` is an earlier answer, whose forms are not fetched
 *  anew. */
export async function toldOf(entries, known = { forms: new Map(), names: new Map() }) {
  const kinds = [...new Set(entries.map(({ kind }) => kind))].filter((kind) => !known.forms.has(kind));
  const [zone, ...fetched] = await Promise.all([workshopZone(),
    ...kinds.map((kind) => get(`/forms/${kind}`))]);
  const forms = new Map([...known.forms, ...fetched.map((form) => [form.kind, form])]);
  const names = await namesFor(...entries.map((entry) => [forms.get(entry.kind), entry.fields]));
  return { forms, names: new Map([...known.names, ...names]), zone };
}

/** "62 mL · Bench oil W2": what of the entry stands, in short. */
export const aboutText = (entry, { forms, names }) =>
  summary(forms.get(entry.kind), standing(entry), names);

/** "Struck out", "Corrected", or nothing. */
export function stateText(entry) {
  if (isStruckOut(entry)) return texts.cylinders.struckOut;
  return entry.corrections.length ? texts.recorded.corrected : '';
}

/** The line of a list. */
export function entryRow(entry, told) {
  const words = [momentText(onClock(entry.occurred_at, told.zone)), signedBy(entry),
    stateText(entry)];
  return html`<li><a class="button recorded" href=${`#/entry/${entry.seq}`}>
    <b>${told.forms.get(entry.kind).title}</b><span>${aboutText(entry, told)}</span>
    <span>${words.filter(Boolean).join(' · ')}</span>
    <span>${texts.entryPage.number(entry.seq)}</span></a></li>`;
}
