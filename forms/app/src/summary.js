// What an entry says in short, as a line of a list tells it: what was done, how much, and with what.
import { scalarText } from './shown-value.js';
import { texts } from '../texts.js';

// By kind the fields that are told, in order. Of kinds without any: the first amount and thing.
const kTold = {
  'solvent-waste': ['volume_ml', 'container', 'solvent'],
  'rag-bin': ['bin_act', 'mass_kg', 'fill_percent', 'container', 'emptied_into', 'lid_shut'],
  transfer: ['volume_ml', 'mass_kg', 'from_container', 'to_container'],
  'level-reading': ['reading_method', 'volume_ml', 'mass_kg', 'container'],
  'container-change': ['container_act', 'container'],
  'container-inspection': ['container', 'damage'],
  'oil-test': ['container', 'stream', 'halogens_ppm', 'rebuttal'],
  collection: ['stage', 'carrier', 'planned_date', 'document_number', 'loads'],
  'cylinder-check': ['gauge_pressure_bar', 'cylinder', 'result'],
  'cylinder-change': ['change', 'gauge_pressure_bar', 'cylinder'],
  'gas-use': ['unit_count', 'cylinder', 'tool'],
  'tool-inspection': ['tool', 'gauge', 'result'],
  'plant-check': ['plant', 'result'],
  'walk-round': ['period'],
  'cabinet-count': ['cabinet', 'rows'],
  'stuck-part': ['work_stage', 'part', 'pressure_state', 'outcome'],
  event: ['event_type', 'what_happened', 'volume_ml', 'room', 'reached_drain'],
  'action-closed': ['what_was_done', 'effective'],
  'finding-acknowledged': ['finding', 'reason_given'],
  'register-change': ['act', 'thing_class', 'thing'],
  briefing: ['topic', 'briefed'],
  hold: ['hold', 'authority'],
  'waste-determination': ['stream', 'hazardous', 'basis'],
  'month-close': ['month'],
  'report-issued': ['report', 'month'],
  'rules-adopted': ['pack', 'edition'],
  'access-change': ['access_act', 'account'],
  'access-day': ['log_day', 'sign_in_count'],
  'entries-confirmed': ['authorship', 'confirmed_entries'],
  correction: ['action'],
};
// Where none of these is given, all that was there is meant.
const kAll = { transfer: ['volume_ml', 'mass_kg'] };
// Kinds that answer for several things: what was found lacking is told, or that nothing was.
const kAnswered = ['container-inspection', 'walk-round', 'plant-check', 'tool-inspection'];
const kNot = ['no', 'failed'];
const kYes = ['yes', 'passed'];

const kBareUnits = ['ml', 'kg', 'bar']; // what is told in them says itself what it is

const isAnswer = ({ type, options }) => type === 'code'
  && options.some(({ code }) => kNot.includes(code));

/** What stands of a value without the name of its field: a choice that says what was done, an amount. */
function isBare(field, first) {
  if (field.type === 'quantity') return kBareUnits.includes(field.unit.id);
  if (field.type === 'id') return field.name === first;
  return field.type === 'text' || (field.type === 'code' && field.required && !isAnswer(field));
}

function words(field, values, names, first) {
  const value = values[field.name];
  const text = Array.isArray(value) ? String(value.length)
    : scalarText(field, value, values, names);
  return isBare(field, first) ? text : texts.summary.labelled(field.label, text);
}

/** Which items were found lacking, by their names; else of how many that none was. */
function answersText(form, values) {
  const asked = form.fields.filter((field) => isAnswer(field) && values[field.name] !== undefined);
  const lacking = asked.filter(({ name }) => kNot.includes(values[name]));
  const others = asked.filter(({ name }) => kYes.includes(values[name]));
  if (lacking.length) return texts.summary.lacking(lacking.map(({ label }) => label).join(', '));
  return others.length ? texts.summary.noneLacking(others.length) : '';
}

function firstOf(form, values) {
  return ['quantity', 'id'].map((type) => form.fields.find((field) => field.type === type
    && values[field.name] !== undefined)).filter(Boolean);
}

function toldFields(form, values) {
  const told = kTold[form.kind];
  if (!told) return firstOf(form, values);
  return told.map((name) => form.fields.find((field) => field.name === name))
    .filter((field) => field && values[field.name] !== undefined);
}

/** "327 mL · Bench oil W2", "Rags added · Rag bin B1". */
export function summary(form, values, names) {
  const fields = toldFields(form, values);
  const first = fields.find(({ type }) => type === 'id')?.name;
  const all = kAll[form.kind]?.every((name) => values[name] === undefined);
  return [all && texts.summary.all, ...fields.map((field) => words(field, values, names, first)),
    kAnswered.includes(form.kind) && answersText(form, values)].filter(Boolean).join(' · ');
}
