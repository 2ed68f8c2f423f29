// Builds the tablet page: node build.mjs OUTPUT_DIRECTORY
// Writes index.html, app.js and app.css there. The same sources give the same bytes.
import { build } from 'esbuild';
import { copyFile, mkdir } from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const given = process.argv[2];
if (!given || process.argv.length !== 3) {
  console.error('usage: node build.mjs OUTPUT_DIRECTORY');
  process.exit(2);
}
const output = resolve(given);

await mkdir(output, { recursive: true });
await build({
  absWorkingDir: here,
  entryPoints: { app: 'src/main.js' },
  outdir: output,
  bundle: true,
  minify: true,
  format: 'esm',
  target: ['es2021'],
  charset: 'utf8',
  legalComments: 'eof',
  logLevel: 'warning',
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
await copyFile(join(here, 'index.html'), join(output, 'index.html'));
