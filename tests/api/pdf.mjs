// What other programs make of a PDF.
import { execFile } from 'node:child_process';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { newerNode } from './newer_node.mjs';

const execute = promisify(execFile);

/** {code, text} of a program run on the bytes as a file. */
async function look(bytes, program, ...words) {
  const folder = await mkdtemp(join(tmpdir(), 'report-'));
  const path = join(folder, 'report.pdf');
  await writeFile(path, bytes);
  try {
    const { stdout } = await execute(program, words.map((word) => (word === 'FILE' ? path : word)),
      { maxBuffer: 64 * 1024 * 1024 });
    return { code: 0, text: stdout };
  } catch (failed) {
    return { code: failed.code, text: failed.stdout + failed.stderr };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Whether the file is whole: {code, text}. */
export const check = (bytes) => look(bytes, 'qpdf', '--check', 'FILE');

/** [{name, embedded}] */
export async function fonts(bytes) {
  const { code, text } = await look(bytes, 'pdffonts', 'FILE');
  if (code !== 0) throw new Error(text);
  // name, type, encoding, then emb sub uni, object ID
  return text.trim().split('\n').slice(2).map((line) => {
    const [, name, embedded] = /^(\S+) .*?(yes|no) +(?:yes|no) +(?:yes|no) +\d+ +\d+$/.exec(line);
    return { name, embedded: embedded === 'yes' };
  });
}

/** The pages as text laid out as they stand, with plain minus signs and ungrouped digits. */
export async function textOf(bytes) {
  const { code, text } = await look(bytes, 'pdftotext', '-layout', 'FILE', '-');
  if (code !== 0) throw new Error(text);
  return text.replaceAll('\u2212', '-').replace(/(\d)[\u202f\u00a0 ](?=\d{3}\b)/g, '$1');
}

/** The words of all pages in the order of the file, as poppler reads them. */
export async function wordsOf(bytes) {
  const { code, text } = await look(bytes, 'pdftotext', '-raw', 'FILE', '-');
  if (code !== 0) throw new Error(text);
  return text.split(/\s+/).filter((word) => word !== '');
}

/** What pdf.js reads in it, the reader of many browsers: see read_pdf.mjs. */
export async function asPdfJs(bytes) {
  const script = new URL('read_pdf.mjs', import.meta.url).pathname;
  const { code, text } = await look(bytes, newerNode(), script, 'FILE');
  if (code !== 0) throw new Error(text);
  return JSON.parse(text);
}

/** {pages, width, height} in points. */
export async function size(bytes) {
  const { text } = await look(bytes, 'pdfinfo', 'FILE');
  const [, width, height] = /^Page size: +([\d.]+) x ([\d.]+) pts/m.exec(text);
  return { pages: Number(/^Pages: +(\d+)/m.exec(text)[1]), width: Number(width),
    height: Number(height) };
}
