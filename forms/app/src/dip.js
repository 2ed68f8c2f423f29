// A container that is dipped: from the height on the stick and the inside measures that the register has
// follows a volume. It is offered on a button; nobody is spared to say what was found.
import { html } from 'lit';
import { get, post } from './api.js';
import { finished, isDecimal, plain } from './decimal.js';
import { unitIn } from './draft.js';
import { shown } from './units.js';
import { texts } from '../texts.js';

const kHeight = 'height_mm';
const kVolume = 'volume_ml';
const kMeasures = ['inside_position', 'inside_diameter_mm', 'inside_length_mm'];

/** What POST /calculations/vessel-volume takes; null while a measure is missing. */
function inputs(attributes, height) {
  if (kMeasures.some((name) => attributes[name] === undefined)) return null;
  const [position, diameter, length] = kMeasures.map((name) => attributes[name]);
  return { position, diameter_mm: diameter, length_mm: length, height_mm: height };
}

export class Dip {
  #told; // calls back when a volume follows

  #asked = ''; // the container and height that were asked for last

  #volume = null; // in millilitres, as decimal text

  constructor(told) {
    this.#told = told;
  }

  /** Asks for the volume of what is filled in now; of an older height no answer counts. */
  async follow(form, values) {
    const height = form.fields.find(({ name }) => name === kHeight);
    const text = finished(values[kHeight] ?? '');
    const known = height && values.container && isDecimal(text);
    const unit = known ? unitIn(values, height) : '';
    const asked = known ? `${values.container} ${text} ${unit}` : '';
    if (asked === this.#asked) return;
    this.#asked = asked;
    this.#volume = null;
    if (!known) return;
    const volume = await volumeOf(values.container, { value: Number(plain(text)), unit })
      .catch(() => null); // without an answer, or for a height beyond the container, nothing is offered
    if (this.#asked !== asked) return;
    this.#volume = volume;
    this.#told();
  }

  /** The button that takes the volume; null where none follows or it is taken. */
  offer(screen) {
    if (this.#volume === null || screen.values[kVolume]) return null;
    const taken = { text: this.#volume, unit: 'ml' };
    return html`<div class="offers"><button class="button dip" type="button"
      @click=${() => screen.offer(kVolume, taken)}>
      ${texts.dip.follows(shown(this.#volume, 'ml'))}</button></div>`;
  }
}

/** In whole millilitres; null while the register lacks a measure of the container. */
async function volumeOf(container, height) {
  const { attributes } = await get(`/register/container/${encodeURIComponent(container)}`);
  const given = inputs(attributes, height);
  if (!given) return null;
  const { results } = await post('/calculations/vessel-volume', { inputs: given });
  return String(Math.round(results.find(({ name }) => name === 'volume_l').value * 1000));
}
