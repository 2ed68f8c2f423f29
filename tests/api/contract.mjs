// Holds answers to the OpenAPI document that the daemon itself serves: the status must be listed
// for the operation, the content type too, and the body must fit the schema.
import assert from 'node:assert/strict';
import { appendFileSync } from 'node:fs';
import Ajv2020 from 'ajv/dist/2020.js';
import addFormats from 'ajv-formats';
import { send } from './transport.mjs';

const kRoot = 'benchwarden:/openapi.json';
export const kDocumentPath = '/api/v1/openapi.json';

const fetched = await send('GET', kDocumentPath);
assert.equal(fetched.status, 200, fetched.text);
export const document = JSON.parse(fetched.text);

const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true, strictTypes: false });
addFormats(ajv);
ajv.addVocabulary(Object.keys(document)); // members of the document, no words of a schema
ajv.addSchema(document, kRoot);

const validators = new Map();
/** The compiled schema at a place of the document, named by the members that lead to it. */
function validatorAt(...place) {
  const pointer = place.map((name) => name.replaceAll('~', '~0').replaceAll('/', '~1'))
    .map(encodeURIComponent).join('/');
  if (!validators.has(pointer)) {
    validators.set(pointer, ajv.compile({ $ref: `${kRoot}#/${pointer}` }));
  }
  return validators.get(pointer);
}

/** Sentences about what in `value` does not fit the schema at a place. */
export function faultsAt(value, ...place) {
  const validate = validatorAt(...place);
  if (validate(value)) return [];
  return validate.errors.map((fault) => `${fault.instancePath || '/'} ${fault.message} ` +
    JSON.stringify(fault.params));
}

const escaped = (text) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');
const patterns = Object.keys(document.paths).map((path) => ({
  path,
  pattern: new RegExp(`^${path.split(/\{\w+\}/).map(escaped).join('[^/]+?')}$`),
  literal: path.replace(/\{\w+\}/g, '').length,
})).sort((a, b) => b.literal - a.literal);

/** [{id, path, method, operation}] of the whole document. */
export const operations = Object.entries(document.paths).flatMap(([path, methods]) =>
  Object.entries(methods).map(([method, operation]) =>
    ({ id: operation.operationId, path, method: method.toUpperCase(), operation })));

/** The operation that answers a call, or nothing. */
export function operationOf(method, target) {
  const pathname = target.split('?')[0];
  for (const { path, pattern } of patterns) {
    const found = pattern.test(pathname) && operations.find((one) =>
      one.path === path && one.method === method);
    if (found) return found;
  }
  return undefined;
}

function resolved(place) {
  let part = document;
  for (const name of place) part = part[name];
  if (!part?.$ref) return { part, place };
  const target = part.$ref.slice(2).split('/').map((name) =>
    name.replaceAll('~1', '/').replaceAll('~0', '~'));
  return resolved(target);
}

const mediaType = (answer) => (answer.headers['content-type'] ?? '').split(';')[0].trim();
const isJson = (type) => type === 'application/json' || type.endsWith('+json');

/** Each entry anywhere in a JSON answer holds what its own form says. */
function entryFaults(value) {
  if (Array.isArray(value)) return value.flatMap(entryFaults);
  if (value === null || typeof value !== 'object') return [];
  const nested = Object.values(value).flatMap(entryFaults);
  if (typeof value.form_version !== 'number') return nested;
  const faults = faultsAt(value.fields, 'components', 'schemas', `Fields_${value.kind}`);
  return nested.concat(faults.map((fault) => `no. ${value.seq}, ${value.kind}: ${fault}`));
}

function problemFaults(answer, type) {
  if (type !== 'application/problem+json') return [`a problem of type "${type}"`];
  const problem = JSON.parse(answer.text);
  const faults = faultsAt(problem, 'components', 'schemas', 'Problem');
  if (problem.status !== answer.status) faults.push(`says status ${problem.status}`);
  return faults;
}

function bodyFaults(found, answer) {
  const { part, place } = resolved(['paths', found.path, found.method.toLowerCase(), 'responses',
    String(answer.status)]);
  if (!part) return [`status ${answer.status} is not listed`];
  const type = mediaType(answer);
  if (!part.content) return answer.bytes.length ? ['has a body, and none is listed'] : [];
  if (!part.content[type]) return [`content type "${type}" is not listed`];
  const value = isJson(type) ? JSON.parse(answer.text) : answer.text;
  const faults = faultsAt(value, ...place, 'content', type, 'schema');
  return isJson(type) ? faults.concat(entryFaults(value)) : faults;
}

/** What was taken must fit the schema of the request as well: the document refuses nothing good. */
function requestFaults(found, answer, body) {
  const types = found.operation.requestBody?.content;
  if (!types?.['application/json'] || body === undefined) return [];
  const value = typeof body === 'string' || Buffer.isBuffer(body) ? JSON.parse(body) : body;
  if (Array.isArray(value)) { // each item by itself: others may have been refused
    const taken = value.filter((_, i) => JSON.parse(answer.text).results[i].status < 300);
    return taken.flatMap((item) => faultsAt(item, 'components', 'schemas', 'Submission'));
  }
  return faultsAt(value, 'paths', found.path, found.method.toLowerCase(), 'requestBody', 'content',
    'application/json', 'schema').map((fault) => `request: ${fault}`);
}

function note(found, status) {
  if (process.env.BENCHWARDEN_SEEN) {
    appendFileSync(process.env.BENCHWARDEN_SEEN, `${found.id} ${status}\n`);
  }
}

/** Fails with everything in which the answer is not what the document says. */
export function hold(method, target, answer, body) {
  const found = operationOf(method, target);
  const faults = answer.status >= 400 ? problemFaults(answer, mediaType(answer)) : [];
  if (found) faults.push(...bodyFaults(found, answer));
  if (found && answer.status < 300) faults.push(...requestFaults(found, answer, body));
  if (!found && answer.status < 400) faults.push('the document knows no such operation');
  if (answer.status === 500) faults.push('a fault inside the server');
  assert.deepEqual(faults, [],
    `${method} ${target}: ${answer.status} ${answer.text.slice(0, 400)}`);
  if (found && answer.status < 300) note(found, answer.status);
}
