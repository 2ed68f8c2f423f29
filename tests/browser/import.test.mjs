// A manager enters things from a file: the faults of one file, then what another would bring, then
// the recording of it.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { button, demo, launch, openTablet, personOf, screenFaults, signIn } from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const room = (volume) => '[[thing]]\nclass = "room"\nid = "loft"\nname = "Loft"\n'
  + `volume_m3 = "${volume}"\n`;

async function choose(page, text) {
  await page.locator('input[type=file]').setInputFiles(
    { name: 'things.toml', mimeType: 'application/toml', buffer: Buffer.from(text) });
}

test('things come from a file once the dry run was seen', async () => {
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await signIn(tablet, personOf('manager'));
  await page.getByRole('link', { name: 'Things under care' }).tap();
  await page.getByRole('link', { name: 'Things from a file' }).tap();
  await page.getByRole('heading', { name: 'Things under care from a file' }).waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);

  await choose(page, room('0'));
  await page.getByText('1 fault in this file; nothing can be entered.').waitFor();
  assert.match(await page.locator('.imported li').textContent(), /Line 5 · room\/loft · .*Accepted: 1/);
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);

  await choose(page, `# ${'x'.repeat(65520)}`);
  await page.getByText('must fit 64 KiB').waitFor();

  await choose(page, room('40'));
  await page.getByText('room loft: new').waitFor();
  assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  await button(page, 'Record all 1').tap();
  await page.getByText('Recorded: 1').waitFor();

  await choose(page, room('40'));
  await page.getByText('All of it is entered already.').waitFor();
  await tablet.context.close();
});

test('nobody but a manager is offered it', async () => {
  for (const role of ['technician', 'inspector']) {
    const tablet = await openTablet(browser);
    await signIn(tablet, personOf(role));
    await tablet.page.locator('.station').first().waitFor();
    await tablet.page.goto(`${demo.address}/#/register`);
    await tablet.page.getByRole('heading', { name: 'Things under care' }).waitFor();
    await tablet.page.locator('a.person').first().waitFor();
    assert.equal(await tablet.page.getByRole('link', { name: 'Things from a file' }).count(), 0);
    await tablet.context.close();
  }
});
