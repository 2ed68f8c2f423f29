// Every address of the app that shows something, with who looks at it: one list for the test that
// checks them all and for the pictures of them.
import { texts } from '../../forms/app/texts.js';
import { api } from './tablet.mjs';

export const kSizes = {
  'tablet-lying': { width: 1280, height: 800 },
  'tablet-upright': { width: 800, height: 1280 },
  phone: { width: 390, height: 844 },
};

const kEverybody = ['', 'recorded', 'due', 'findings', 'rules', 'collections', 'emergency', 'office',
  'cylinders', 'cylinders/n1', 'tools', 'tools/gauge/g1', 'levels', 'calculations',
  'calculations/nitrogen-content', 'this-tablet', 'sessions', 'outbox', 'pair', 'scan'];
const kOffice = ['print', 'print/waste-month', 'print/collection-sheet', 'print/tool-history/gauge/g1',
  'print/findings-list', 'print/audit-pack', 'kept', 'tablets'];
const kManager = ['register', 'register/container', 'register/container/w1', 'own-rules', 'import',
  'people', 'tokens', 'diagnostics'];
// Recorded by pages of their own, or by the daemon.
const kNoForm = ['register-change', 'month-close', 'correction', 'entries-confirmed',
  'access-change', 'access-day', 'backup-made', 'end-accepted', 'report-issued', 'rules-adopted'];

/** Addresses behind "#/" as {address, isForm}, for a person of `role` who is signed in. */
export async function screensFor(tablet, role) {
  const { entries: [entry] } = await api(tablet, '/entries?kind=oil-drained&limit=1');
  const { forms } = await api(tablet, '/forms');
  const addresses = [...kEverybody, `entry/${entry.seq}`, `head/${entry.seq}`];
  if (role !== 'technician') addresses.push(...kOffice);
  if (role !== 'inspector') addresses.push('more');
  if (role === 'manager') addresses.push(...kManager);
  const kinds = role === 'inspector' ? []
    : forms.map(({ kind }) => kind).filter((kind) => !kNoForm.includes(kind));
  return [...addresses.map((address) => ({ address, isForm: false })),
    ...kinds.map((kind) => ({ address: `record/${kind}`, isForm: true }))];
}

/** Goes there as a link within the page does, and waits until what it fetches is there. */
export async function openScreen({ page }, { address }) {
  const answered = page.waitForEvent('requestfinished', { timeout: 300 }).catch(() => null);
  await page.evaluate((hash) => {
    location.hash = hash;
  }, `#/${address}`);
  await answered; // a screen that asks the daemon nothing is there at once
  await page.waitForFunction((fetching) => {
    const main = document.querySelector('main');
    return main.querySelector('h1') && !main.textContent.includes(fetching);
  }, texts.loading);
}
