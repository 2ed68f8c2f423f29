// The web page of a report on paper: in print nothing stands beyond the text area of either paper.
import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { demo, launch, openTablet, overflow, personOf, signIn } from './tablet.mjs';

// Paper less the margins of the page (20 mm left, 15 mm right), at 96 pixels an inch.
const kTextWidths = { A4: 661, 'US Letter': 684 };
const kMonth = new Date(Date.now() - 40 * 86400000).toISOString().slice(0, 7);
const kReports = { 'waste-month': `month=${kMonth}`, 'cylinder-history': 'subject=n1',
  'tool-history': 'subject=gauge/g2' };

let browser;
let tablet;
before(async () => {
  browser = await launch();
  tablet = await openTablet(browser, { isMobile: false });
  await signIn(tablet, personOf('inspector'));
});
after(() => browser?.close());

for (const [name, query] of Object.entries(kReports)) {
  test(`the web page of ${name} fits both papers, and no cell is clipped`, async () => {
    const { page } = tablet;
    await page.goto(`${demo.address}/api/v1/reports/${name}.html?${query}`);
    await page.emulateMedia({ media: 'print' });
    for (const [paper, width] of Object.entries(kTextWidths)) {
      await page.setViewportSize({ width, height: 900 });
      assert.equal((await overflow(page)).across, 0, paper);
    }
    const clipped = await page.locator('th, td').evaluateAll((cells) =>
      cells.filter((cell) => cell.scrollWidth > cell.clientWidth).map((cell) => cell.textContent));
    assert.deepEqual(clipped, []);
    await page.emulateMedia({ media: 'screen' });
  });
}
