// What is not recorded every day, in groups by where the work happens; titles come from the forms.
// In the office the rules are decided, too.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { go } from './route.js';
import { mayRecord } from './session.js';
import { store } from './store.js';
import { texts } from '../texts.js';

const kGroups = [
  { name: 'waste', kinds: ['solvent-waste', 'rag-bin', 'transfer', 'level-reading',
    'container-change', 'container-inspection', 'oil-test', 'collection'] },
  { name: 'gas', kinds: ['cylinder-check', 'cylinder-change', 'gas-use'] },
  { name: 'tools', kinds: ['tool-inspection', 'plant-check', 'stuck-part'] },
  { name: 'shop', kinds: ['walk-round', 'event', 'action-closed', 'cabinet-count'] },
  { name: 'office', managers: true, kinds: ['register-change', 'briefing', 'waste-determination',
    'finding-acknowledged'] },
];

/** Things of the register are chosen before they are changed. */
const pathOf = (kind) => (kind === 'register-change' ? 'register' : `record/${kind}`);

class More extends Screen {
  static needsSession = true;

  group({ name, kinds }) {
    const { forms } = store.state;
    const shown = kinds.map((kind) => forms.find((form) => form.kind === kind)).filter(Boolean);
    return html`<section class="block" data-group=${name}><h2>${texts.more.groups[name]}</h2>
      <div class="choices across-2">${shown.map((form) => html`
        <button class="button" @click=${() => go(pathOf(form.kind))}>${form.title}</button>`)}
        ${name === 'office' ? html`<a class="button" href="#/own-rules">${texts.rules.own}</a>`
    : nothing}
      </div></section>`;
  }

  render() {
    const { session } = store.state;
    if (!mayRecord(session)) {
      return html`<h1 tabindex="-1">${texts.more.title}</h1><p>${texts.home.readOnly}</p>`;
    }
    const groups = kGroups.filter(({ managers }) => !managers || session.role === 'manager');
    return html`<h1 tabindex="-1">${texts.more.title}</h1>
      <div class="blocks">${groups.map((group) => this.group(group))}</div>`;
  }
}

customElements.define('bw-more', More);
