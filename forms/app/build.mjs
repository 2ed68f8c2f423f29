// Builds the tablet page: node build.mjs OUTPUT_DIRECTORY [--pseudo]
// Writes index.html, app.js, app.css and charts.js, which is fetched with the first chart, there. The
// same sources give the same bytes.
// With --pseudo every text is set in marks and made longer: what stands on a screen outside the marks
// is wording that stands in code, and what does not fit has no room for a longer language.
import { build } from 'esbuild';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { inMarks, pseudoTexts } from './pseudo.mjs';
import { texts } from './texts.js';

const here = dirname(fileURLToPath(import.meta.url));
const [given, option] = process.argv.slice(2);
if (!given || process.argv.length > 4 || (option && option !== '--pseudo')) {
  console.error('usage: node build.mjs OUTPUT_DIRECTORY [--pseudo]');
  process.exit(2);
}
const output = resolve(given);
const words = option ? inMarks(texts) : texts;

await mkdir(output, { recursive: true });
await build({
  absWorkingDir: here,
  entryPoints: { app: 'src/main.js' },
  outdir: output,
  bundle: true,
  // What is imported where it is needed becomes a file of its own, under its own name.
  splitting: true,
  chunkNames: '[name]',
  minify: true,
  format: 'esm',
  target: ['es2021'],
  charset: 'utf8',
  legalComments: 'eof',
  logLevel: 'warning',
  plugins: option ? [pseudoTexts(join(here, 'src'))] : [],
});
await build({
  absWorkingDir: here,
  entryPoints: { app: 'styles.css' },
  outdir: output,
  bundle: true,
  minify: true,
  target: ['chrome90', 'safari15', 'firefox90'],
  logLevel: 'warning',
});

/** The page before any script runs; a word in braces is a text of that name. */
const page = await readFile(join(here, 'index.html'), 'utf8');
await writeFile(join(output, 'index.html'),
  page.replace(/\{(\w+)\}/g, (_, name) => words.page[name]));
