// A label scanned into a form that is open: the thing is chosen in the field that takes it.
import { html } from 'lit';
import { takersOf, withThing } from './beginnings.js';
import { isGiven } from './draft.js';
import { thingName } from './form-data.js';
import { optionsOf } from './form-parts.js';
import { kClasses } from './scan-code.js';
import { alertLine } from './screen.js';
import { store } from './store.js';
import './scanner.js';
import { texts } from '../texts.js';

/** The fields of the page that a label can fill. */
const takers = (screen, name) => takersOf(screen.form, screen.values, name).filter((field) =>
  !(field.name in screen.preset) && (field.when ?? []).every((rule) =>
    !(rule.field in screen.preset) || rule.codes.includes(screen.preset[rule.field])));

function put(screen, field, thing) {
  const offered = optionsOf(field, screen.things).some(({ value }) => value === thing.id);
  if (!offered) {
    screen.scan = { fault: texts.scan.notOffered(thingName(thing)) };
    screen.requestUpdate();
    return;
  }
  screen.scan = {};
  screen.faults = { ...screen.faults, [field.name]: '' };
  screen.change(withThing(screen.form, screen.values, field, thing));
  screen.dip.follow(screen.form, screen.values);
  screen.turnToField((name) => name === field.name);
}

/** Into the one field that takes it and is not filled in; of several one has to be chosen. */
function take(screen, thing) {
  const fields = takers(screen, thing.class);
  const open = fields.filter((field) => !isGiven(screen.values, field));
  if (fields.length === 1 || open.length === 1) {
    put(screen, open[0] ?? fields[0], thing);
    return;
  }
  screen.scan = fields.length ? { thing, fields }
    : { fault: texts.scan.notHere(thingName(thing)) };
  screen.requestUpdate();
}

/** Which field a thing goes into. */
function where(screen, { thing, fields }) {
  return html`<p role="alert">${texts.scan.where(thingName(thing))}</p>
    <div class="scan-forms">${fields.map((field) => html`<button class="button task" type="button"
      @click=${() => put(screen, field, thing)}>${field.label}</button>`)}</div>`;
}

/** The page of a form with the camera. */
export function scanPage(screen) {
  const { scan } = screen;
  return html`<h1 tabindex="-1">${texts.scan.title}</h1>
    ${alertLine(scan.fault)}
    ${scan.thing ? where(screen, scan)
    : html`<bw-scanner .found=${(thing) => take(screen, thing)}></bw-scanner>`}
    <p><button class="button" type="button" @click=${() => screen.turnTo('main')}>
      ${texts.entry.backToForm}</button></p>`;
}

/** A form that has a field for what carries a label takes one from the head of the page. */
export function offerScan(screen) {
  if (!kClasses.some((name) => takers(screen, name).length)) return;
  store.set({ scan: () => {
    screen.scan = {};
    screen.turnTo('scan');
  } });
}

/** No form takes one any more. */
export function endScan() {
  if (store.state.scan) store.set({ scan: null });
}
