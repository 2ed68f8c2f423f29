// The independent sum: what the exported entries say about each container, reckoned from them alone
// in another language than the daemon's. Amounts are bigint: microlitres, or milligrams where the
// stream is counted by mass.
import { roundedRatio, thousandths } from './exact.mjs';

const kOwn = new Set(['action', 'cleared']);
const kSigns = { added: 1n, moved_in: 1n, moved_out: -1n, taken: -1n, emptied: -1n };

const holds = (conditions, fields) => (conditions ?? []).every(({ field, codes }) =>
  codes.includes(fields[field]));

/** The fields after a correction; what no longer applies falls away. */
function merged(form, before, correction) {
  const cleared = (correction.fields.cleared ?? []).map((row) => row.cleared_field);
  const after = {};
  for (const { name, when } of form.fields) {
    const given = kOwn.has(name) ? undefined : correction.fields[name];
    if (given !== undefined) {
      after[name] = given;
    } else if (name in before && !cleared.includes(name) && holds(when, after)) {
      after[name] = before[name];
    }
  }
  return after;
}

/** Facts of the register that sums rest on, by container and by stream. */
export class Register {
  constructor(containers, streams) {
    this.streams = new Map(streams.map(({ id, attributes }) => [id, attributes]));
    this.containers = new Map(containers.map(({ id, attributes }) => [id, attributes]));
  }

  streamOf(container) { return this.streams.get(this.containers.get(container).stream); }
  byMass(container) { return this.streamOf(container).counted_by === 'mass'; }
  countsWaste(container) { return this.containers.get(container).counts_waste === 'yes'; }
  /** g/m³, or nothing. */
  density(container) {
    const text = this.streamOf(container).density_kg_m3;
    return text === undefined ? undefined : thousandths(text);
  }

  /** What is to be counted of stated amounts: in the smallest unit of the container. */
  counted(container, { volume_ml, mass_kg }, density = this.density(container)) {
    const volume = volume_ml === undefined ? undefined : thousandths(volume_ml);
    const mass = mass_kg === undefined ? undefined : thousandths(mass_kg) * 1000n;
    if (this.byMass(container)) {
      if (mass !== undefined) return mass;
      return volume === undefined || !density ? 0n : roundedRatio(volume * density, 1000000n);
    }
    if (volume !== undefined) return volume;
    return mass === undefined || !density ? 0n : roundedRatio(mass * 1000000n, density);
  }

  /** Grams, or nothing without a density. */
  grams(stream, amount) {
    const { counted_by, density_kg_m3 } = this.streams.get(stream);
    if (counted_by === 'mass') return roundedRatio(amount, 1000n);
    if (amount === 0n) return 0n;
    if (density_kg_m3 === undefined) return null;
    return roundedRatio(amount * thousandths(density_kg_m3), 1000000000n);
  }
}

/** [{container, what, amount, whole, arises, from}] that one entry's fields do to logs. */
function rowsOf(register, kind, fields) {
  const counted = (container, amounts, density) => register.counted(container, amounts, density);
  const move = (from, to) => {
    if (from === to) return [];
    const whole = fields.volume_ml === undefined && fields.mass_kg === undefined;
    const density = register.density(from) ?? register.density(to);
    const out = { container: from, what: 'moved_out', whole,
      amount: counted(from, fields, density) };
    const into = { container: to, what: 'moved_in', whole, from,
      amount: counted(to, fields, density),
      arises: register.countsWaste(to) && !register.countsWaste(from) };
    return whole ? [out, into, { container: from, what: 'emptied' }] : [out, into];
  };
  const { container } = fields;
  const pours = kind === 'oil-drained' || kind === 'solvent-waste';
  if (pours || (kind === 'rag-bin' && fields.bin_act === 'added')) {
    return [{ container, what: 'added', amount: counted(container, fields),
      arises: register.countsWaste(container) }];
  }
  if (kind === 'rag-bin' && fields.bin_act === 'emptied') {
    // The bin's own log starts anew; the waste counts where it was weighed.
    const into = fields.emptied_into;
    return [{ container, what: 'emptied' }, { container: into, what: 'added',
      amount: counted(into, fields), arises: register.countsWaste(into) }];
  }
  if (kind === 'transfer') return move(fields.from_container, fields.to_container);
  if (kind === 'collection' && fields.stage === 'taken') {
    return fields.loads.flatMap((load) => [
      { container: load.container, what: 'taken', amount: counted(load.container, load) },
      ...(load.emptied === 'yes' ? [{ container: load.container, what: 'emptied' }] : []),
    ]);
  }
  if (kind === 'container-change' && ['emptied', 'swapped'].includes(fields.container_act)) {
    return [{ container, what: 'emptied' }];
  }
  if (kind === 'level-reading') {
    return [{ container, what: 'read', amount: counted(container, fields) }];
  }
  return [];
}

