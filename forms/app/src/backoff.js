// How long to wait before the next try: 1, 2, 4 … 60 seconds, each a little off, so that tablets
// that lost the daemon together do not all come back at once.
const kFirstMs = 1000;
const kMostMs = 60000;
const kSpread = 0.25; // of it, to either side

export class Backoff {
  tries = 0;

  constructor(random = Math.random) {
    this.random = random;
  }

  /** Milliseconds until the next try; `leastMs` is what the daemon asked for. */
  next(leastMs = 0) {
    const plainMs = Math.min(kFirstMs * 2 ** this.tries, kMostMs);
    this.tries += 1;
    return Math.max(leastMs, Math.round(plainMs * (1 + kSpread * (2 * this.random() - 1))));
  }

  reset() {
    this.tries = 0;
  }
}
