// The emergency page: readable without signing in. Its words come from the daemon and are fetched
// when the page starts, so that they are here when the daemon is not.
import { html } from 'lit';
import { Screen } from './screen.js';
import { addressBefore } from './route.js';
import { store } from './store.js';
import { texts } from '../texts.js';

class Emergency extends Screen {
  section({ title, lines }) {
    return html`<section class="block"><h2>${title}</h2>
      <ul>${lines.map((line) => html`<li>${line}</li>`)}</ul></section>`;
  }

  render() {
    const page = store.state.emergency;
    if (!page) {
      return html`<h1 tabindex="-1">${texts.emergency.title}</h1>
        <p>${texts.emergency.missing}</p>
        <p><a class="button" href=${addressBefore()}>${texts.emergency.back}</a></p>`;
    }
    return html`<h1 tabindex="-1">${page.title}</h1>
      <div class="blocks">${page.sections.map((part) => this.section(part))}</div>
      <p><a class="button" href=${addressBefore()}>${texts.emergency.back}</a></p>`;
  }
}

customElements.define('bw-emergency', Emergency);
