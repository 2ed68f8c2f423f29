// One HTTP call, one connection: nothing of an earlier answer can reach a later one.
import { readFileSync } from 'node:fs';
import http from 'node:http';
import https from 'node:https';
import { dirname } from 'node:path';

const kTimeoutMs = 60000;
/** Whatever name the daemon goes by in the workshop's network, it runs on this machine. */
export const kHere = '127.0.0.1';

function readDemo() {
  const path = process.env.BENCHWARDEN_DEMO;
  if (!path) throw new Error('BENCHWARDEN_DEMO must name the demo.json of a running demo');
  return { ...JSON.parse(readFileSync(path, 'utf8')), folder: dirname(path) };
}

/** {address, persons, reports, folder} of the running demo. */
export const demo = readDemo();

/** The program itself, for what is done on the machine and not over the network. */
export function binary() {
  const path = process.env.BENCHWARDEN_BINARY;
  if (!path) throw new Error('BENCHWARDEN_BINARY must name the benchwarden executable');
  return path;
}

/** The bytes of a body: buffers and text as they are, anything else as JSON. */
function bytesOf(body) {
  if (body === undefined) return null;
  if (Buffer.isBuffer(body)) return body;
  return Buffer.from(typeof body === 'string' ? body : JSON.stringify(body));
}

/** {status, headers, bytes, text}; `body` goes out as application/json. */
export function send(method, path, { body, headers = {}, address = demo.address } = {}) {
  const bytes = bytesOf(body);
  const url = new URL(path, address);
  const all = { Host: url.host, ...headers };
  if (bytes) {
    all['Content-Length'] = bytes.length;
    all['Content-Type'] ??= 'application/json';
  }
  return new Promise((resolve, reject) => {
    const { request: begin } = url.protocol === 'https:' ? https : http;
    const request = begin(url, { hostname: kHere, servername: url.hostname, method,
      headers: all, agent: false });
    request.setTimeout(kTimeoutMs, () => request.destroy(new Error(`${method} ${path}: silence`)));
    request.on('error', reject);
    request.on('response', (response) => {
      const parts = [];
      response.on('data', (part) => parts.push(part));
      response.on('error', reject);
      response.on('end', () => {
        const whole = Buffer.concat(parts);
        resolve({ status: response.statusCode, headers: response.headers, bytes: whole,
          text: whole.toString('utf8') });
      });
    });
    request.end(bytes ?? undefined);
  });
}
