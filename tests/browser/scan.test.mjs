// A label scanned with the camera, or its id typed: the form that is usual for the thing opens with
// it filled in, and a form that is open takes it. Codes of others are sent nowhere.
import assert from 'node:assert/strict';
import { mkdtempSync, rmSync } from 'node:fs';
import { after, afterEach, before, describe, test } from 'node:test';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { texts } from '../../forms/app/texts.js';
import { writeFilm } from './pictures_of_codes.mjs';
import {
  button, demo, launch, openTablet, personOf, screenFaults, signIn, until,
} from './tablet.mjs';

const kForeign = 'https://elsewhere.example/secret-4711';

let folder;
const browsers = []; // a camera belongs to a browser, so that each film has its own
before(() => {
  folder = mkdtempSync(join(tmpdir(), 'films-'));
});
afterEach(async () => {
  for (const browser of browsers.splice(0)) await browser.close();
});
after(() => rmSync(folder, { recursive: true }));

/** A tablet whose camera sees the code; `gone` are the addresses and bodies that went out. */
async function tabletSeeing(text, { role = 'technician', ...options } = {}) {
  const film = join(folder, `${Math.random()}.y4m`);
  writeFilm(film, text);
  const browser = await launch(['--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream', `--use-file-for-fake-video-capture=${film}`]);
  browsers.push(browser);
  const tablet = await openTablet(browser, options);
  tablet.gone = [];
  tablet.page.on('request', (request) =>
    tablet.gone.push(`${request.url()} ${request.postData() ?? ''}`));
  await signIn(tablet, personOf(role));
  return tablet;
}

async function scan({ page }) {
  await page.getByRole('link', { name: 'Scan a label' }).tap();
}

const checked = (page, field) =>
  page.locator(`[data-field="${field}"] input:checked`).getAttribute('value');

const kOpened = [
  { code: 'container/w1', choices: 'Oil drained', field: 'container', value: 'w1' },
  { code: 'container/s1', choices: 'Spent solvent', field: 'container', value: 's1' },
  { code: 'container/b1', choices: 'Rag bin', field: 'container', value: 'b1' },
  { code: 'cylinder/n2', choices: 'Cylinder check', field: 'cylinder', value: 'n2' },
  { code: 'tool/r1', field: 'tool', value: 'r1' },
  { code: 'gauge/g1', field: 'gauge', value: 'g1' },
];

for (const { code, choices, field, value } of kOpened) {
  test(`${code} opens ${choices ?? 'the inspection'} with it filled in`, async () => {
    const tablet = await tabletSeeing(code);
    const { page } = tablet;
    await scan(tablet);
    if (choices) {
      await page.locator('.scan-forms .button').first().waitFor();
      const titles = await page.locator('.scan-forms .button').allInnerTexts();
      assert.ok(titles[0].startsWith(choices), titles.join(' | '));
      assert.equal(new Set(titles).size, titles.length);
      assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
      await page.locator('.scan-forms .button').first().tap();
    }
    await page.locator(`[data-field="${field}"] input:checked`).waitFor();
    assert.equal(await checked(page, field), value);
    assert.deepEqual(await screenFaults(tablet), []);
    const options = page.locator(`[data-field="${field}"] .choice`);
    assert.equal(await options.count(), 1);
    await page.locator(`[data-field="${field}"]`).getByRole('button', { name: /^Show \d+ other/ }).tap();
    await options.nth(1).waitFor();
    assert.equal(await checked(page, field), value);
  });
}

