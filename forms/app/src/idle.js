// How long the tablet was left alone: by the touches in any window of this browser, also before the
// page was loaded anew.
import { factOf, setFact } from './vault.js';

/** Milliseconds without a touch after which the next person has to sign in. */
export const kIdleMs = 3 * 60 * 1000;

const kKeptMs = 10000; // how exactly it is kept when the tablet was touched

let touched = Date.now(); // in this window
let kept = 0; // the last touch that was kept for the others

/** A touch; of those that follow each other closely only the first is kept. */
export function noteTouch({ always = false } = {}) {
  touched = Date.now();
  if (!always && touched - kept < kKeptMs) return null;
  kept = touched;
  return setFact('touched', touched);
}

/** True when no window was touched since, as far as is kept. */
export const wasLeftAlone = async () => Date.now() - await factOf('touched') >= kIdleMs;

/** True when neither this window nor another one was touched; a tablet that was asleep does not
 *  count the time, its clock tells. */
export const isLeftAlone = async () => Date.now() - touched >= kIdleMs && wasLeftAlone();
