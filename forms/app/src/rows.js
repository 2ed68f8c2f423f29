// The rows of the outbox, and the numbers of this tablet's own sequence. Numbers run from 1 without
// a gap: a row gets one in the transaction that stores it, and the number of a row that was taken
// out before the book had it goes to the next row. Only what a person drops for good leaves a gap,
// since the book is to show that.
import { vault } from './vault.js';

async function change(work) {
  const db = await vault();
  const transaction = db.transaction(['rows', 'facts', 'drafts'], 'readwrite',
    { durability: 'strict' });
  const [rows, facts, drafts] = ['rows', 'facts', 'drafts'].map((name) =>
    transaction.objectStore(name));
  const result = await work(rows, facts, drafts);
  await transaction.done;
  return result;
}

/** The next number of the sequence and what the sequence is then. */
export function numbered({ last, spare }) {
  if (!spare.length) return { number: last + 1, numbers: { last: last + 1, spare } };
  const number = Math.min(...spare);
  return { number, numbers: { last, spare: spare.filter((one) => one !== number) } };
}

const kNoNumbers = { last: 0, spare: [] };

/** The next number, and of which pairing it is. */
async function takeNumber(facts) {
  const device = (await facts.get('device'))?.id ?? null;
  if (device === null) return { device, device_seq: null };
  const { number, numbers } = numbered(await facts.get('numbers') ?? kNoNumbers);
  await facts.put(numbers, 'numbers');
  return { device, device_seq: number };
}

/** Keeps a row; on a paired tablet it gets the next number. Only then is anything sent. The draft
 *  that it was made from ends with it, so that nobody finds it begun and records it once more. */
export const storeRow = (row, draftKey) => change(async (rows, facts, drafts) => {
  if (draftKey) await drafts.delete(draftKey);
  const stored = { ...row, ...await takeNumber(facts) };
  stored.order = await rows.add(stored);
  return stored;
});

const keyOf = (rows, id) => rows.index('id').getKey(id);

/** Puts other content in the place of a row that needs attention: it keeps its number. Null when it
 *  does so no more: somebody else may have sent or dropped it. */
export const replaceRow = (order, row) => change(async (rows) => {
  const before = await rows.get(order);
  if (before?.state !== 'attention') return null;
  const { offset, device, device_seq: number } = before;
  const stored = { ...row, order, offset: offset ?? row.offset, device,
    device_seq: number };
  await rows.put(stored);
  return stored;
});

export const alterRow = (id, alteration) => change(async (rows) => {
  const before = await rows.index('id').get(id);
  if (before) await rows.put({ ...before, ...alteration });
});

/** The book has it. */
export const removeRow = (id) => change(async (rows) => {
  const key = await keyOf(rows, id);
  if (key !== undefined) await rows.delete(key);
});

/** Takes out what the daemon refused while the form waited: its number is the next row's. */
export const releaseRow = (id) => change(async (rows, facts) => {
  const row = await rows.index('id').get(id);
  if (!row) return;
  await rows.delete(row.order);
  if (row.device === null || row.device !== (await facts.get('device'))?.id) return;
  const { last, spare } = await facts.get('numbers') ?? kNoNumbers;
  await facts.put({ last, spare: [...spare, row.device_seq] }, 'numbers');
});

/** Drops rows for good; their numbers stay open. */
export const dropRows = (ids) => change(async (rows) => {
  for (const id of ids) {
    const key = await keyOf(rows, id);
    if (key !== undefined) await rows.delete(key);
  }
});

/** A pairing begins its own sequence. */
export const beginSequence = (device) => change(async (_, facts) => {
  await facts.put(device, 'device');
  await facts.put(kNoNumbers, 'numbers');
});

/** All rows, the oldest first. */
export const allRows = async () => (await vault()).getAll('rows');

/** By its place among them, which stays when a row is replaced. */
export const rowAt = async (order) => (await vault()).get('rows', order);
