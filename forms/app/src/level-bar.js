// A container's level: words first, and an outline bar that says the same.
import { html, nothing, svg } from 'lit';
import { grouped } from './decimal.js';
import { dayText } from './time.js';
import { kilograms, litres } from './units.js';
import { texts } from '../texts.js';

const kWidth = 300;

const isNumber = (value) => typeof value === 'number';

/** What the container holds and its working limit, counted as its stream is counted, each null where
 *  it is not known, and in which unit; `say` writes such an amount as the workshop measures, beside a
 *  greater one in the unit of that. */
export function amountOf(level) {
  const byMass = level.stream?.counted_by === 'mass';
  return byMass ? { amount: level.mass_kg, limit: level.working_limit_kg, unit: 'kg',
    say: kilograms }
    : { amount: level.volume_ml, limit: level.working_limit_ml, unit: 'ml',
      say: litres };
}

/** The same in words. */
export function amountWords(level) {
  const { amount, limit, say } = amountOf(level);
  if (!isNumber(amount)) return texts.level.unknown;
  return isNumber(limit) ? texts.level.of(say(amount, limit), say(limit)) : say(amount);
}

const percentUsed = (level) => level.working_limit_used_percent ?? null;

/** True when the container stands at or beyond its working limit. */
export const isBeyond = (level) => (percentUsed(level) ?? 0) >= 100;

/** "84.312 L of 184.5 L" and "45.7 % of working limit". */
export function levelPhrases(level) {
  const percent = percentUsed(level);
  if (percent === null) return [amountWords(level)];
  const say = isBeyond(level) ? texts.level.beyond : texts.level.percent;
  return [amountWords(level), say(grouped(String(percent)))];
}

/** Phrases with commas between them, which break between rather than within them. */
export function phrases(list) {
  return list.map((text, index) => html`${index ? ' ' : ''}<span
    class="phrase">${text}${index + 1 < list.length ? ',' : ''}</span>`);
}

/** When it is likely at its working limit, with the days between which it is in 80 of 100. */
function fullText({ median, earliest_80: earliest, latest_80: latest }) {
  const days = [median, earliest, latest].map((day) => (day ? dayText(day) : texts.level.noDay));
  return texts.level.full(...days);
}

/** The remaining facts of a container as short phrases. */
export function levelFacts(level) {
  const facts = [];
  const byMass = level.stream?.counted_by === 'mass';
  if (!byMass && isNumber(level.mass_kg)) facts.push(kilograms(level.mass_kg));
  if (level.oldest_content_at) facts.push(texts.level.since(dayText(level.oldest_content_at)));
  if (level.sealed) facts.push(texts.level.sealed);
  if (level.forecast?.median) facts.push(fullText(level.forecast));
  return facts;
}

/** The bar; nothing when the level is not known. */
export function levelBar(level) {
  const percent = percentUsed(level);
  if (percent === null) return nothing;
  const filled = Math.max(0, Math.min(percent, 100)) * (kWidth / 100);
  return html`<svg class="bar" viewBox="0 0 ${kWidth} 24" preserveAspectRatio="none"
    aria-hidden="true">${svg`
    <rect class="bar-level" x="0" y="0" width=${filled} height="24"></rect>
    <rect class="bar-outline" x="1" y="1" width=${kWidth - 2} height="22"></rect>`}</svg>`;
}
