// An inspector whose access is for a part of the book: every page that is offered opens, and none that
// shows more is offered.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { openScreen } from './all_screens.mjs';
import { demo, launch, openTablet, personOf, signIn } from './tablet.mjs';

const kDay = 86400000;
const kMonths = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
const dayAhead = (days) => new Date(Date.now() + days * kDay);
const kPin = '731946';

let browser;
let manager;
const entered = [];
before(async () => {
  browser = await launch();
  manager = await openTablet(browser);
  await signIn(manager, personOf('manager'));
});
// The list of who may sign in is that of before.
after(async () => {
  for (const id of entered) await send('PUT', `/people/${id}/active`, { active: false });
  await browser?.close();
});

async function send(method, path, data) {
  const answer = await manager.context.request.fetch(`${demo.address}/api/v1${path}`,
    { method, data, headers: { Origin: demo.address } });
  assert.ok(answer.ok(), `${path}: ${await answer.text()}`);
  return answer.json();
}

/** A new inspector who reads that part until four days from now. */
async function enter(name, scope) {
  const person = await send('POST', '/people', { name, role: 'inspector', pin: kPin });
  entered.push(person.id);
  await send('PUT', `/people/${person.id}/inspection`, { scope,
    first_day: dayAhead(-1).toISOString().slice(0, 10),
    last_day: dayAhead(4).toISOString().slice(0, 10) });
  return { ...person, pin: kPin };
}

const addresses = (page) => page.locator('a[href^="#/"]').evaluateAll((links) =>
  [...new Set(links.map((link) => link.getAttribute('href').slice(2)))]);

const kParts = {
  waste: { sees: ['levels', 'collections', 'recorded', 'register', 'print/waste-month', 'print/waste-year'],
    not: ['findings', 'due', 'cylinders', 'tools', 'kept', 'print/cylinder-history', 'print/audit-pack'] },
  'cylinders-and-tools': { sees: ['cylinders', 'tools', 'recorded', 'register', 'print/tool-history'],
    not: ['findings', 'due', 'levels', 'collections', 'kept', 'print/waste-month', 'print/findings-list'] },
};

for (const [scope, { sees, not }] of Object.entries(kParts)) {
  test(`what is offered to an inspector of ${scope} opens`, async () => {
    const tablet = await openTablet(browser, { viewport: { width: 390, height: 844 } });
    await signIn(tablet, await enter(`Reader of ${scope}`, scope));
    const { page } = tablet;
    const last = dayAhead(4);
    const words = `${last.getUTCDate()}.${kMonths[last.getUTCMonth()]}.${last.getUTCFullYear()}`;
    await page.getByText(new RegExp(`read-only, ${words} is the last day: `)).waitFor();

    const offered = new Set(await addresses(page));
    for (const address of ['office', 'print', 'register']) {
      await openScreen(tablet, { address });
      (await addresses(page)).forEach((one) => offered.add(one));
    }
    assert.deepEqual(sees.filter((address) => !offered.has(address)), []);
    assert.deepEqual(not.filter((address) => offered.has(address)), []);
    offered.delete('scan'); // which says that there is no camera here
    for (const address of offered) {
      await openScreen(tablet, { address });
      const alerts = await page.locator('main [role="alert"]').allInnerTexts();
      assert.deepEqual(alerts.filter((text) => text.trim()), [], address);
    }
    await tablet.context.close();
  });
}

test('an entry within is read with its proof', async () => {
  const tablet = await openTablet(browser);
  await signIn(tablet, await enter('Reader of proofs', 'waste'));
  const answer = await tablet.context.request
    .get(`${demo.address}/api/v1/entries?kind=oil-drained&limit=1`);
  const { entries: [entry] } = await answer.json();
  await openScreen(tablet, { address: `head/${entry.seq}` });
  assert.deepEqual(await tablet.page.locator('main [role="alert"]').allInnerTexts(), []);
  await tablet.context.close();
});
