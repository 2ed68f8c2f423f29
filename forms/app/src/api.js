// The one place that talks to the daemon. Every answer is either a value, a Refusal (the daemon
// said no, in its own words) or NoAnswer (nobody knows whether the request arrived).

import { isKept, keepAnswer, keptAnswer } from './answers.js';
import { noteDate } from './clock.js';
import { noteAnswer, noteSilence } from './reach.js';
import { store } from './store.js';

const kRoot = '/api/v1';
const kTimeoutMs = 15000;
const kKeptTimeoutMs = 6000; // where a kept answer stands in
const kAwayTimeoutMs = 2000; // the same, while nothing answers anyway
const kFileTimeoutMs = 130000; // a little more than the daemon gives a file to arrive

/** The kinds of file that an entry may carry. */
export const kFileTypes = ['application/pdf', 'image/jpeg', 'image/png'];

/** The daemon refused: `problem` is its RFC 9457 body. */
export class Refusal extends Error {
  constructor(status, problem, retryAfterS) {
    super(problem.detail || problem.title || String(status));
    this.status = status;
    this.problem = problem;
    this.errors = Array.isArray(problem.errors) ? problem.errors : [];
    this.retryAfterS = retryAfterS;
  }
}

/** No answer, or one that does not tell whether the request was carried out; `problem` is what
 *  the daemon said about it, if anything. `reached`: it answered, but with a fault of its own. */
export class NoAnswer extends Error {
  constructor(reason, { reached = false, problem = null, retryAfterS = null } = {}) {
    super(reason);
    this.reached = reached;
    this.problem = problem;
    this.retryAfterS = retryAfterS;
  }
}

/** True when the daemon is out of reach. */
export const isAway = (error) => error instanceof NoAnswer && !error.reached;

const listeners = new Set();

/** Calls back whenever the daemon says that nobody is signed in. */
export function onSignedOut(listener) {
  listeners.add(listener);
}

let confirm = null; // asks whoever is signed in to show again that it is they
let renewals = 0; // of the session, which goes on under another cookie then

/** `ask` resolves with true once the PIN was given again, and with false where it was not. */
export function onConfirmation(ask) {
  confirm = ask;
}

export const noteRenewal = () => {
  renewals += 1;
};

const wantsConfirmation = ({ problem }) => problem?.type === '/problems/confirmation-needed';

async function send(method, path, body, { type = 'application/json', timeoutMs = kTimeoutMs }) {
  const controller = new AbortController();
  const timer = setTimeout(() => controller.abort(), timeoutMs);
  const headers = { Accept: 'application/json' };
  if (method !== 'GET') headers['Content-Type'] = type;
  const sentMs = Date.now();
  try {
    const options = { method, headers, body, signal: controller.signal, cache: 'no-store' };
    const response = await fetch(kRoot + path, options);
    noteDate(response.headers.get('Date'), sentMs, Date.now());
    const text = await response.text();
    noteAnswer();
    return { response, text };
  } catch (error) {
    noteSilence();
    throw new NoAnswer(String(error));
  } finally {
    clearTimeout(timer);
  }
}

function parsed(text) {
  if (text === '') return null;
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}

async function ask(method, path, body, options) {
  const { response, text } = await send(method, path, body, options);
  const value = parsed(text);
  if (response.ok) return value;
  const retryAfterS = Number(response.headers.get('Retry-After')) || null;
  if (response.status >= 500) {
    throw new NoAnswer(`status ${response.status}`, { reached: true, problem: value, retryAfterS });
  }
  throw new Refusal(response.status, value ?? { status: response.status }, retryAfterS);
}

/** Sends and returns the parsed body, or throws Refusal or NoAnswer. `body` is JSON text. What wants
 *  the PIN again goes on by itself once it was given. */
export async function request(method, path, body, options = {}) {
  const before = renewals;
  try {
    return await ask(method, path, body, options);
  } catch (error) {
    const again = error.status === 401 ? before !== renewals
      : wantsConfirmation(error) && confirm !== null && await confirm();
    if (again) return ask(method, path, body, options);
    if (error.status === 401) listeners.forEach((listener) => listener());
    throw error;
  }
}

/** Without a PIN nobody is signed in, and what only such people are told was kept before. */
const standsIn = (error, session) => isAway(error)
  || (error.status === 401 && Boolean(session?.claimed));

/** Does `work`, whose result is kept under `key`; while the daemon is out of reach, what was kept.
 *  `session`: whose page it is for. */
export async function remembered(key, work, session = store.state.session) {
  try {
    const value = await work();
    await keepAnswer(key, value);
    return value;
  } catch (error) {
    if (!standsIn(error, session)) throw error;
    return keptAnswer(key, error);
  }
}

/** The answer; of paths that are kept the last one, while the daemon is out of reach. */
export function get(path, session = store.state.session) {
  const kept = isKept(path);
  const patience = kept ? kKeptTimeoutMs : kTimeoutMs;
  const timeoutMs = store.state.away ? kAwayTimeoutMs : patience;
  const fetched = () => request('GET', path, undefined, { timeoutMs });
  return kept ? remembered(path, fetched, session) : fetched();
}

export const put = (path, value) => request('PUT', path, JSON.stringify(value));
export const post = (path, value) => request('POST', path, JSON.stringify(value));

/** Sends a file in; {digest, media_type, bytes}. Its content decides of what kind it is, so that one
 *  without a type, as some file managers give it, is sent as any. */
export function sendFile(file) {
  const type = kFileTypes.includes(file.type) ? file.type : kFileTypes[0];
  return request('POST', '/attachments', file, { type, timeoutMs: kFileTimeoutMs });
}

/** Entries, oldest first, all pages; `query` without limit and cursor. */
export async function allEntries(query) {
  const found = [];
  let cursor = null;
  do {
    const next = cursor === null ? '' : `&cursor=${encodeURIComponent(cursor)}`;
    const page = await get(`/entries?${query}&limit=200${next}`);
    found.push(...page.entries);
    cursor = page.next_cursor;
  } while (cursor !== null && cursor !== undefined);
  return found;
}
