// The rules in force: every one with its figures, where it stands, and how well it is known.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { get } from './api.js';
import { sourceText, valueText } from './findings.js';
import { mayEnter } from './session.js';
import { store } from './store.js';
import { dayText } from './time.js';
import { texts } from '../texts.js';

/** Editions of texts are days, years or names. */
const editionText = (edition) => (/^\d{4}-\d\d-\d\d$/.test(edition) ? dayText(edition) : edition);

class Rules extends Screen {
  static needsSession = true;

  fetch() {
    return this.load(async () => {
      this.said = await get('/rules');
    });
  }

  /** With how well it is known, where that is not as its rule is. */
  figure({ confidence }, name, figure) {
    const text = `${texts.rules.figureName(name)} ${valueText(figure)}`;
    if (figure.confidence === confidence) return text;
    return `${text} (${texts.rules.doubt[figure.confidence]})`;
  }

  rule(one) {
    const figures = Object.entries(one.figures)
      .map(([name, figure]) => this.figure(one, name, figure));
    return html`<li class="note" data-rule=${one.rule}><h3>${one.says}</h3>
      ${figures.length ? html`<p>${texts.rules.figures(figures.join(', '), one.days)}</p>` : nothing}
      ${one.clears ? html`<p>${texts.findings.clears(one.clears)}</p>` : nothing}
      <p class="quiet">${sourceText(one)} · ${editionText(one.edition)} · ${one.rule}</p></li>`;
  }

  pack(pack) {
    const some = this.said.rules.filter((one) => one.pack === pack.pack);
    return html`<section data-pack=${pack.pack}><h2>${pack.title}</h2>
      <p>${texts.rules.edition(editionText(pack.edition))} ${pack.remarks}</p>
      <ul class="due">${some.map((one) => this.rule(one))}</ul></section>`;
  }

  render() {
    if (!this.loaded) return this.waiting(texts.rules.title, () => this.fetch());
    return html`<h1 tabindex="-1">${texts.rules.title}</h1>
      <p>${texts.rules.lead}</p>
      ${mayEnter(store.state.session)
    ? html`<p><a class="button" href="#/own-rules">${texts.rules.own}</a></p>` : nothing}
      ${this.said.packs.map((pack) => this.pack(pack))}`;
  }
}

customElements.define('bw-rules', Rules);
