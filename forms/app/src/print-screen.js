// Everything that can be printed, in groups; each has a page of its own.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { isSheetWithin, kSheets } from './sheets.js';
import { mayReport } from './session.js';
import { store } from './store.js';
import { texts } from '../texts.js';

class Print extends Screen {
  static needsSession = true;

  group(name) {
    const shown = Object.keys(kSheets)
      .filter((sheet) => kSheets[sheet].group === name && isSheetWithin(sheet));
    if (!shown.length) return nothing;
    return html`<section class="block" data-group=${name}><h2>${texts.print.groups[name]}</h2>
      ${shown.map((sheet) => html`<a class="button described" href=${`#/print/${sheet}`}>
        <b>${texts.print.sheets[sheet][0]}</b><small>${texts.print.sheets[sheet][1]}</small></a>`)}
      </section>`;
  }

  render() {
    const told = texts.print;
    if (!mayReport(store.state.session)) {
      return html`<h1 tabindex="-1">${told.title}</h1><p>${told.readersOnly}</p>`;
    }
    return html`<h1 tabindex="-1">${told.title}</h1>
      <p>${told.lead}</p>
      <div class="blocks">${Object.keys(told.groups).map((name) => this.group(name))}</div>`;
  }
}

customElements.define('bw-print', Print);
