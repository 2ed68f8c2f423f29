// The second tap for what may be right and is unusual: what is asked, in names and days as people
// write them, and how a withdrawn thing is marked among the choices.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  demo, launch, openTablet, personOf, pick, screenFaults, signIn, tapNumber, turnTo,
} from './tablet.mjs';

describe('what is unusual', () => {
  let browser;
  let tablet;
  let page;

  before(async () => {
    browser = await launch();
    tablet = await openTablet(browser);
    page = tablet.page;
    await signIn(tablet, personOf('technician'));
  });
  after(() => browser?.close());

  async function open(kind) {
    await page.goto(`${demo.address}/#/record/${kind}`);
    await page.locator('.form, .ask').first().waitFor();
    const anew = page.getByRole('button', { name: 'Begin anew' });
    if (await anew.count()) await anew.tap();
    await page.locator('.form').waitFor();
  }

  async function save() {
    await turnTo(page, page.locator('.save'));
    await page.locator('.save').tap();
    await page.getByRole('heading', { name: 'Is this right?' }).waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    return page.locator('.ask').textContent();
  }

  test('marks a withdrawn tool among the choices, and asks before its use is recorded', async () => {
    await open('gas-use');
    const marked = page.locator('[data-field="tool"] .choice', { hasText: 'withdrawn' });
    await turnTo(page, page.locator('[data-field="tool"]'));
    assert.match(await marked.textContent(), /Needle charger C2/);
    assert.equal(await marked.count(), 1);
    await pick(page, 'cylinder', 'N1');
    await pick(page, 'tool', 'C2');
    await turnTo(page, page.locator('.keypad'));
    await tapNumber(tablet, '1');
    const asked = await save();
    assert.match(asked, /Needle charger C2 has been withdrawn from use since \d+\s\w{3}\s20\d\d\./);
    await page.getByRole('button', { name: 'Change it' }).tap();
  });

  test('names the container that suspected oil would go into', async () => {
    await open('oil-drained');
    await pick(page, 'container', 'W1');
    await pick(page, 'fluid');
    await pick(page, 'measured_by');
    await pick(page, 'contamination', 'Water');
    await turnTo(page, page.locator('.keypad'));
    await tapNumber(tablet, '64');
    const asked = await save();
    assert.match(asked, /Suspected in what goes into Oil drum W1: Water\./);
    assert.match(asked, /local rules and the collector/);
    // The amount is what is recorded, though it is the suspicion that is asked about.
    await page.getByRole('button', { name: /^Yes, record 64\smL, Water as / }).tap();
    await page.locator('.saved', { hasText: 'In the book' }).waitFor();
  });

  test('names each protection that a stuck part is begun without', async () => {
    await open('stuck-part');
    for (const [field, answer] of [['work_stage', 'Before the work'],
      ['pressure_state', 'Shown to be released'], ['stop_fitted', 'Yes'], ['guard', 'No'],
      ['eye_protection', 'No'], ['ear_protection', 'Yes']]) await pick(page, field, answer);
    const asked = await save();
    assert.match(asked, /Check Guard\. 'No' is given; usual here is: Yes\./);
    assert.match(asked, /Check Eye protection\./);
    assert.doesNotMatch(asked, /Ear protection/);
    await page.getByRole('button', { name: /^Yes, record Guard: No, Eye protection: No as / }).tap();
    await page.locator('.saved', { hasText: 'In the book' }).waitFor();
  });
});
