// One good submission of each kind that is not of every day, and the things of the register they
// name.
import { personOf, read, recorded } from './client.mjs';
import { pairedCookie, recordedWithoutPin } from './paired.mjs';
import { ago, drain, freshId, newContainer, strikeOut, submission } from './submissions.mjs';

const day = (ahead) => new Date(Date.now() + ahead * 86400e3).toISOString().slice(0, 10);
const today = () => day(0);

/** The oldest month of the book, opened again where it was closed. */
let month = '';

async function openMonth() {
  const oldest = (await read('/api/v1/months')).months.at(-1);
  if (oldest.closed) await recorded(strikeOut(oldest.closed.id), 'manager');
  month = oldest.month;
}

export const kManagers = new Set(['register-change', 'waste-determination', 'briefing',
  'month-close', 'finding-acknowledged', 'hold']);

export const things = { person: freshId('p'), plant: freshId('x'), cabinet: freshId('k'),
  product: freshId('t') };

const kAttributes = {
  person: { competences: [{ competence: 'stuck-parts', evidence: 'course' }] },
  plant: { name: 'Extinguisher', plant_type: 'extinguisher', inspection_interval_days: 365 },
  cabinet: { name: 'Cabinet', capacity_l: 120, fire_resistance_min: 90 },
  product: { name: 'Thinner', flash_point_c: 4, density_kg_m3: 870 },
};

/** One after the other: what holds an answer to the document takes its time, and the daemon does not
 *  wait for ever for a request on a connection that was opened meanwhile. */
async function make() {
  await findSomething();
  await openMonth();
  await claimSomething();
  for (const [thingClass, attributes] of Object.entries(kAttributes)) {
    await recorded(submission('register-change', { thing_class: thingClass, thing: things[thingClass],
      act: 'added', ...attributes }, { occurred_at: ago(300) }), 'manager');
  }
}

let made;
/** The things, entered once for all tests of a file. */
export function prepared() {
  made ??= make();
  return made;
}

/** Key of a finding that stands: a can filled beyond its working limit. */
let finding = '';

async function findSomething() {
  const container = freshId('c');
  await recorded(newContainer(container), 'manager');
  const drain = submission('oil-drained', { container, volume_ml: 9500 },
    { confirmed: ['volume_ml'] });
  await recorded(drain);
  const { findings } = await read(`/api/v1/entries/${drain.id}/findings`);
  finding = findings.find((one) => one.rule === 'own.working-limit').key;
}

/** Number of an entry of the technician without a PIN. */
let claimed = 0;

async function claimSomething() {
  const container = freshId('c');
  await recorded(newContainer(container), 'manager');
  claimed = (await recordedWithoutPin(await pairedCookie(), personOf('technician'),
    drain({ container, volume_ml: 62 }))).seq;
}

export const opened = (id, more = {}) => submission('stuck-part', { stuck_part: id,
  work_stage: 'opened', pressure_state: 'released', stop_fitted: 'yes', guard: 'yes',
  eye_protection: 'yes', ear_protection: 'yes', ...more }, { occurred_at: ago(60) });

export const closed = (id) => submission('stuck-part',
  { stuck_part: id, work_stage: 'closed', outcome: 'freed' });

export const happened = (id) => submission('event',
  { event: id, event_type: 'spill', fluid: 'mineral-oil', volume_ml: 1500, reached_drain: 'no' },
  { occurred_at: ago(60) });

export const acted = (id) => submission('action-closed',
  { about: 'event', event: id, what_was_done: 'drum strapped', effective: 'yes' });

export const moreSamples = {
  'solvent-waste': () => submission('solvent-waste', { container: 's1', volume_ml: 2500,
    solvent: 'hydrocarbon', product: things.product, source: 'parts-wash' }),
  'container-inspection': () => submission('container-inspection', { container: 'w1',
    closed: 'yes', label_legible: 'yes', leak_free: 'yes', damage: 'none', bund_dry: 'yes' }),
  'oil-test': () => submission('oil-test', { tested_class: 'container', container: 'w1',
    sampled_on: today(), halogens_ppm: 999.5, pcb_ppm: 2 }),
  'waste-determination': () => submission('waste-determination', { stream: 'used-oil',
    low_code: '13 01 10', hazardous: 'yes', basis: 'data-sheet', reason_given: 'mineral oil' }),
  'cylinder-change': () => submission('cylinder-change', { cylinder: 'n2', change: 'fitted',
    tool: 'r1', gauge_pressure_bar: 170.5, damage_found: 'no' }),
  'gas-use': () => submission('gas-use', { cylinder: 'n2', tool: 'r1', unit_count: 4,
    charge_pressure_bar: 14, unit_gas_volume_ml: 120 }),
  'plant-check': () => submission('plant-check', { plant: things.plant, access_clear: 'yes',
    charge_condition: 'passed', result: 'in-service' }),
  'cabinet-count': () => submission('cabinet-count', { cabinet: things.cabinet,
    rows: [{ product: things.product, volume_ml: 5000, count: 3, material: 'metal' }] }),
  'walk-round': () => submission('walk-round', { period: 'daily', exits_clear: 'yes' }),
  'stuck-part': () => opened(freshId('s'),
    { pressure_state: 'not-known', authorised_by: things.person }),
  event: () => happened(freshId('e')),
  'action-closed': () => submission('action-closed', { about: 'finding', finding,
    what_was_done: 'bin emptied', effective: 'yes' }),
  briefing: () => submission('briefing', { briefed: things.person, topic: 'high-pressure-gas',
    valid_until: today() }),
  'month-close': () => submission('month-close', { month, statement: 'no gaps' }),
  'finding-acknowledged': () => submission('finding-acknowledged', { finding,
    reason_given: 'collection ordered', until: day(2) }),
  'entries-confirmed': () => submission('entries-confirmed',
    { confirmed_entries: [{ entry_number: claimed }], authorship: 'mine' }),
  hold: () => submission('hold', { hold: 'placed', authority: 'Agency', scope: 'all of 2026' }),
};
