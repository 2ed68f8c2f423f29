// Small files of the kinds that may go with an entry, each unlike any other.
import { randomBytes } from 'node:crypto';
import { deflateSync } from 'node:zlib';

/** PNG specification (W3C), annex D: the check of a chunk. */
function crc32(bytes) {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const length = Buffer.alloc(4);
  length.writeUInt32BE(data.length);
  const check = Buffer.alloc(4);
  check.writeUInt32BE(crc32(body));
  return Buffer.concat([length, body, check]);
}

/** A picture of one grey pixel, with a random text beside it. */
export function makePng() {
  const header = Buffer.from([0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0]);
  return Buffer.concat([Buffer.from('89504e470d0a1a0a', 'hex'), chunk('IHDR', header),
    chunk('tEXt', Buffer.from(`Comment\0${randomBytes(16).toString('hex')}`)),
    chunk('IDAT', deflateSync(Buffer.from([0, 128]))), chunk('IEND', Buffer.alloc(0))]);
}

/** What passes for a PDF: its beginning, random bytes up to `length`, its end. */
export function makePdf(length = 1000) {
  const begin = Buffer.from('%PDF-1.7\n');
  const end = Buffer.from('\nstartxref\n9\n%%EOF\n');
  return Buffer.concat([begin, randomBytes(length - begin.length - end.length), end]);
}
