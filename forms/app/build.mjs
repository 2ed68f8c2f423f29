// Builds the tablet page: node build.mjs OUTPUT_DIRECTORY [--pseudo]
// Writes the app's files there, and sw.js with a list of them and their digests; beside each, packed,
// the same with .gz behind its name. The same sources give the same bytes.
// With --pseudo every text is set in marks and made longer: what stands on a screen outside the marks
// is wording that stands in code, and what does not fit has no room for a longer language.
import { build } from 'esbuild';
import { createHash } from 'node:crypto';
import { copyFile, mkdir, readFile, writeFile } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gzipSync } from 'node:zlib';
import { inMarks, pseudoTexts } from './pseudo.mjs';
import { texts } from './texts.js';

const kCopied = ['manifest.webmanifest', 'icon.svg'];

const here = dirname(fileURLToPath(import.meta.url));
const [given, option] = process.argv.slice(2);
if (!given || process.argv.length > 4 || (option && option !== '--pseudo')) {
  console.error('usage: node build.mjs OUTPUT_DIRECTORY [--pseudo]');
  process.exit(2);
}
const output = resolve(given);
const words = option ? inMarks(texts) : texts;
const common = { absWorkingDir: here, outdir: output, bundle: true, minify: true, charset: 'utf8',
  legalComments: 'eof', logLevel: 'warning', metafile: true };

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

/** {"/app.js": digest …} of the files of that name, in order; the page itself is "/". */
async function digests(names) {
  const found = {};
  for (const name of [...names].sort()) {
    const path = name === 'index.html' ? '/' : `/${name}`;
    found[path] = sha256(await readFile(join(output, name)));
  }
  return found;
}

const namesOf = ({ metafile: { outputs } }) =>
  Object.keys(outputs).map((path) => path.slice(path.lastIndexOf('/') + 1));

await mkdir(output, { recursive: true });
// What is imported where it is needed becomes a file of its own, under its own name.
const scripts = await build({ ...common, entryPoints: { app: 'src/main.js' }, format: 'esm',
  splitting: true, chunkNames: '[name]', target: ['es2021'],
  plugins: option ? [pseudoTexts(join(here, 'src'))] : [] });
const styles = await build({ ...common, entryPoints: { app: 'styles.css' },
  target: ['chrome90', 'safari15', 'firefox90'] });
for (const name of kCopied) await copyFile(join(here, name), join(output, name));

/** The page before any script runs; a word in braces is a text of that name. */
const page = await readFile(join(here, 'index.html'), 'utf8');
await writeFile(join(output, 'index.html'),
  page.replace(/\{(\w+)\}/g, (_, name) => words.page[name]));

const files = await digests([...namesOf(scripts), ...namesOf(styles), 'index.html', ...kCopied]);
const worker = await build({ ...common, entryPoints: { sw: 'sw.js' }, format: 'iife',
  target: ['es2021'],
  define: { FILES: JSON.stringify(files), BUILD: JSON.stringify(sha256(JSON.stringify(files))) } });

for (const name of [...namesOf(scripts), ...namesOf(styles), ...namesOf(worker), 'index.html',
  ...kCopied]) {
  const packed = gzipSync(await readFile(join(output, name)), { level: 9 });
  await writeFile(join(output, `${name}.gz`), packed);
}
