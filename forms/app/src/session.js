// Who is signed in, and the first look at the daemon.
import { get, onSignedOut, post, request } from './api.js';
import { showIn } from './shown-in.js';
import { store } from './store.js';
import { texts } from '../texts.js';

/** Milliseconds without a touch after which the next person has to sign in. */
export const kIdleMs = 5 * 60 * 1000;

/** Fetches who is entered. */
export async function refreshPeople() {
  const answer = await get('/people');
  showIn(answer.shown_in);
  store.set({ people: answer.people, setupNeeded: Boolean(answer.setup_needed) });
}

async function fetchEmergency() {
  try {
    store.set({ emergency: await get('/emergency') });
  } catch {
    store.set({ emergency: null });
  }
}

async function afterSignIn(session) {
  const [forms, levels] = await Promise.all([get('/forms'), get('/levels')]);
  store.set({ session, note: '', forms: forms.forms, levels: levels.levels });
}

/** Looks who is entered and whether a session is still open. Throws what api.js throws. */
export async function start() {
  onSignedOut(() => {
    if (store.state.session) store.set({ session: null, note: texts.problem.signedOut });
  });
  fetchEmergency();
  await refreshPeople();
  try {
    await afterSignIn(await get('/session'));
  } catch (error) {
    if (error.status !== 401) throw error;
  }
  store.set({ started: true });
}

/** Signs in; throws the refusal in the daemon's words. */
export async function signIn(person, pin) {
  const { name, role } = await post('/session', { person, pin });
  await afterSignIn({ person, name, role });
  if (!store.state.emergency) fetchEmergency();
}

/** Ends the session here at once, and on the daemon as soon as it answers. */
export async function signOut(note = '') {
  store.set({ session: null, saved: null, note });
  try {
    await request('DELETE', '/session');
    await refreshPeople();
  } catch (error) {
    if (error.status !== 401) store.set({ note: texts.problem.noAnswer });
  }
}

/** Enters the first manager with the code from the console. */
export async function setUp(code, name, pin) {
  await post('/setup', { code, name, pin });
  await refreshPeople();
  store.set({ note: texts.setup.done(name) });
}

/** The name of a person id as far as this tablet may know it. */
export function personName(id) {
  return store.state.people.find((person) => person.id === id)?.name ?? texts.people.unknown(id);
}

export const mayRecord = (session) => ['technician', 'manager'].includes(session?.role);
export const mayEnter = (session) => session?.role === 'manager';
export const mayReport = (session) => ['manager', 'inspector'].includes(session?.role);
