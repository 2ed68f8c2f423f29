// A language that nobody speaks: every text in marks, and longer. For tests alone.

export const kOpen = '⟦';
export const kClose = '⟧';

// Languages run longer than English, short words most of all.
const longer = (text) => text + '~'.repeat(Math.ceil(text.length / (text.length > 20 ? 5 : 3)));

/** The texts with every string, and every string that a function gives, in marks. */
export function inMarks(texts) {
  if (typeof texts === 'string') return texts && kOpen + longer(texts) + kClose;
  if (typeof texts === 'function') return (...given) => inMarks(texts(...given));
  if (Array.isArray(texts)) return texts.map(inMarks);
  if (texts === null || typeof texts !== 'object') return texts;
  return Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, inMarks(text)]));
}

const kModule = '../texts.js'; // as the modules in src name it

/** For esbuild: what asks for the texts gets them in marks; among themselves they are as they are. */
export const pseudoTexts = (resolveDir) => ({
  name: 'pseudo-texts',
  setup({ onLoad, onResolve }) {
    onResolve({ filter: /\/texts\.js$/ }, ({ path, namespace }) => (
      path === kModule && namespace !== 'pseudo' ? { path, namespace: 'pseudo' } : undefined));
    onLoad({ filter: /.*/, namespace: 'pseudo' }, () => ({
      resolveDir,
      contents: `import { texts as plain } from '${kModule}';
import { inMarks } from '../pseudo.mjs';
export const texts = inMarks(plain);`,
    }));
  },
});
