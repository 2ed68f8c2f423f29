// Decimal numbers without floating point: JSON read with its numbers as text, sums in bigint.

const kToken = /"(?:[^"\\]|\\.)*"|-?\d[\d.eE+-]*/g;

/** JSON with every number as the text it was written in. */
export function parseExact(text) {
  return JSON.parse(text.replace(kToken, (token) => (token[0] === '"' ? token : `"${token}"`)));
}

/** "-12.5" as a whole number of 10^-places; fails when there is more behind the point. */
export function scaled(text, places) {
  const found = /^(-?)(\d+)(?:\.(\d+))?$/.exec(text);
  const behind = (found?.[3] ?? '').replace(/0+$/, '');
  if (!found || behind.length > places) throw new Error(`"${text}" has more than ${places} places`);
  const digits = BigInt(found[2] + behind.padEnd(places, '0'));
  return found[1] ? -digits : digits;
}

/** Thousandths of the number. */
export const thousandths = (text) => scaled(text, 3);

/** n / d, halves away from zero; d above 0. */
export function roundedRatio(n, d) {
  const half = d / 2n;
  return n < 0n ? -((-n + half) / d) : (n + half) / d;
}

const kCell = /(?:"((?:[^"]|"")*)"|([^,"\r\n]*))(,|\r\n)/g;

/** Lines of CSV (RFC 4180) as arrays of text. */
export function parseCsv(text) {
  const rows = [];
  let row = [];
  for (const [, quoted, plain, end] of text.matchAll(kCell)) {
    row.push(quoted === undefined ? plain : quoted.replaceAll('""', '"'));
    if (end === ',') continue;
    rows.push(row);
    row = [];
  }
  return rows;
}
