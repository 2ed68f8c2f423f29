// How long records are kept: every rule with its citation, and the holds, which a manager places
// and lifts by choosing one that stands.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import {
  api, button, launch, openTablet, personOf, screenFaults, signIn,
} from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

async function open(role) {
  const tablet = await openTablet(browser);
  await signIn(tablet, personOf(role));
  await tablet.page.getByRole('link', { name: 'How long records are kept' }).tap();
  await tablet.page.locator('[data-kept]').first().waitFor();
  return tablet;
}

test('what is kept until when and by which citation, for an inspector to read', async () => {
  const tablet = await open('inspector');
  const { page } = tablet;
  const { kept } = await api(tablet, '/retention');
  for (const one of kept) {
    const said = await page.locator(`[data-kept="${one.rule}"]`).innerText();
    assert.ok(said.includes(one.citation), one.citation);
    for (const { entry } of one.entries) assert.ok(said.includes(`No. ${entry}`), `${entry}`);
  }
  assert.match(await page.locator('main').innerText(), /Until \d+\s\w{3}\s\d{4}:/);
  assert.equal(await button(page, 'Place a hold').count(), 0);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await tablet.context.close();
});

test('a hold is placed, and lifted by choosing it from those that stand', async () => {
  const tablet = await open('manager');
  const { page } = tablet;
  const authority = `Agency, file ${Date.now() % 1e6}`;
  await button(page, 'Place a hold').tap();
  const place = page.getByRole('button', { name: /^Place it as / });
  await place.tap();
  await page.locator('.placing .fault').first().waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await page.locator('[data-field="authority"] input').fill(authority);
  await page.locator('[data-field="scope"] input').fill('Waste records of 2026');
  await place.tap();
  const hold = page.locator('[data-hold]', { hasText: authority });
  await hold.waitFor();
  assert.match(await hold.innerText(), /Waste records of 2026/);
  assert.equal((await api(tablet, '/retention')).holds.length, 1);
  await hold.getByRole('button', { name: 'Lift this hold' }).tap();
  await hold.getByText('has said so in writing').waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await hold.getByRole('button', { name: /^Lift it as / }).tap();
  await page.getByText('No hold stands.').waitFor();
  assert.deepEqual((await api(tablet, '/retention')).holds, []);
  await tablet.context.close();
});
