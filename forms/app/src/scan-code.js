// What the code of a label says, which thing of the register that is, and what is usually recorded
// about it. Only the register's lists are asked for: a code itself is sent nowhere.
import { get } from './api.js';
import { takersOf } from './beginnings.js';
import { arranged } from './draft.js';
import { choices } from './form-data.js';
import { isUsual } from './form-parts.js';
import { store } from './store.js';
import { thingsOf } from './within.js';

/** By class the kinds that are recorded about its things every day, the most usual first. */
const kKinds = {
  container: ['oil-drained', 'solvent-waste', 'rag-bin', 'level-reading', 'transfer',
    'container-inspection'],
  cylinder: ['cylinder-check', 'gas-use'],
  tool: ['tool-inspection'],
  gauge: ['tool-inspection'],
};

/** The first part of the address of a thing's page. */
const kPages = { container: 'levels', cylinder: 'cylinders', tool: 'tools/tool', gauge: 'tools/gauge' };

export const pageOf = ({ class: name, id }) => `${kPages[name]}/${encodeURIComponent(id)}`;

/** The classes of what carries a label. */
export const kClasses = Object.keys(kKinds);

const kId = /^[a-z0-9][a-z0-9-]*$/;

/** {thingClass, id} of a scanned "container/w1"; null of any other code. */
export function scanned(text) {
  const [thingClass, id, ...more] = text.split('/');
  const ours = kClasses.includes(thingClass) && kId.test(id ?? '') && !more.length;
  return ours ? { thingClass, id } : null;
}

/** The same of what was typed, where the class may be left out. */
export function typed(text) {
  const plain = text.trim().toLowerCase();
  return scanned(plain) ?? (kId.test(plain) ? { thingClass: null, id: plain } : null);
}

/** The things of the register that are meant, retired ones among them. */
export async function thingsMeant({ thingClass, id }) {
  const classes = thingClass ? [thingClass] : kClasses;
  const lists = await Promise.all(classes.map(async (name) => await thingsOf(name) ?? []));
  return lists.flat().filter((thing) => thing.id.toLowerCase() === id);
}

async function takes(kind, { class: name, id }) {
  const form = arranged(await get(`/forms/${kind}`));
  const [field] = takersOf(form, {}, name);
  const offered = field ? await choices(name, form) : [];
  return offered.some((one) => one.id === id && isUsual(field, one));
}

/** The forms that are usual for a thing and can name it now, as GET /forms has them. */
export async function usualForms(thing) {
  const { forms, session } = store.state;
  const open = kKinds[thing.class].map((kind) => forms.find((form) => form.kind === kind))
    .filter((form) => form?.roles_allowed?.includes(session.role) ?? Boolean(form));
  const fitting = await Promise.all(open.map(({ kind }) => takes(kind, thing)));
  return open.filter((_, index) => fitting[index]);
}
