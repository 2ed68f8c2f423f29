// Run after all tests: every operation of the document must have succeeded at least once, with an
// answer that was held to its schema. What was seen stands in the file BENCHWARDEN_SEEN.
import { readFileSync } from 'node:fs';
import { operations } from './contract.mjs';

const path = process.env.BENCHWARDEN_SEEN;
if (!path) {
  console.log('BENCHWARDEN_SEEN is not set: whether every operation was tried is not looked at.');
  process.exit(0);
}
const seen = new Set(readFileSync(path, 'utf8').split('\n'));
const wanted = operations.flatMap(({ id, operation }) =>
  Object.keys(operation.responses).filter((status) => status.startsWith('2'))
    .map((status) => `${id} ${status}`));
const missing = wanted.filter((one) => !seen.has(one));
for (const one of missing) console.error(`never answered and held to its schema: ${one}`);
console.log(`${wanted.length - missing.length} of ${wanted.length} good answers of the OpenAPI ` +
  'document were seen and fit it');
process.exit(missing.length === 0 ? 0 : 1);
