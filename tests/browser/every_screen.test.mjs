// Every screen for everybody who may see it, on a tablet either way up and on a phone, light and
// dark: axe-core finds nothing, what is tapped is large enough, nothing scrolls across, on the lying
// tablet no form scrolls at all, no word is broken and no policy either. With BENCHWARDEN_PICTURES
// each screen is kept there as a picture, to be looked at.
import assert from 'node:assert/strict';
import { mkdirSync } from 'node:fs';
import { after, before, test } from 'node:test';
import { kSizes, openScreen, screensFor } from './all_screens.mjs';
import { isLong, launch, openTablet, personOf, screenFaults, signIn, splitWords } from './tablet.mjs';

const kPictures = process.env.BENCHWARDEN_PICTURES;

// Layout depends on the size and contrast on the colours, so that not all pairs are walked; and the
// forms of a technician are those of a manager.
const kWalks = [
  { role: 'manager', size: 'tablet-lying', colorScheme: 'light' },
  { role: 'manager', size: 'phone', colorScheme: 'dark' },
  ...isLong ? [
    { role: 'manager', size: 'tablet-upright', colorScheme: 'dark' },
    { role: 'manager', size: 'phone', colorScheme: 'light' },
    { role: 'technician', size: 'tablet-lying', colorScheme: 'dark' },
    { role: 'inspector', size: 'phone', colorScheme: 'dark' },
  ] : [],
];

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

async function keepPicture({ page }, folder, { address }) {
  if (!kPictures) return;
  mkdirSync(`${kPictures}/${folder}`, { recursive: true });
  const name = address.replaceAll('/', '_') || 'bench';
  await page.screenshot({ path: `${kPictures}/${folder}/${name}.png`, fullPage: true,
    timeout: 60000 });
}

for (const { role, size, colorScheme } of kWalks) {
  const walk = `${role}-${size}-${colorScheme}`;
  test(`every screen: ${walk}`, async () => {
    const tablet = await openTablet(browser, { viewport: kSizes[size], colorScheme });
    await signIn(tablet, personOf(role));
    const faults = {};
    const screens = await screensFor(tablet, role);
    for (const screen of screens.filter(({ isForm }) => !isForm || role === 'manager')) {
      await openScreen(tablet, screen);
      const scrolls = !screen.isForm || size !== 'tablet-lying';
      const found = [...await screenFaults(tablet, { scrolls }),
        ...(await splitWords(tablet.page)).map((word) => `broken word: ${word}`)];
      if (found.length) faults[screen.address] = found;
      await keepPicture(tablet, walk, screen);
    }
    await tablet.context.close();
    assert.deepEqual(faults, {});
  });
}
