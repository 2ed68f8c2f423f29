// Prints what pdf.js reads in a PDF file, as JSON: {language, tagged, outline, pages: [[text]],
// links: [how many on each page]}.
// For a newer Node.js than the tests run under: `node read_pdf.mjs FILE`.
import { readFile } from 'node:fs/promises';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

const data = new Uint8Array(await readFile(process.argv[2]));
const pdf = await getDocument({ data, verbosity: 0 }).promise;
const { info, hasStructTree } = await pdf.getMetadata();
const pages = [];
const links = [];
for (let number = 1; number <= pdf.numPages; number += 1) {
  const page = await pdf.getPage(number);
  const { items } = await page.getTextContent();
  pages.push(items.map(({ str }) => str));
  links.push((await page.getAnnotations()).filter(({ subtype }) => subtype === 'Link').length);
}
const titles = (outline) => (outline ?? []).map(({ title, items }) =>
  [title, ...(items.length === 0 ? [] : [titles(items)])]);
process.stdout.write(JSON.stringify({ language: info.Language, tagged: hasStructTree,
  outline: titles(await pdf.getOutline()), pages, links }));
