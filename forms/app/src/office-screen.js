// The office: every page that is not of the daily work at the bench, in groups by what it is for.
import { html, nothing } from 'lit';
import { Screen, alertLine } from './screen.js';
import { get } from './api.js';
import { entryLink } from './entries.js';
import { mayEnter, mayReport } from './session.js';
import { store } from './store.js';
import { dayText } from './time.js';
import { isWithin } from './within.js';
import { texts } from '../texts.js';

// Each page by its address; `may` says who opens it, everybody without.
// Of the pages that show a part of the book, or all of it in one.
const kParts = { findings: 'everything', due: 'everything', kept: 'everything', levels: 'waste',
  collections: 'waste', 'print/waste-month': 'waste', cylinders: 'cylinders-and-tools',
  tools: 'cylinders-and-tools' };

const kGroups = [
  { name: 'now', pages: ['findings', 'due', 'levels', 'collections'] },
  { name: 'histories', pages: ['cylinders', 'tools', 'recorded'] },
  { name: 'papers', may: mayReport, pages: ['print/waste-month', 'print', 'kept', 'head'] },
  { name: 'things', may: mayReport, pages: ['register', 'rules'] },
  { name: 'manage', may: mayEnter, pages: ['people', 'tablets', 'tokens', 'own-rules', 'import',
    'diagnostics'] },
  { name: 'tools', pages: ['scan', 'calculations', 'sessions', 'this-tablet'] },
];

class Office extends Screen {
  static needsSession = true;

  fetch() {
    if (mayReport(store.state.session) && isWithin('everything')) {
      this.load(async () => {
        this.backups = await get('/backups');
      });
    }
  }

  /** How old the newest backup is, and what became of the last try. */
  backedUp() {
    if (this.loadFault) return alertLine(this.loadFault);
    if (!this.backups) return nothing;
    const { newest, failure, scheduled } = this.backups;
    const words = texts.office.backup;
    return html`<section class="block" data-group="backup"><h2>${words.title}</h2>
      <p>${newest ? html`${words.made(dayText(newest.made_at), newest.days_ago)}
        ${entryLink(newest.entry)}` : words.none}</p>
      ${failure ? alertLine(words.failed(dayText(failure.at), failure.detail)) : nothing}
      ${scheduled ? nothing : html`<p>${words.unscheduled}</p>`}</section>`;
  }

  group({ name, pages, may }) {
    if (may && !may(store.state.session)) return nothing;
    const shown = pages.filter((page) => isWithin(kParts[page] ?? 'any'));
    return html`<section class="block" data-group=${name}><h2>${texts.office.groups[name]}</h2>
      ${shown.map((page) => html`<a class="button described" href=${`#/${page}`}>
        <b>${texts.office.pages[page][0]}</b><small>${texts.office.pages[page][1]}</small></a>`)}
      </section>`;
  }

  render() {
    return html`<h1 tabindex="-1">${texts.office.title}</h1>
      <div class="blocks">${kGroups.map((group) => this.group(group))}
        ${this.backedUp()}</div>`;
  }
}

customElements.define('bw-office', Office);
