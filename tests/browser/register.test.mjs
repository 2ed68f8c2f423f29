// The register on the tablet: a thing is found without its id, shown with labels, and changed without
// losing what stands.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  api, button, demo, launch, openTablet, personOf, screenFaults, signIn, tapNumber,
} from './tablet.mjs';

const kRoom = `bay-${Date.now() % 1e7}`;

let browser;
let tablet;
let page;
before(async () => {
  browser = await launch();
  tablet = await openTablet(browser);
  page = tablet.page;
  await signIn(tablet, personOf('manager'));
});
after(() => browser?.close());

const link = (name) => page.getByRole('link', { name, exact: true });
const open = (path) => page.goto(`${demo.address}/#/${path}`);
const clean = async () => assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);

async function competences(id) {
  return (await api(tablet, `/register/person/${id}`)).attributes.competences;
}

/** Persons in the register who have a competence, by name. */
async function competentPerson() {
  const { things } = await api(tablet, '/register/person');
  const { people } = await api(tablet, '/people');
  const { id } = things.find(({ attributes }) => attributes.competences?.length > 1);
  return people.find((person) => person.id === id);
}

describe('the register', () => {
  test('lists the things of each kind by name, persons by the name they sign in with', async () => {
    await page.getByRole('link', { name: 'Things under care' }).tap();
    await page.getByRole('heading', { name: 'Things under care' }).waitFor();
    await clean();
    await page.locator('a.person', { hasText: 'Person' }).tap();
    const person = await competentPerson();
    await page.locator('a.person', { hasText: person.name }).waitFor();
    await clean();
  });

  test('adds a room: its volume has a keypad at once', async () => {
    await open('register/room');
    await link('Add one').tap();
    await page.getByRole('heading', { name: 'New: Room' }).waitFor();
    await page.locator('[data-field="thing"] input').fill(kRoom);
    await page.locator('label[data-field="name"] input').fill('Bay for tests');
    await tapNumber(tablet, '48');
    assert.equal(await page.locator('.number-value').textContent(), '48');
    await clean();
    await page.locator('.save').tap();
    await page.locator('a.person', { hasText: 'Bay for tests' }).tap();
    await page.locator('dt', { hasText: 'Room volume' }).waitFor();
    await clean();
  });

  test('changes only what differs', async () => {
    await link('Change').tap();
    await page.getByRole('heading', { name: 'Change: Bay for tests' }).waitFor();
    assert.equal(await page.locator('.number-value').textContent(), '48');
    await page.locator('label[data-field="name"] input').fill('Bay 2');
    await page.locator('label[data-field="name"] input').fill('');
    await page.locator('.save').tap();
    await page.getByText('can be altered here, not emptied').waitFor();
    await page.locator('label[data-field="name"] input').fill('Bay 2');
    const sent = page.waitForRequest((one) => one.method() === 'POST' && /entries$/.test(one.url()));
    await page.locator('.save').tap();
    assert.deepEqual((await sent).postDataJSON().fields,
      { act: 'changed', thing_class: 'room', thing: kRoom, name: 'Bay 2' });
    await page.locator('a.person', { hasText: 'Bay 2' }).tap();
  });

  test('retires it', async () => {
    await link('Retire').tap();
    await page.getByRole('heading', { name: 'Retire: Bay 2' }).waitFor();
    await page.locator('.save').tap();
    await page.locator('a.person').first().waitFor(); // back on the list: it is recorded
    assert.equal((await api(tablet, `/register/room/${kRoom}`)).retired, true);
  });

  test('keeps the competences that stand when one is added', async () => {
    const { id, name } = await competentPerson();
    const before = await competences(id);
    await open(`register/person/${id}`);
    await link('Change').tap();
    await page.getByRole('heading', { name: `Change: ${name}` }).waitFor();
    assert.equal(await page.locator('.lines li').count(), before.length);
    await page.getByRole('button', { name: /^Competent for/ }).tap();
    await button(page, 'Add a line').tap();
    await page.locator('[data-field="competence"] .choice', { hasText: 'Inspecting plant' }).tap();
    await button(page, 'Done with this line').tap();
    await button(page, 'Back to the main page').tap();
    await clean();
    await page.locator('.save').tap();
    await page.locator('a.person').first().waitFor();
    assert.deepEqual(await competences(id), [...before, { competence: 'plant-inspection' }]);
    await page.getByRole('button', { name: 'Undo' }).tap();
    await page.getByText('is struck out by').waitFor();
  });

  test('offers who can sign in and is not entered', async () => {
    await open('record/register-change/added/person');
    const { things } = await api(tablet, '/register/person');
    const { people } = await api(tablet, '/people');
    const entered = new Set(things.map(({ id }) => id));
    const names = people.filter(({ id }) => !entered.has(id)).map((person) => person.name);
    await page.locator('[data-field="thing"]').waitFor();
    assert.deepEqual(await page.locator('[data-field="thing"] b').allTextContents(), names);
  });
});
