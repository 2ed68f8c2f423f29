// What can be printed: of each what it is about, on which papers and in which forms. How it looks is
// the daemon's.
import { html, nothing } from 'lit';
import { mayReport } from './session.js';
import { store } from './store.js';
import { isWithin } from './within.js';
import { texts } from '../texts.js';

const kTools = ['tool', 'gauge'];

//   about   month, year, days, now (nothing more is asked for), or what is chosen by name: a thing,
//           a collection, a caution
//   classes of the things; of one class the id alone is the subject, else "class/id"
//   whole   all of a class at once, too
//   issued  kept by the daemon, and entered into the book, where a manager says so
//   blank   filled in by hand: there are no figures to take as a table or as data
//   labels  on what this tablet prints labels on; a label that does not fit is refused by the daemon
export const kSheets = {
  'waste-month': { group: 'waste', about: 'month', issued: true },
  'waste-year': { group: 'waste', about: 'year', issued: true },
  'collection-sheet': { group: 'waste', about: 'collection', issued: true },
  'cylinder-history': { group: 'gas', about: 'thing', classes: ['cylinder'], issued: true },
  'tool-history': { group: 'gas', about: 'thing', classes: kTools, issued: true },
  'inspection-sheet': { group: 'gas', about: 'thing', classes: kTools, blank: true },
  'findings-list': { group: 'shop', about: 'now', issued: true },
  'walk-round-sheet': { group: 'shop', about: 'now', blank: true },
  'briefing-sheet': { group: 'shop', about: 'caution', blank: true },
  'audit-pack': { group: 'shop', about: 'days', issued: true },
  label: { group: 'labels', about: 'thing', classes: ['container', 'cylinder', ...kTools],
    whole: true, labels: true },
};

// Which part of the book the sheets of a group show.
const kParts = { waste: 'waste', gas: 'cylinders-and-tools' };

/** Whether this session reads what stands on a sheet. */
export const isSheetWithin = (name) => isWithin(kParts[kSheets[name].group] ?? 'everything');

/** Which setting of the tablet says what it is printed on. */
export const paperOf = (sheet) => (sheet.labels ? 'labels' : 'paper');

/** The forms it comes in. */
export function formatsOf({ blank, labels }) {
  if (labels) return ['pdf', 'html', 'svg'];
  return blank ? ['pdf', 'html'] : ['pdf', 'html', 'csv', 'json'];
}

/** Under which word the daemon is told what it is about. */
export const queryWord = ({ about }) => (['month', 'year'].includes(about) ? about : 'subject');

/** What the daemon is told of a thing. */
export const subjectOf = ({ classes }, { class: name, id }) =>
  (classes.length > 1 ? `${name}/${id}` : id);

/** The address of a document; `asked` is what it is about in the daemon's words. */
export function sheetAddress(name, format, asked, paper) {
  const query = new URLSearchParams({ ...asked, paper });
  return `/reports/${name}.${format}?${query}`;
}

/** Ways to the pages on which these are printed for a thing or a collection, from where it is shown. */
export function sheetLinks(wanted) {
  if (!mayReport(store.state.session)) return nothing;
  const path = (name, subject) =>
    [name, ...subject.split('/')].filter(Boolean).map(encodeURIComponent).join('/');
  return html`<p class="links">${Object.entries(wanted)
    .filter(([name]) => isSheetWithin(name)).map(([name, subject]) => html`
    <a class="button" href=${`#/print/${path(name, subject)}`}>
      ${texts.print.sheets[name][0]}</a>`)}</p>`;
}

// Forms of which there is a sheet to fill in by hand while no tablet is at hand.
const kByHand = { 'walk-round': 'walk-round-sheet' };

/** On the page of such a form the way to its sheet. */
export function sheetButton({ kind }) {
  const name = kByHand[kind];
  if (!name || !mayReport(store.state.session) || !isSheetWithin(name)) return nothing;
  return html`<a class="button" href=${`#/print/${name}`}>${texts.print.byHand}</a>`;
}

/** The sheets of a thing of the register, for `sheetLinks`. */
export function sheetsOfThing(thing) {
  const fitting = Object.entries(kSheets).filter(([, { classes }]) => classes?.includes(thing.class));
  return Object.fromEntries(fitting.map(([name, sheet]) => [name, subjectOf(sheet, thing)]));
}
