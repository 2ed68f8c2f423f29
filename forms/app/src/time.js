// Moments as the API wants them, and as people read them. Nothing here changes a time zone: a
// moment is shown with the clock time it was recorded with.
import { joined } from './decimal.js';
import { texts } from '../texts.js';

const two = (number) => String(number).padStart(2, '0');

/** RFC 3339 with this tablet's own offset: 2026-11-25T09:33:56+01:00. */
export function withOffset(date) {
  const minutes = -date.getTimezoneOffset();
  const size = Math.abs(minutes);
  const offset = `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
  const time = `${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`;
  return `${localDay(date)}T${time}${offset}`;
}

/** The tablet's local day: 2026-11-25. */
export function localDay(date) {
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

/** The local day a number of days before. */
export function daysBefore(date, days) {
  return localDay(new Date(date.getFullYear(), date.getMonth(), date.getDate() - days));
}

/** "25 Nov 2026" from a day or a moment. */
export function dayText(moment) {
  const [year, month, day] = moment.slice(0, 10).split('-').map(Number);
  return joined(day, texts.months[month - 1], year);
}

/** The same of a count of seconds, by this tablet's clock. */
export const secondText = (second) => dayText(localDay(new Date(second * 1000)));

/** A sentence of the daemon with its days as people write them. */
export const withDays = (sentence) => sentence.replace(/(^|[^\w-])(\d{4}-\d\d-\d\d)(?![\w-])/g,
  (found, before, day) => before + dayText(day));

/** "25 Nov 2026, 09:33" from a moment, in the clock it was recorded with. */
export function momentText(moment) {
  return `${dayText(moment)}, ${moment.slice(11, 16)}`;
}

/** "09:33" on this tablet's clock. */
export function clockText(unixMs) {
  const date = new Date(unixMs);
  return `${two(date.getHours())}:${two(date.getMinutes())}`;
}

/** The last `count` months as "YYYY-MM", newest first. */
export function lastMonths(date, count) {
  return Array.from({ length: count }, (_, back) => {
    const first = new Date(date.getFullYear(), date.getMonth() - back, 1);
    return `${first.getFullYear()}-${two(first.getMonth() + 1)}`;
  });
}

/** "Nov 2026" from "2026-11". */
export function monthText(month) {
  return joined(texts.months[Number(month.slice(5, 7)) - 1], month.slice(0, 4));
}
