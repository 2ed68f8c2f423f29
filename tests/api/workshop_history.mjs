// Many entries of every sort that moves waste, late, corrected and struck out, from a seed: more
// than a story would tell, for sums to be tried on.
import { correction, freshId, newContainer, strikeOut, submission } from './submissions.mjs';

/** SplitMix64, so that a run can be repeated. */
class Dice {
  constructor(seed) { this.state = BigInt(seed); }

  next() {
    const wide = (value) => BigInt.asUintN(64, value);
    this.state = wide(this.state + 0x9e3779b97f4a7c15n);
    let z = this.state;
    z = wide((z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n);
    z = wide((z ^ (z >> 27n)) * 0x94d049bb133111ebn);
    return z ^ (z >> 31n);
  }

  upTo(n) { return Number(this.next() % BigInt(n)); }
  one(list) { return list[this.upTo(list.length)]; }
}

/** A number of thousandths as JSON writes it, without rounding. */
const decimal = (thousandths) => Number(`${Math.floor(thousandths / 1000)}.` +
  String(thousandths % 1000).padStart(3, '0'));

/** What of an entry may call for a second look: more than the log holds, oil among solvent. */
const unusual = (fields) => ['volume_ml', 'mass_kg', 'container']
  .filter((name) => fields[name] !== undefined)
  .concat((fields.loads ?? []).map((load, i) => `loads/${i}/mass_kg`));

/** Containers of all three streams, two of them working bins that count no waste yet. */
export function containers() {
  const make = (letter, fields) => newContainer(freshId(letter), { capacity_l: 200, ...fields });
  return [make('xa'), make('xb'), make('xc', { counts_waste: 'no' }),
    make('xd', { stream: 'spent-solvent' }), make('xe', { stream: 'oily-rags' }),
    make('xf', { stream: 'oily-rags', counts_waste: 'no', shape: 'bin' })];
}

/** Returns [body] in the order they are to be recorded; all occurred between the days given. */
export function entries(seed, count, ids, fromMs, untilMs) {
  const dice = new Dice(seed);
  const [a, b, bin, solvent, rags, rag_bin] = ids;
  const bodies = [];
  const open = [];
  const liquid = () => dice.one([a, b, bin, solvent]);
  const ml = () => decimal(1 + dice.upTo(4999999));
  const kg = () => decimal(10 + dice.upTo(24990));
  const kinds = {
    drain: () => ['oil-drained', { container: liquid(), volume_ml: ml() }],
    rags: () => ['rag-bin', { container: dice.one([rags, rag_bin]), bin_act: 'added',
      contaminant: 'mixed', mass_kg: kg() }],
    rags_out: () => ['rag-bin', { container: rag_bin, bin_act: 'emptied', emptied_into: rags,
      mass_kg: kg() }],
    part: () => ['transfer', { from_container: bin, to_container: dice.one([a, b]),
      volume_ml: ml() }],
    whole: () => ['transfer', { from_container: dice.one([bin, b]), to_container: a }],
    weighed: () => ['transfer', { from_container: a, to_container: b, mass_kg: kg() }],
    taken: () => ['collection', { collection: freshId('c'), stage: 'taken', carrier: 'tideline',
      document_number: `T/${dice.upTo(99999)}`, loads: [
        { container: liquid(), mass_kg: kg(), ...(dice.upTo(2) ? { emptied: 'yes' } : {}) },
        { container: rags, mass_kg: kg() }] }],
    swapped: () => ['container-change', { container: liquid(), container_act: 'swapped' }],
    dipped: () => ['level-reading', { container: liquid(), reading_method: 'dip',
      volume_ml: ml() }],
  };
  const names = ['drain', 'drain', 'drain', 'drain', 'rags', 'rags_out', 'part', 'whole', 'weighed',
    'taken', 'swapped', 'dipped', 'correct', 'correct', 'strike'];
  while (bodies.length < count) {
    const name = dice.one(names);
    if (name === 'correct' || name === 'strike') {
      if (open.length === 0) continue;
      const target = open.splice(dice.upTo(open.length), 1)[0];
      if (name === 'strike') {
        bodies.push(strikeOut(target.id));
      } else {
        const others = [a, b, solvent].filter((id) => id !== target.fields.container);
        const changed = dice.upTo(3) ? { volume_ml: ml() } : { container: dice.one(others) };
        bodies.push({ ...correction(target.id, changed), confirmed: unusual(changed) });
        open.push({ ...target, fields: { ...target.fields, ...changed } });
      }
      continue;
    }
    const [kind, fields] = kinds[name]();
    const occurred_at = new Date(fromMs + dice.upTo(untilMs - fromMs)).toISOString();
    const body = submission(kind, fields, { occurred_at, confirmed: unusual(fields) });
    bodies.push(body);
    if (name === 'drain') open.push(body);
  }
  return bodies;
}