test('the forms for a container of oil are those that take oil, and its page', async () => {
  const tablet = await tabletSeeing('container/w1');
  const { page } = tablet;
  await scan(tablet);
  await page.locator('.scan-forms .button').first().waitFor();
  const titles = await page.locator('.scan-forms .button').allInnerTexts();
  assert.ok(!titles.some((title) => /solvent|Rag/.test(title)), titles.join(' | '));
  assert.equal(await page.locator('main h1').innerText(), 'Oil drum W1');
  await page.getByRole('link', { name: texts.scan.page }).tap();
  await page.waitForURL(/#\/levels\/w1$/);
});

test('who only reads comes to what was recorded about it', async () => {
  const tablet = await tabletSeeing('gauge/g2', { role: 'inspector' });
  await scan(tablet);
  await tablet.page.waitForURL(/#\/tools\/gauge\/g2$/);
});

for (const [what, code, said] of [
  ['a foreign code', kForeign, texts.scan.foreign],
  ['the code of something that has no label', 'person/p1', texts.scan.foreign],
  ['the code of a thing that is not entered', 'container/zz99', texts.scan.unknown('zz99')],
]) {
  test(`${what} is said in words, and sent nowhere`, async () => {
    const tablet = await tabletSeeing(code);
    const { page } = tablet;
    await scan(tablet);
    await page.locator('.fault', { hasText: said }).waitFor();
    const told = code.split('/').pop();
    assert.deepEqual(tablet.gone.filter((one) => one.includes(told) || one.includes(code)), []);
    assert.match(page.url(), /#\/scan$/);
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
  });
}

test('the reader is fetched with the first use of the camera, and the camera let go', async () => {
  const tablet = await tabletSeeing(null);
  const { page } = tablet;
  const fetched = () => tablet.gone.some((one) => one.includes('/read-code.js'));
  assert.equal(fetched(), false);
  await scan(tablet);
  await page.getByText(texts.scan.watching).waitFor();
  assert.equal(fetched(), true);
  await page.evaluate(() => {
    window.tracks = document.querySelector('video').srcObject.getTracks();
  });
  await page.getByRole('link', { name: 'Bench' }).tap();
  await until(page, () => window.tracks.every(({ readyState }) => readyState === 'ended'));
});

test('a browser with a reader of its own fetches none', async () => {
  const tablet = await tabletSeeing(null);
  const { page } = tablet;
  await page.evaluate(() => {
    window.BarcodeDetector = class {
      static getSupportedFormats = async () => ['qr_code'];

      detect = async (picture) => (picture.width > 0 ? [{ rawValue: 'tool/r2' }] : []);
    };
  });
  await scan(tablet);
  await page.locator('[data-field="tool"] input:checked').waitFor();
  assert.equal(await checked(page, 'tool'), 'r2');
  assert.deepEqual(tablet.gone.filter((one) => one.includes('/read-code.js')), []);
});

test('codes that are nearly like ours are foreign, too', async () => {
  const tablet = await tabletSeeing(null);
  const { page } = tablet;
  await page.evaluate(() => {
    window.BarcodeDetector = class {
      static getSupportedFormats = async () => ['qr_code'];

      detect = async () => (window.shown ? [{ rawValue: window.shown }] : []);
    };
  });
  await scan(tablet);
  await page.getByText(texts.scan.watching).waitFor();
  const asked = tablet.gone.length;
  for (const code of ['container', 'container/', 'container/w1/x', 'Container/w1', 'container/w1?x=1',
    'container/../people', 'toString/w1', ' container/w1', '<b>container/w1</b>', 'w1',
    `container/${'w'.repeat(3000)}!`]) {
    await page.evaluate((text) => { window.shown = text; }, code);
    await page.locator('.fault', { hasText: texts.scan.foreign }).waitFor();
    await page.evaluate(() => {
      window.shown = '';
      document.querySelector('bw-scanner').fault = '';
      document.querySelector('bw-scanner').requestUpdate();
    });
    await page.locator('.fault').waitFor({ state: 'detached' });
    await until(page, () => document.querySelector('bw-scanner').last === '');
  }
  // What forms need is fetched ahead meanwhile; nothing of a code is in it.
  assert.deepEqual(tablet.gone.slice(asked).filter((one) => /w1|www|toString/.test(one)), []);
});

describe('in a form that is open', () => {
  test('what is on the label is chosen, and what was given stays', async () => {
    const tablet = await tabletSeeing('container/w2');
    const { page } = tablet;
    await button(page, 'Oil drained').tap();
    await page.locator('[data-field="fluid"] .choice').first().tap();
    await page.locator('.key').getByText('7', { exact: true }).tap();
    await button(page, texts.scan.inForm).tap();
    await page.locator('[data-field="container"] input:checked').waitFor();
    assert.equal(await checked(page, 'container'), 'w2');
    assert.equal(await page.locator('[data-field="fluid"] input:checked').count(), 1);
    assert.equal(await page.locator('.number-value').innerText(), '7');
    assert.deepEqual(await screenFaults(tablet), []);
  });

  test('it is asked where a thing goes that could go into several fields', async () => {
    const tablet = await tabletSeeing('container/w1');
    const { page } = tablet;
    await button(page, 'Transfer between containers').tap();
    await button(page, texts.scan.inForm).tap();
    await page.locator('.scan-forms .button').nth(1).waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await page.locator('.scan-forms .button').nth(1).tap();
    await page.locator('[data-field="to_container"] input:checked').waitFor();
    assert.equal(await checked(page, 'to_container'), 'w1');
  });

  test('a thing that the form does not ask for is said', async () => {
    const tablet = await tabletSeeing('cylinder/n1');
    const { page } = tablet;
    await button(page, 'Oil drained').tap();
    await button(page, texts.scan.inForm).tap();
    await page.locator('.fault', { hasText: texts.scan.notHere('Nitrogen N1') }).waitFor();
    await button(page, 'Back to the main page').tap();
    await page.locator('.form').waitFor();
  });

  test('a form without such a field offers no scanning', async () => {
    const tablet = await tabletSeeing(null);
    const { page } = tablet;
    await page.goto(`${demo.address}/#/record/walk-round`);
    await page.locator('.form').waitFor();
    assert.equal(await button(page, texts.scan.inForm).count(), 0);
    assert.equal(await page.getByRole('link', { name: 'Due', exact: true }).count(), 1);
  });
});

describe('without a camera', () => {
  let browser;
  before(async () => {
    browser = await launch(['--use-fake-device-for-media-stream']);
  });
  after(() => browser?.close());

  async function openScan(prepare, options) {
    const tablet = await openTablet(browser, options);
    await prepare(tablet);
    await signIn(tablet, personOf('technician'));
    await scan(tablet);
    return tablet;
  }

  const refuse = ({ context }) => context.grantPermissions([]);

  test('that was refused: the reason in words, and the id is typed instead', async () => {
    const tablet = await openScan(refuse);
    const { page } = tablet;
    await page.locator('.fault', { hasText: texts.scan.refused }).waitFor();
    assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
    await button(page, texts.scan.look).tap();
    await page.locator('.fault', { hasText: texts.scan.nothingTyped }).waitFor();
    await page.getByLabel(texts.scan.typed).fill('no such id!');
    await button(page, texts.scan.look).tap();
    await page.locator('.fault', { hasText: texts.scan.unknown('no such id!') }).waitFor();
    await page.getByLabel(texts.scan.typed).fill(' R1 ');
    await button(page, texts.scan.look).tap();
    await page.locator('[data-field="tool"] input:checked').waitFor();
    assert.equal(await checked(page, 'tool'), 'r1');
    await tablet.context.close();
  });

  test('that is not there, or over plain HTTP: the reason in words', async () => {
    const lacks = (state) => ({ page }) => page.addInitScript(({ secure }) => {
      Object.defineProperty(navigator, 'mediaDevices', { value: undefined });
      Object.defineProperty(window, 'isSecureContext', { value: secure });
    }, state);
    for (const [secure, said] of [[true, texts.scan.noCamera], [false, texts.scan.insecure]]) {
      const tablet = await openScan(lacks({ secure }));
      await tablet.page.locator('.fault', { hasText: said }).waitFor();
      await tablet.context.close();
    }
  });

  for (const [name, viewport] of Object.entries({ upright: { width: 800, height: 1280 },
    phone: { width: 390, height: 844 } })) {
    test(`the page fits, ${name}, in the dark`, async () => {
      const tablet = await openScan(refuse, { viewport, colorScheme: 'dark' });
      await tablet.page.locator('.fault').waitFor({ timeout: 30000 });
      assert.deepEqual(await screenFaults(tablet, { scrolls: true }), []);
      await tablet.context.close();
    });
  }

  test('out of reach of the workshop computer a label is still looked up and recorded', async () => {
    const tablet = await openScan(refuse);
    const { page } = tablet;
    await page.getByLabel(texts.scan.typed).fill('tool/h1');
    await button(page, texts.scan.look).tap();
    await page.locator('[data-field="tool"] input:checked').waitFor();
    await page.goto(`${demo.address}/#/scan`);
    await page.route('**/api/v1/**', (route) => route.abort());
    await page.getByLabel(texts.scan.typed).fill('tool/h2');
    await button(page, texts.scan.look).tap();
    await page.locator('[data-field="tool"] input[value="h2"]:checked').waitFor();
    await tablet.context.close();
  });
});