/** The entry's rows as first recorded and as they stand after its corrections up to `known_at`. */
function story(register, forms, entry, known_at) {
  let fields = entry.fields;
  let struck = false;
  let corrected = false;
  for (const correction of entry.corrections) {
    if (Number(correction.seq) > known_at) break;
    corrected = true;
    if (correction.fields.action === 'struck-out') struck = true;
    else fields = merged(forms.get(entry.kind), fields, correction);
  }
  const first = rowsOf(register, entry.kind, entry.fields);
  const rows = struck ? [] : rowsOf(register, entry.kind, fields);
  if (corrected && [...first, ...rows].some((row) => row.whole)) {
    throw new Error(`no. ${entry.seq}: corrected moves of all content are not reckoned here`);
  }
  return { seq: Number(entry.seq), at: Date.parse(entry.occurred_at), first, rows, fields };
}

/** Every entry's story in order of time, then of the book. */
export function stories(register, forms, entries, { known_at = Infinity, until = Infinity } = {}) {
  return entries
    .filter((entry) => entry.kind !== 'correction' && Number(entry.seq) <= known_at)
    .map((entry) => story(register, forms, entry, known_at))
    .filter((one) => one.at < until)
    .sort((a, b) => a.at - b.at || a.seq - b.seq);
}

const kMovement = ['opening', 'added', 'moved_in', 'moved_out', 'taken', 'emptied', 'corrections',
  'closing'];
const nothing = () => Object.fromEntries(kMovement.map((name) => [name, 0n]));

/** Walks the stories and keeps every container's level and, month by month, what moved it. */
export class Ledger {
  constructor(register, monthOf) {
    this.register = register;
    this.monthOf = monthOf;
    this.levels = new Map();
    this.months = new Map(); // "2026-10 w1" → {movement, arisen, reading, taken}
  }

  level(container) { return this.levels.get(container) ?? 0n; }

  /** Of one container in one month; made when something first happens there. */
  month(month, container) {
    const key = `${month} ${container}`;
    if (!this.months.has(key)) {
      const level = this.level(container);
      const movement = { ...nothing(), opening: level, closing: level };
      this.months.set(key, { movement, arisen: 0n, reading: null, taken: [] });
    }
    return this.months.get(key);
  }

  walk(all) {
    for (const one of all) this.step(one, this.monthOf(one.at));
    return this;
  }

  step({ seq, first, rows, fields }, month) {
    for (const row of first) {
      if (row.what === 'read' || row.what === 'emptied' || row.whole) continue;
      const { movement } = this.month(month, row.container);
      movement[row.what] += row.amount;
      movement.corrections -= kSigns[row.what] * row.amount;
    }
    let moved = 0n;
    for (const row of rows) {
      const here = this.month(month, row.container);
      if (row.what === 'read') {
        here.reading = { seq, reading: row.amount, logged: this.level(row.container) };
        continue;
      }
      const amount = this.amountOf(row, moved);
      if (row.what === 'moved_out') moved = amount;
      this.apply(here, row, amount);
      if (row.what === 'taken') {
        here.taken.push({ seq, amount, document_number: fields.document_number });
      }
    }
  }

  /** Derived where the entry stated none: all that is in it, of a log below zero nothing. */
  amountOf(row, moved) {
    if (row.what === 'emptied') return this.level(row.container);
    if (!row.whole) return row.amount;
    if (row.what === 'moved_in') return this.exchanged(row, moved);
    return this.level(row.container) > 0n ? this.level(row.container) : 0n;
  }

  /** `amount` of the container it comes from in the smallest unit of the one it goes into. */
  exchanged({ container, from }, amount) {
    const { register } = this;
    if (register.byMass(container) === register.byMass(from)) return amount;
    const density = register.density(from) ?? register.density(container);
    if (!density) return 0n;
    return register.byMass(container) ? roundedRatio(amount * density, 1000000n)
      : roundedRatio(amount * 1000000n, density);
  }

  apply(here, row, amount) {
    const change = kSigns[row.what] * amount;
    const stated = row.what !== 'emptied' && !row.whole;
    if (stated) here.movement.corrections += change;
    else here.movement[row.what] += amount;
    if (row.arises) here.arisen += amount;
    this.levels.set(row.container, this.level(row.container) + change);
    here.movement.closing += change;
  }

  /** All eight figures of a container in a month, also when nothing happened in it. */
  movementOf(month, container) {
    const key = `${month} ${container}`;
    if (this.months.has(key)) return this.months.get(key).movement;
    const earlier = [...this.months]
      .filter(([other]) => other.endsWith(` ${container}`) && other < key)
      .sort(([a], [b]) => (a < b ? -1 : 1)).at(-1);
    const level = earlier ? earlier[1].movement.closing : 0n;
    return { ...nothing(), opening: level, closing: level };
  }
}
