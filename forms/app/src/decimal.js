// Decimal numbers as text, so that what was tapped is what is sent and shown: no rounding.
// A decimal is digits with at most one point and perhaps a leading minus, such as "-12.5"; shown it
// has the decimal mark of the workshop.
import { shownIn } from './shown-in.js';

const kPattern = /^-?\d+(\.\d+)?$/;

/** True when the text is a finished decimal number. */
export function isDecimal(text) {
  return kPattern.test(text);
}

/** A number still being tapped, such as "62.", as the number it is so far. */
export function finished(text) {
  return text.endsWith('.') ? text.slice(0, -1) : text;
}

/** Drops zeros that say nothing: "007.50" becomes "7.5", "-0" becomes "0". */
export function plain(text) {
  const negative = text.startsWith('-');
  const [whole, fraction = ''] = text.replace('-', '').split('.');
  const head = whole.replace(/^0+(?=\d)/, '') || '0';
  const tail = fraction.replace(/0+$/, '');
  const digits = tail ? `${head}.${tail}` : head;
  return negative && digits !== '0' ? `-${digits}` : digits;
}

/** Multiplies by ten to the power of places, exactly, by moving the point. */
export function shift(text, places) {
  const sign = text.startsWith('-') ? '-' : '';
  const [whole, fraction = ''] = text.replace('-', '').split('.');
  const digits = whole + fraction;
  const point = whole.length + places;
  const padded = point <= 0 ? '0'.repeat(1 - point) + digits : digits.padEnd(point, '0');
  const at = Math.max(point, 1);
  const rest = padded.slice(at);
  return plain(sign + padded.slice(0, at) + (rest ? `.${rest}` : ''));
}

/** A number as JSON gives it, as decimal text; quantities have at most three places. */
export function fromNumber(number) {
  return plain(String(number));
}

const kPlacesMax = 9;

/** Any number without an exponent, as decimal text. */
export const decimalText = (number) => plain(number.toFixed(kPlacesMax));

/** Joined by a space that does not break a line: a number and its unit, the parts of a date. */
export function joined(...parts) {
  return parts.filter((part) => part !== '').join('\u00a0');
}

/** The decimal mark of the workshop. */
export const decimalMark = () => (shownIn.number_format === 'comma' ? ',' : '.');

/** As people read it: the decimal mark of the workshop, the digits of large numbers grouped by threes
 *  with a thin space that does not break. */
export function grouped(text) {
  const [whole, fraction] = text.split('.');
  const long = whole.replace('-', '').length > 4;
  const head = long ? whole.replace(/\B(?=(\d{3})+$)/g, '\u202f') : whole;
  return fraction === undefined ? head : `${head}${decimalMark()}${fraction}`;
}

/** A sentence of the daemon with its numbers as people read them; neither 1.2.3 nor 1,5 is one. */
export const withNumbers = (text) => text.replace(/\d+([.,]\d+)*/g,
  (found) => (isDecimal(found) ? grouped(found) : found));
