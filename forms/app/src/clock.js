// How far this tablet's clock is behind the daemon's, measured from its answers.
import { factOf, setFact } from './vault.js';

// The daemon's Date is cut to whole seconds: what is less than this apart says nothing new.
const kNewsMs = 1500;

let offset = null;

/** Milliseconds to add to this tablet's clock; null while no answer came. */
export const clockOffsetMs = () => offset;

/** What was measured before the page was loaded. */
export async function recallOffset() {
  offset ??= await factOf('offset');
}

/** The offset by one answer: its date lies in the middle of a second, and of the way. */
export function measured(date, sentMs, answeredMs) {
  const then = Date.parse(date ?? '');
  return Number.isNaN(then) ? null : Math.round(then + 500 - (sentMs + answeredMs) / 2);
}

export function noteDate(date, sentMs, answeredMs) {
  const now = measured(date, sentMs, answeredMs);
  if (now === null || (offset !== null && Math.abs(now - offset) < kNewsMs)) return;
  offset = now;
  setFact('offset', now).catch(() => {}); // measured anew with the next answer
}
