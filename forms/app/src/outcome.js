// What the daemon's answer means for a row of the outbox. No page, no network.

// Says nothing about the entry: it is sent again.
const kAgain = [401, 408, 425, 429];

/** "accepted", "again" or "refused" of a status and the problem that came with it. */
export function outcomeOf(status, problem = null) {
  if (status >= 200 && status < 300) return 'accepted';
  if (status >= 500 || kAgain.includes(status)) return 'again';
  // The same id with other content will be so for ever; any other conflict passes.
  if (status === 409 && !String(problem?.type).endsWith('id-conflict')) return 'again';
  return 'refused';
}

const kBytesMax = 48000; // of one request; the daemon takes 64 KiB
const kRowsMax = 20;

/** The first rows that go in one request. A correction never goes with what it corrects: it is not
 *  to be refused for the fault of the other. */
export function firstBatch(rows, most = kRowsMax) {
  const batch = [];
  let bytes = 0;
  for (const row of rows) {
    bytes += JSON.stringify(row.body).length + 200;
    const follows = batch.some(({ id }) => id === row.body.corrects);
    if (batch.length && (follows || bytes > kBytesMax || batch.length >= most)) break;
    batch.push(row);
  }
  return batch;
}

/** True of what the daemon says to an entry that only a paired tablet may send. */
export const asksForPairing = (problem) =>
  (problem?.errors ?? []).some(({ code }) => code === 'not_paired');

/** Rows that wait for nothing but the daemon: not what corrects a row that cannot go itself. */
export function ready(rows, mayGo = () => true) {
  const held = new Set(rows.filter(({ state }) => state === 'attention').map(({ id }) => id));
  return rows.filter((row) => {
    const goes = row.state === 'waiting' && mayGo(row) && !held.has(row.body.corrects);
    if (!goes) held.add(row.id);
    return goes;
  });
}

/** The row and all rows that correct it. */
export function withFollowers(rows, id) {
  const found = [id];
  for (const row of rows) if (found.includes(row.body.corrects)) found.push(row.id);
  return found;
}

/** True of a row whose person can sign in no more; `people` is empty while nobody is known. */
export const isStranded = ({ person }, people) =>
  people.length > 0 && !people.some(({ id }) => id === person);

/** What a person has to see to about a row: that it was "refused"; that it is "stranded", where only
 *  its person could send it; or "unclaimed", made without a PIN on what is no paired tablet any more.
 *  Null when it is sent by itself. */
export function needOf(row, paired, people) {
  if (row.state === 'attention') return 'refused';
  if (paired) return null;
  if (isStranded(row, people)) return 'stranded';
  return row.claimed ? 'unclaimed' : null;
}

/** True of a row that was struck out before the book had it. */
export const isUndone = (rows, { id }) =>
  rows.some(({ body }) => body.corrects === id && body.fields.action === 'struck-out');

/** The submission as it is sent, always with its name: another session than the one it was made in is
 *  not to take it for its own. `device` is the id of the paired tablet, or null; where the browser is
 *  none, there is no sequence. */
export function sentBody(row, device, offsetMs) {
  const body = { ...row.body, person: row.person };
  const offset = row.offset ?? offsetMs;
  if (offset !== null) body.clock_offset_ms = offset;
  if (device !== null && row.device === device) body.device_seq = row.device_seq;
  if (row.claimed) body.claimed = true;
  return body;
}
