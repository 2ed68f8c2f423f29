// What the daemon said last, for while it is out of reach: enough to sign in a person by name, to
// fill in every form and to read the emergency page.
import { noteKept } from './reach.js';
import { vault } from './vault.js';

const kKept = [/^\/people$/, /^\/forms(\/[^/]+)?$/, /^\/register\/[^/]+$/,
  /^\/register\/[^/]+\/[^/]+$/, /^\/levels$/, /^\/emergency$/];

/** True for a GET whose answer is kept. */
export const isKept = (path) => kKept.some((pattern) => pattern.test(path));

/** A browser that keeps nothing still shows what it was told. */
export async function keepAnswer(key, value) {
  try {
    await (await vault()).put('answers', { value, at: Date.now() }, key);
  } catch (error) {
    console.warn('nothing kept', error);
  }
}

/** What was kept under the key, or throws the error that made it necessary. */
export async function keptAnswer(key, error) {
  const kept = await (await vault()).get('answers', key);
  if (!kept) throw error;
  noteKept(kept.at);
  return kept.value;
}
