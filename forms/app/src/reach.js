// Whether the daemon answers. One place knows it, so that all screens say the same.
import { store } from './store.js';

export const kReach = new EventTarget(); // "back" when it answers again

export function noteAnswer() {
  if (!store.state.away) return;
  store.set({ away: false, asOf: null });
  kReach.dispatchEvent(new Event('back'));
}

export function noteSilence() {
  if (!store.state.away) store.set({ away: true });
}

/** What is shown now was true at this moment. */
export function noteKept(at) {
  const { asOf } = store.state;
  if (asOf === null || at < asOf) store.set({ asOf: at });
}
