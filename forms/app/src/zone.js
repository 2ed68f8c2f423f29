// The workshop's own clock: what was entered as its day and time, as a moment with its offset.
import { get } from './api.js';
import { withOffset } from './time.js';

const kMinute = 60000;

/** The IANA zone that the register has for the workshop; null while it has none. */
export async function workshopZone() {
  const { things } = await get('/register/workshop');
  return things[0]?.attributes.time_zone ?? null;
}

/** Minutes by which the zone's clock is ahead of UTC at an instant. */
function offsetAt(instant, zone) {
  const format = new Intl.DateTimeFormat('en-GB', { timeZone: zone, hourCycle: 'h23',
    year: 'numeric', month: 'numeric', day: 'numeric', hour: 'numeric', minute: 'numeric' });
  const part = Object.fromEntries(format.formatToParts(instant)
    .map(({ type, value }) => [type, Number(value)]));
  const shown = Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute);
  return Math.round((shown - Math.floor(instant / kMinute) * kMinute) / kMinute);
}

function offsetText(minutes) {
  const size = Math.abs(minutes);
  const two = (number) => String(number).padStart(2, '0');
  return `${minutes < 0 ? '-' : '+'}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}

/** "2026-11-25T09:33:00+01:00" from "2026-11-25" and "09:33" on the clock of the zone. */
export function momentOn(day, time, zone) {
  if (!zone) return withOffset(new Date(`${day}T${time}`));
  const asUtc = Date.parse(`${day}T${time}:00Z`);
  // Near a clock change the first guess may be an hour off; the second is not.
  const guess = offsetAt(asUtc, zone);
  return `${day}T${time}:00${offsetText(offsetAt(asUtc - guess * kMinute, zone))}`;
}

/** A moment of whatever offset, as the zone's clock showed it. */
export function onClock(moment, zone) {
  if (!zone) return withOffset(new Date(moment));
  const instant = Date.parse(moment);
  const minutes = offsetAt(instant, zone);
  const shown = new Date(instant + minutes * kMinute).toISOString().slice(0, 19);
  return shown + offsetText(minutes);
}
