// What of the book is offered to choose from where an entry names it: findings by their sentence,
// events and stuck parts that are open, collections that are under way, people who are not entered.
import { allEntries, get } from './api.js';
import { unended } from './beginnings.js';
import { dayText, withDays } from './time.js';
import { store } from './store.js';
import { texts } from '../texts.js';

async function labelsOf(kind, name) {
  const { fields } = await get(`/forms/${kind}`);
  const options = fields.find((field) => field.name === name).options;
  return (code) => options.find((option) => option.code === code)?.label ?? code;
}

async function events() {
  const [begun, closed, label] = await Promise.all([allEntries('kind=event'),
    allEntries('kind=action-closed'), labelsOf('event', 'event_type')]);
  return unended(begun, closed, 'event').map(({ fields, occurred_at: at }) => ({ id: fields.event,
    name: [label(fields.event_type), dayText(at)].join(', '), hint: fields.what_happened ?? '' }));
}

async function stuckParts() {
  const all = await allEntries('kind=stuck-part');
  const at = (stage) => all.filter(({ fields }) => fields.work_stage === stage);
  return unended(at('opened'), at('closed'), 'stuck_part').map(({ fields, occurred_at: moment }) => ({
    id: fields.stuck_part, name: fields.part ?? fields.stuck_part, hint: dayText(moment) }));
}

async function findings() {
  const said = await get('/findings');
  return said.findings.map(({ key, sentence, severity }) => ({ id: key, name: withDays(sentence),
    hint: texts.findings.groups[severity] }));
}

async function collections() {
  const all = await get('/collections');
  return all.collections.filter(({ stage }) => stage !== 'weighed').map((one) => ({
    id: one.collection, name: dayText(one.day), hint: texts.collections.stages[one.stage] }));
}

/** People who can sign in and are not in the register yet. */
export async function unentered() {
  const { things } = await get('/register/person');
  const entered = new Set(things.map(({ id }) => id));
  return store.state.people.filter(({ id }) => !entered.has(id))
    .map(({ id, name, role }) => ({ id, name, hint: texts.roles[role] }));
}

const kSources = { events, findings, collections, 'stuck-parts': stuckParts, unentered };

/** {id, name, hint} of each that is offered by a source of pages.js. */
export const standing = (source) => kSources[source]();
