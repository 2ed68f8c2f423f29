// Entries from the newest back, some at a time. The daemon gives the book oldest first, so it is asked
// for spans of days that reach further back as long as they hold little.
import { allEntries } from './api.js';
import { localDay } from './time.js';

const kFirstDays = 7;
const kLongestDays = 500; // a longer step takes all that is left
const kDay = 86400000;

const dayOf = (at) => localDay(new Date(at));
const noon = (day) => Date.parse(`${day}T12:00:00`);

function query({ kind, subject, person }, from, to) {
  const given = { kind, subject, person, from, to };
  return Object.keys(given).filter((name) => given[name])
    .map((name) => `${name}=${encodeURIComponent(given[name])}`).join('&');
}

/** All that fit the filter, oldest first. */
export const entriesOf = (filter, from = filter.from, to = filter.to) =>
  allEntries(query(filter, from, to));

const later = (a, b) => Date.parse(b.occurred_at) - Date.parse(a.occurred_at) || b.seq - a.seq;

export class EntryPager {
  /** `filter`: {kind, subject, person, from, to}, all of them optional; days as YYYY-MM-DD. */
  constructor(filter) {
    this.filter = filter;
    this.found = []; // the newest first
    this.to = filter.to;
    this.days = kFirstDays;
    this.done = false;
  }

  /** The first day of the next span; none when it takes all that is left. */
  nextFrom() {
    const { from } = this.filter;
    if (this.days > kLongestDays) return from;
    const end = this.to ? noon(this.to) : Date.now();
    const begin = dayOf(end - (this.days - 1) * kDay);
    return from && begin < from ? from : begin;
  }

  /** Looks further back until there are more than `count` further ones, or no more at all: so it is
   *  known whether any stand beyond them. */
  async more(count) {
    const wanted = this.found.length + count;
    while (!this.done && this.found.length <= wanted) {
      const from = this.nextFrom();
      const span = await entriesOf(this.filter, from, this.to);
      this.found.push(...span.sort(later));
      this.done = !from || from === this.filter.from;
      if (!this.done) this.to = dayOf(noon(from) - kDay);
      this.days *= 2;
    }
  }
}
