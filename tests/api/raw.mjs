// Bytes by hand, for what no HTTP library would send.
import { once } from 'node:events';
import { setTimeout as pause } from 'node:timers/promises';
import tls from 'node:tls';
import { hold } from './contract.mjs';
import { demo, kHere } from './transport.mjs';

const kPatienceMs = 30000;

export const host = new URL(demo.address).host;

/** A request head: lines without their ends. */
export const head = (...lines) => `${lines.join('\r\n')}\r\n\r\n`;

async function writeAll(socket, parts) {
  for (const part of parts) {
    if (socket.destroyed) return;
    if (part === null) {
      socket.end();
    } else if (typeof part === 'number') {
      await pause(part);
    } else if (!socket.write(part)) {
      await Promise.race([once(socket, 'drain'), once(socket, 'close')]).catch(() => {});
    }
  }
}

function parsed(bytes) {
  const end = bytes.indexOf('\r\n\r\n');
  if (end < 0) return { status: 0, headers: {}, bytes: Buffer.alloc(0), text: bytes.toString() };
  const [first, ...lines] = bytes.subarray(0, end).toString('latin1').split('\r\n');
  const headers = Object.fromEntries(lines.map((line) => {
    const colon = line.indexOf(':');
    return [line.slice(0, colon).toLowerCase(), line.slice(colon + 1).trim()];
  }));
  const body = bytes.subarray(end + 4);
  return { status: Number(first.split(' ')[1]), headers, bytes: body, text: body.toString('utf8') };
}

/**
 * Sends `parts` (bytes, a number of milliseconds to wait, null for the end of sending) and reads until the server closes.
 * {status, headers, bytes, text, after_ms}; status 0: closed without an answer. The answer is held
 * to the contract as that of `method` and `path`.
 */
export async function exchange(method, path, parts) {
  const { hostname, port } = new URL(demo.address);
  const socket = tls.connect({ host: kHere, port: Number(port), servername: hostname });
  const started = Date.now();
  const received = [];
  let last = 0;
  socket.on('data', (part) => {
    received.push(part);
    last = Date.now() - started;
  });
  socket.on('error', () => {}); // cut while we were still writing: what was received counts
  const closed = new Promise((resolve) => { socket.on('close', resolve); });
  const late = setTimeout(() => socket.destroy(), kPatienceMs);
  await Promise.race([writeAll(socket, parts), closed]);
  await closed;
  clearTimeout(late);
  const answer = { ...parsed(Buffer.concat(received)), after_ms: last,
    closed_ms: Date.now() - started };
  if (answer.status !== 0) hold(method, path, answer);
  return answer;
}
