// A container that is dipped: from the height on the stick and the inside measures that the register has
// follows a volume. It is offered on a button; nobody is spared to say what was found.
import { html } from 'lit';
import { Refusal, get, post } from './api.js';
import { finished, isDecimal, plain } from './decimal.js';
import { unitIn } from './draft.js';
import { shown, typedHere, written } from './units.js';
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

  #inside = null; // the inside height of the container in millimetres, where the dip is beyond it

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
    this.#inside = null;
    if (!known) return;
    const found = await volumeOf(values.container, { value: Number(plain(text)), unit })
      .catch(() => ({})); // without an answer nothing is offered
    if (this.#asked !== asked) return;
    this.#volume = found.volume ?? null;
    this.#inside = found.inside ?? null;
    this.#told();
  }

  /** The button that takes the volume, or why none follows; null where none does or it is taken. */
  offer(screen) {
    if (this.#inside !== null) {
      return html`<p class="heed dip-beyond" role="alert">
        ${texts.dip.beyond(shown(this.#inside, 'mm'))}</p>`;
    }
    if (this.#volume === null || screen.values[kVolume]) return null;
    const field = screen.field(kVolume);
    const taken = typedHere(field, { text: this.#volume, unit: 'ml' });
    return html`<div class="offers"><button class="button dip" type="button"
      @click=${() => screen.offer(kVolume, taken)}>
      ${texts.dip.follows(written(taken.text, taken.unit, field.unit))}</button></div>`;
  }
}

/** {volume} in whole millilitres; {inside}, its inside height, where the dip is beyond that; nothing
 *  while the register lacks a measure of the container. */
async function volumeOf(container, height) {
  const { attributes } = await get(`/register/container/${encodeURIComponent(container)}`);
  const given = inputs(attributes, height);
  if (!given) return {};
  try {
    const { results } = await post('/calculations/vessel-volume', { inputs: given });
    const { value } = results.find(({ name }) => name === 'volume_l');
    return { volume: String(Math.round(value * 1000)) };
  } catch (error) {
    if (!(error instanceof Refusal)) throw error;
    const inside = given.position === 'lying' ? given.diameter_mm : given.length_mm;
    return isBeyond(error) ? { inside: plain(String(inside)) } : {};
  }
}

/** True when it is the height that was refused. */
const isBeyond = ({ errors }) => errors?.some(({ pointer }) => pointer === '/inputs/height_mm');
