// The page that sets a tablet up, and the app under its name afterwards.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import { axeFindings, demo, launch, openTablet, overflow, smallTargets, splitWords }
  from './tablet.mjs';

const kScreens = [{ width: 1280, height: 800 }, { width: 800, height: 1280 },
  { width: 390, height: 844 }];

describe('setting a tablet up', () => {
  let browser;
  before(async () => { browser = await launch(); });
  after(() => browser.close());

  test('the page can be read and tapped on every screen, by day and by night', async () => {
    for (const viewport of kScreens) {
      for (const colorScheme of ['light', 'dark']) {
        const { page, context } = await openTablet(browser, { viewport, colorScheme });
        await page.goto(process.env.BENCHWARDEN_SET_UP);
        const where = `${viewport.width} ${colorScheme}`;
        assert.deepEqual(await axeFindings(page), [], where);
        assert.deepEqual(await smallTargets(page, 64), [], where);
        assert.equal((await overflow(page)).across, 0, where);
        assert.deepEqual(await splitWords(page), [], where);
        await context.close();
      }
    }
  });

  test('the certificate comes as a file', async () => {
    const { page, context } = await openTablet(browser);
    await page.goto(process.env.BENCHWARDEN_SET_UP);
    const [download] = await Promise.all([page.waitForEvent('download'),
      page.getByRole('link', { name: 'Fetch the certificate' }).tap()]);
    assert.equal(download.suggestedFilename(), 'benchwarden.crt');
    await context.close();
  });

  test('the page leads to the app, which is a secure context under its name', async () => {
    const { page, context } = await openTablet(browser);
    await page.goto(process.env.BENCHWARDEN_SET_UP);
    await page.getByRole('link', { name: demo.address }).tap();
    await page.locator('button.person').first().waitFor();
    assert.equal(new URL(page.url()).origin, demo.address);
    assert.deepEqual(await page.evaluate(() => [window.isSecureContext,
      'serviceWorker' in navigator, 'subtle' in crypto]), [true, true, true]);
    await context.close();
  });

  test('no other name is taken from the daemon', async () => {
    const { page, context } = await openTablet(browser);
    const { port } = new URL(demo.address);
    await assert.rejects(page.goto(`https://other.local:${port}`), /ERR_CERT/);
    await context.close();
  });
});
