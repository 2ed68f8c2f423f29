// What a sheet can be about, by name: groups of choices, each with what the daemon is told of it.
import { get } from './api.js';
import { thingName } from './form-data.js';
import { subjectOf } from './sheets.js';
import { dayText, lastMonths, monthText } from './time.js';
import { store } from './store.js';
import { texts } from '../texts.js';

const kMonths = 15;

const plain = (options) => [{ label: '', options }];

/** By the workshop's clock, noon here: that of a tablet may be in another month, or wrong. */
async function workshopDay() {
  const { today } = await get('/months');
  return new Date(`${today}T12:00`);
}

async function months() {
  return plain(lastMonths(await workshopDay(), kMonths).map((month) =>
    ({ value: month, label: monthText(month), hint: '' })));
}

/** From this year back to the one of the first entry. */
async function years() {
  const { entries: [first] } = await get('/entries?limit=1');
  const newest = (await workshopDay()).getFullYear();
  const count = first ? newest - Number(first.occurred_at.slice(0, 4)) + 1 : 0;
  return plain(Array.from({ length: Math.max(0, count) }, (_, back) =>
    ({ value: String(newest - back), label: String(newest - back), hint: '' })));
}

async function collections() {
  const { collections: all } = await get('/collections');
  const { stages } = texts.collections;
  const several = (day) => all.filter((one) => one.day === day).length > 1;
  return plain(all.map(({ collection, day, stage, carrier }) => ({
    value: collection, label: dayText(day),
    hint: [stages[stage], carrier?.name, several(day) && collection].filter(Boolean).join(' · '),
  })));
}

function thing(sheet, one) {
  const hint = one.retired ? texts.cylinders.retired : one.id;
  return { value: subjectOf(sheet, one), label: thingName(one), hint };
}

/** The things of a class, those in use first; labels are printed of those only. */
function ofClass(sheet, { code, label }, things) {
  const inUse = things.filter(({ retired }) => !retired);
  const retired = sheet.whole ? [] : things.filter((one) => one.retired);
  const options = [...inUse, ...retired].map((one) => thing(sheet, one));
  if (sheet.whole && inUse.length > 1) {
    options.push({ value: code, label: texts.print.whole(inUse.length), hint: '' });
  }
  return { label, options };
}

async function things(sheet) {
  const [form, ...lists] = await Promise.all([get('/forms/register-change'),
    ...sheet.classes.map((name) => get(`/register/${name}`))]);
  const { options } = form.fields.find(({ name }) => name === 'thing_class');
  return sheet.classes.map((code, index) => ofClass(sheet,
    { code, label: options.find((one) => one.code === code).label }, lists[index].things));
}

/** The cautions that stand beside forms, each once. */
async function cautions() {
  const forms = await Promise.all(store.state.forms.map(({ kind }) => get(`/forms/${kind}`)));
  const all = new Map(forms.flatMap((form) => form.cautions ?? []).map((one) => [one.id, one.title]));
  return plain([...all].map(([value, label]) => ({ value, label, hint: '' })));
}

const kSubjects = { month: months, year: years, collection: collections, thing: things,
  caution: cautions };

/** [{label, options: [{value, label, hint}]}], without empty groups; none where nothing is chosen. */
export async function subjectsOf(sheet) {
  const groups = await kSubjects[sheet.about]?.(sheet) ?? [];
  return groups.filter(({ options }) => options.length);
}
