// Fetches ahead what forms need, so that every form can be filled in while the daemon is out of
// reach, also one that was never opened on this tablet.
import { formData } from './form-data.js';
import { factOf, setFact } from './vault.js';
import { store } from './store.js';

const kAgainMs = 15 * 60 * 1000;
const kPauseMs = 150; // between forms: people come first

const pause = () => new Promise((resolve) => {
  setTimeout(resolve, kPauseMs);
});

let busy = false;

async function fetchAll() {
  const { session, forms } = store.state;
  const kinds = forms.filter((form) => form.roles_allowed?.includes(session.role) ?? true);
  for (const { kind } of kinds) {
    await pause();
    if (store.state.session !== session || store.state.away) return;
    await formData(kind, session.person);
  }
  await setFact('provided', Date.now());
}

/** Does so now and then, in the background; what fails is fetched the next time. */
export async function provide() {
  if (busy || Date.now() - await factOf('provided') < kAgainMs) return;
  busy = true;
  try {
    await fetchAll();
  } catch (error) {
    console.warn('not all fetched ahead', error);
  } finally {
    busy = false;
  }
}
