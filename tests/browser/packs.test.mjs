// A manager writes a rule pack of the workshop's own: a copy to start from, its faults, putting it
// in force, and withdrawing it.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { api, button, demo, launch, openTablet, personOf, screenFaults, signIn } from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const pack = (days) => `pack = "ours"
title = "Our rules"
edition = "2026-11-01"
remarks = "Stricter than what the law asks for."
[[rules]]
id = "ours.clock"
kind = "storage-clock"
citation = "our permit, condition 4"
edition = "2026"
confidence = "own-rule"
sentence = "So many days."
figures = { limit = { value = "${days}", unit = "d" } }
`;

const text = (page) => page.getByLabel('Text of the pack (TOML)');

async function openPage(tablet) {
  await signIn(tablet, personOf('manager'));
  await tablet.page.getByRole('link', { name: 'Record something else' }).tap();
  await tablet.page.getByRole('link', { name: 'Rules of our own' }).tap();
  await tablet.page.getByRole('heading', { name: 'What judges now' }).waitFor();
}

for (const [name, viewport] of [['a tablet', { width: 1280, height: 800 }],
  ['a telephone', { width: 360, height: 740 }]]) {
  test(`a pack is looked through, put in force and withdrawn on ${name}`, async () => {
    const tablet = await openTablet(browser, { viewport });
    const { page } = tablet;
    await openPage(tablet);
    await page.getByText('No pack of the workshop\u2019s own is in force.').waitFor();
    const { packs } = await api(tablet, '/rules');
    assert.equal(await page.locator('[data-pack]').count(), packs.length);
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);

    await text(page).fill(pack('-3').replace('storage-clock"', 'storage-clock"\nkin = "x"'));
    await button(page, 'Look for faults').tap();
    await page.getByText('2 faults in this text; it cannot be put in force.').waitFor();
    const faults = await page.locator('ol.imported li').allTextContents();
    assert.ok(faults.some((one) => /^Line 13 · .*'-3', accepted: a whole number from 0/.test(one)),
      faults.join());
    assert.ok(faults.some((one) => /^Line 8 · 'kin' is not known here/.test(one)), faults.join());
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);

    await page.locator('input[type=file]').setInputFiles(
      { name: 'ours.toml', mimeType: 'application/toml', buffer: Buffer.from(pack('30')) });
    await page.getByText('ours, edition 2026-11-01: 1 rule, no fault found.').waitFor();
    assert.equal(await text(page).inputValue(), pack('30'));
    await button(page, `Put in force as ${personOf('manager').name}`).tap();
    await page.getByText('In force: ours, edition 2026-11-01, by entry no.').waitFor();
    const { rules } = await api(tablet, '/rules');
    assert.ok(rules.some((one) => one.rule === 'ours.clock'));
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);

    await button(page, 'Withdraw it').tap();
    await button(page, 'Keep it').tap();
    await button(page, 'Withdraw it').tap();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await button(page, `Withdraw it as ${personOf('manager').name}`).tap();
    await page.getByText('Withdrawn.').waitFor();
    await page.getByText('No pack of the workshop\u2019s own is in force.').waitFor();
    await tablet.context.close();
  });
}

test('a copy of every built-in pack can be put in force as it is', async () => {
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await openPage(tablet);
  for (const { pack: name } of (await api(tablet, '/rules/packs')).built_in) {
    await page.locator(`[data-copy=${name}]`).tap();
    assert.match(await text(page).inputValue(), new RegExp(`^pack = "own-${name}"`));
    await button(page, 'Look for faults').tap();
    await page.getByText(`own-${name}, edition`).waitFor();
  }
  await tablet.context.close();
});

test('nobody but a manager is offered it', async () => {
  for (const role of ['technician', 'inspector']) {
    const tablet = await openTablet(browser);
    await signIn(tablet, personOf(role));
    await tablet.page.goto(`${demo.address}/#/rules`);
    await tablet.page.getByRole('heading', { name: 'Rules in force' }).waitFor();
    assert.equal(await tablet.page.getByRole('link', { name: 'Rules of our own' }).count(), 0);
    await tablet.context.close();
  }
});
