// Submissions as a tablet sends them, with ids and times of their own.
import { randomBytes } from 'node:crypto';

/** UUID version 7 (RFC 9562). */
export function uuid(atMs = Date.now()) {
  const bytes = randomBytes(16);
  bytes.writeUIntBE(atMs, 0, 6);
  bytes[6] = (bytes[6] & 0x0f) | 0x70;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  return bytes.toString('hex').replace(/^(.{8})(.{4})(.{4})(.{4})/, '$1-$2-$3-$4-');
}

/** RFC 3339, some seconds before now. */
export const ago = (seconds) => new Date(Date.now() - seconds * 1000).toISOString();

export function submission(kind, fields, more = {}) {
  return { id: uuid(), kind, occurred_at: ago(0), fields, ...more };
}

export const drain = (fields = {}, more = {}) =>
  submission('oil-drained', { container: 'w2', volume_ml: 62, ...fields }, more);

export const correction = (corrects, fields, reason = 'Read the jug again') =>
  submission('correction', { action: 'corrected', ...fields }, { corrects, reason });

export const strikeOut = (corrects, reason = 'undone at once') =>
  submission('correction', { action: 'struck-out' }, { corrects, reason });

let made = 0;
/** An id that no other test and no other run uses. */
export const freshId = (letter) => `${letter}${process.pid}-${Date.now() % 1e6}-${(made += 1)}`;

/** A small can for used oil, entered some minutes ago. */
export const newContainer = (thing, fields = {}) =>
  submission('register-change', { thing_class: 'container', thing, act: 'added',
    name: `Test can ${thing}`, stream: 'used-oil', shape: 'can', capacity_l: 10,
    working_limit_percent: 90, counts_waste: 'yes', ...fields }, { occurred_at: ago(600) });

/** Retired a minute ago, so that what is recorded now comes too late. */
export const retirement = (thing) =>
  submission('register-change', { thing_class: 'container', thing, act: 'retired' },
    { occurred_at: ago(60) });
