// Who is at the tablet, and the first look at the daemon. A session is one of the daemon's, opened
// with a PIN, or `claimed`: a name taken from the list while the daemon was out of reach.
import { get, isAway, onSignedOut, post } from './api.js';
import { beginOutbox } from './outbox.js';
import { noteTouch, wasLeftAlone } from './idle.js';
import { endLeft, leaveSession } from './leaving.js';
import { kReach } from './reach.js';
import { lookDevice } from './device.js';
import { lookUnconfirmed } from './authorship.js';
import { recallDrafts } from './drafts.js';
import { recallOffset } from './clock.js';
import { factOf, setFact } from './vault.js';
import { provide } from './provision.js';
import { showIn } from './shown-in.js';
import { store } from './store.js';
import { wake } from './sender.js';
import { isWithin } from './within.js';
import { texts } from '../texts.js';

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

/** What the bench of the session shows. */
async function benchOf(session) {
  const [forms, levels] = await Promise.all([get('/forms', session),
    isWithin('waste', session) ? get('/levels', session) : { levels: [] }]);
  return { session, forms: forms.forms, levels: levels.levels };
}

function show(bench) {
  store.set({ ...bench, asking: null, note: '' });
  wake();
  if (!store.state.away) provide();
}

const enter = async (session) => show(await benchOf(session));

// Windows of one browser have one person: the fact "session" says who it is, this that it changed.
const others = new BroadcastChannel('benchwarden-session');

async function keepSession(session) {
  await setFact('session', session);
  others.postMessage('changed');
}

/** The session is kept before it is shown: whoever loads the page anew from then on is still in it. */
async function afterSignIn(session) {
  const bench = await benchOf(session);
  await noteTouch({ always: true });
  await keepSession(session);
  show(bench);
}

/** Takes the session from this window. */
const leave = (note) =>
  store.set({ session: null, asking: null, saved: null, unconfirmed: [], note });

/** Does as another window did. A screen of who was here is taken away before the next person has
 *  one, so that nothing is recorded from it in the name of the other. */
async function follow() {
  const session = await factOf('session');
  const shown = store.state.session;
  if (shown && session?.person !== shown.person) leave('');
  const same = session?.person === shown?.person && session?.claimed === shown?.claimed;
  if (session && !same) await enter(session);
}

let following = Promise.resolve();

/** One change after the other. */
function followNext() {
  following = following.then(follow).catch((error) => console.warn('not followed', error));
  return following;
}

/** Ends a session that nobody is shown any more, here at once and on the daemon as it can. */
async function forget(session) {
  await keepSession(null);
  if (!session.claimed) leaveSession(session.person);
}

/** Goes on with the session of before the page was loaded anew. One that was left alone for too long
 *  is over, whether or not the daemon still has it. */
async function resume() {
  const kept = await factOf('session');
  if (!kept) return;
  if (await wasLeftAlone()) {
    await forget(kept);
    return;
  }
  try {
    await enter(kept.claimed ? kept : await standing());
  } catch (error) {
    if (error.status === 401) await keepSession(null);
    else if (isAway(error) && !kept.claimed) await enter(kept);
    else throw error;
  }
}

/** The session as the daemon has it. */
async function standing() {
  const { person, name, role, inspection } = await get('/session');
  return { person, name, role, inspection, claimed: false };
}

/** The daemon answers again: is the session that went on meanwhile still one? */
async function check() {
  const { session } = store.state;
  await lookDevice();
  if (session && !session.claimed) await get('/session');
}

function watch() {
  onSignedOut(() => {
    const { session } = store.state;
    if (!session || session.claimed) return;
    leave(texts.problem.signedOut);
    keepSession(null);
  });
  kReach.addEventListener('back', () => check().catch(() => {}));
  others.addEventListener('message', followNext);
}

let watching = false;

/** Looks who is entered and whether a session is still open. Throws what api.js throws. */
export async function start() {
  if (!watching) {
    await Promise.all([recallOffset(), recallDrafts(), beginOutbox()]);
    watch();
    watching = true;
  }
  fetchEmergency();
  await refreshPeople();
  await lookDevice();
  await resume();
  await followNext(); // another window may have changed it meanwhile
  store.set({ started: true });
  wake();
}

/** Signs in with the PIN, or from elsewhere the passphrase; throws the refusal in the daemon's words.
 *  What was made before goes first, under the name it was made in. */
export async function signIn(person, secret) {
  await wake();
  await endLeft(true);
  const answer = await post('/session', { person, [store.state.signInBy]: secret });
  const { name, role, inspection } = answer;
  await afterSignIn({ person, name, role, inspection, claimed: false });
  if (!store.state.emergency) fetchEmergency();
  await lookUnconfirmed();
}

/** True when a person can go on without a PIN, which nobody could check. */
export const mayClaim = () => store.state.away && store.state.device !== null;

/** Takes a name from the list. */
export async function claim({ id, name, role }) {
  await afterSignIn({ person: id, name, role, claimed: true });
}

/** Ends the session here at once, and on the daemon as soon as it answers and has its rows. That it
 *  is over is kept before it shows: loading the page anew from then on does not bring it back. */
export async function signOut(note = '') {
  const { session } = store.state;
  try {
    await keepSession(null);
  } finally {
    leave(note);
  }
  if (session.claimed) return;
  await leaveSession(session.person);
  if (!store.state.away) await refreshPeople().catch(() => {});
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
