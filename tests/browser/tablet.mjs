// A tablet in the hand of a test: a browser page that taps, and hears what the page complains of.
import dns from 'node:dns';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { chromium } from 'playwright-core';

const kExecutable = process.env.BENCHWARDEN_CHROMIUM ?? '/usr/bin/chromium';
const kHost = 'shop.local'; // this machine, for the browser and for the calls beside it
const kFlags = ['--no-sandbox', '--disable-dev-shm-usage', '--disable-gpu',
  '--host-resolver-rules=MAP *.local 127.0.0.1'];
const kLandscape = { width: 1280, height: 800 };

function readDemo() {
  const path = process.env.BENCHWARDEN_DEMO;
  if (!path) throw new Error('BENCHWARDEN_DEMO must name the demo.json of a running demo');
  return JSON.parse(readFileSync(path, 'utf8'));
}

/** {address, persons} of the running demo. */
export const demo = readDemo();

const axePath = createRequire(import.meta.url).resolve('axe-core/axe.min.js');
const axeSource = readFileSync(axePath, 'utf8');

/** The first person of a role in the demo. */
export function personOf(role) {
  const person = demo.persons.find((one) => one.role === role);
  if (!person) throw new Error(`the demo has no ${role}`);
  return person;
}

const askedFor = dns.promises.lookup;
dns.promises.lookup = (host, options) => (
  askedFor(host === kHost ? '127.0.0.1' : host, options));

/** A browser that trusts the daemon's authority, and shows a warning for any other; `flags` are
 *  further ones of its command line. */
export function launch(flags = []) {
  const home = process.env.BENCHWARDEN_HOME;
  if (!home) throw new Error('BENCHWARDEN_HOME must name a home that trusts the daemon');
  return chromium.launch({ executablePath: kExecutable, args: [...kFlags, ...flags],
    env: { ...process.env, HOME: home } });
}

/** A page on a tablet; `complaints` gathers console errors and policy violations. */
export async function openTablet(browser, options = {}) {
  const context = await browser.newContext({
    viewport: kLandscape,
    deviceScaleFactor: 1.5,
    hasTouch: true,
    isMobile: true,
    locale: 'en-GB',
    timezoneId: 'Europe/Berlin',
    ...options,
  });
  const page = await context.newPage();
  page.setDefaultTimeout(30000); // a loaded machine can take its time
  const complaints = [];
  page.on('pageerror', (error) => complaints.push(`error: ${error.message}`));
  page.on('console', (message) => {
    if (/Content.Security.Policy|TrustedHTML|Refused to/i.test(message.text())) {
      complaints.push(message.text());
    }
  });
  await page.addInitScript(() => {
    window.violations = [];
    document.addEventListener('securitypolicyviolation', (event) => {
      window.violations.push(`${event.violatedDirective} ${event.blockedURI}`);
    });
  });
  const tablet = { page, context, complaints, taps: 0 };
  tablet.tap = async (locator) => {
    await locator.tap();
    tablet.taps += 1;
  };
  return tablet;
}

/** The test command takes the shorter way where a test has two; BENCHWARDEN_LONG=1 the whole. */
export const isLong = process.env.BENCHWARDEN_LONG === '1';

export const button = (page, name) => page.getByRole('button', { name, exact: true });

/** Taps digits (and "." for the point) on the keypad. */
export async function tapNumber(tablet, text) {
  for (const key of text) {
    await tablet.page.locator('.key').getByText(key, { exact: true }).tap();
  }
}

/** Opens the page and signs in by taps only. */
export async function signIn(tablet, person, address = demo.address) {
  await tablet.page.goto(address);
  await tablet.page.locator('button.person', { hasText: person.name }).tap();
  await tapNumber(tablet, person.pin);
  await button(tablet.page, 'Sign in').tap();
  await tablet.page.locator('.bench').waitFor();
}

/** The server ends a connection that was idle for a while, and a request may meet that end. A browser
 *  asks once more, unseen; a test that asks past the page has to say so. */
const kAgain = { maxRetries: 2 };

/** Calls the API with the session of the page. */
export async function api(tablet, path) {
  const response = await tablet.context.request.get(`${demo.address}/api/v1${path}`, kAgain);
  if (!response.ok()) throw new Error(`GET ${path}: ${response.status()}`);
  return response.json();
}

/** Records a drain, into `container` or like the one before; returns when the form is left. */
export async function recordDrain(tablet, volume, container = '') {
  const { page } = tablet;
  await page.getByRole('button', { name: 'Oil drained' }).tap();
  if (container) await pick(page, 'container', container);
  for (const field of ['container', 'fluid', 'measured_by', 'contamination']) {
    const group = page.locator(`[data-field="${field}"]`);
    await turnTo(page, group);
    if (!await group.locator('input:checked').count()) await pick(page, field);
  }
  await tapNumber(tablet, String(volume));
  await page.locator('.save').tap();
  await page.locator('.bench').waitFor();
}

/** Waits until `predicate` holds in the page. It may be asynchronous, whose promise
 *  page.waitForFunction would take for true. */
export async function until(page, predicate, withinMs = 20000) {
  const end = Date.now() + withinMs;
  while (!await page.evaluate(predicate)) {
    if (Date.now() > end) throw new Error(`never: ${predicate}`);
    await page.waitForTimeout(100);
  }
}

/** Waits until the header says so of what is on this tablet, which may be sent again after a while. */
export async function outboxSays(page, words) {
  const link = page.locator('.outbox-link');
  try {
    await link.getByText(words, { exact: true }).waitFor({ timeout: 30000 });
  } catch (error) {
    const said = await link.allInnerTexts();
    throw new Error(`'${said}' where '${words}' was expected`, { cause: error });
  }
}

/** What axe-core finds, as short lines. */
export async function axeFindings(page) {
  await page.evaluate(axeSource);
  const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
  const { violations } = await page.evaluate((values) => window.axe.run(document,
    { runOnly: { type: 'tag', values } }), tags);
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' | ')}`);
}

/** Everything that can be tapped and is smaller than `least` pixels either way. */
export function smallTargets(page, least) {
  return page.evaluate((limit) => {
    const all = [...document.querySelectorAll('button, a, input, select, textarea, summary')];
    return all.map((element) => ({ element, box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.width < limit || box.height < limit))
      .map(({ element, box }) => `${element.outerHTML.slice(0, 90)} ${box.width}x${box.height}`);
  }, least);
}

/** How far the page can be scrolled, in pixels. */
export function overflow(page) {
  return page.evaluate(() => {
    const root = document.documentElement;
    const across = root.scrollWidth - root.clientWidth;
    return { across, down: root.scrollHeight - root.clientHeight };
  });
}

/** Resolves once the form has found which fields fit on its page. */
async function isLaidOut(page) {
  await page.locator('.form').waitFor();
  await page.waitForFunction(() => {
    const { scrollHeight, clientHeight } = document.documentElement;
    return scrollHeight <= clientHeight || !window.matchMedia('(min-width: 1101px)').matches;
  });
}

/** Turns the pages of a form until what is wanted is there. */
export async function turnTo(page, wanted) {
  await isLaidOut(page);
  while (!await wanted.count()) {
    await page.locator('.next').tap();
    await isLaidOut(page);
  }
}

/** Taps a choice of a form, on whichever of its pages it stands. */
export async function pick(page, field, hasText) {
  const group = page.locator(`[data-field="${field}"]`);
  await turnTo(page, group);
  await group.locator('.choice', { hasText }).first().tap();
}

/** A waste container that takes oil: the nth of those the form offers. */
export function containerChoice(page, index) {
  return page.locator('[data-field="container"] .choice').nth(index);
}

/** Sentences about everything wrong with the screen as it stands; none when all is well. */
export async function screenFaults(tablet, { scrolls = false } = {}) {
  const { page } = tablet;
  const faults = await axeFindings(page);
  faults.push(...(await smallTargets(page, 64)).map((text) => `too small: ${text}`));
  const { across, down } = await overflow(page);
  if (across > 0) faults.push(`scrolls ${across} px across`);
  if (down > 0 && !scrolls) faults.push(`scrolls ${down} px down`);
  const violations = await page.evaluate(() => window.violations);
  return faults.concat(violations, tablet.complaints);
}

/** Words that break in their middle, or stand out of what is tapped. */
export function splitWords(page) {
  return page.evaluate(() => {
    const found = [];
    const walker = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT);
    const check = (node, word, at) => {
      if (node.parentElement.closest('.unseen')) return; // read out only
      const range = document.createRange();
      range.setStart(node, at);
      range.setEnd(node, at + word.length);
      const rects = [...range.getClientRects()].filter(({ width }) => width > 0);
      const lines = new Set(rects.map(({ top }) => Math.round(top)));
      if (lines.size > 1 && !/[-–/]|\)\(/.test(word)) found.push(word);
      const face = node.parentElement.closest('button, a, .choice-face');
      const right = face?.getBoundingClientRect().right ?? Infinity;
      if (rects.some((rect) => rect.right > right + 1)) found.push(`${word} stands out`);
    };
    while (walker.nextNode()) {
      const node = walker.currentNode;
      for (const { 0: word, index } of node.data.matchAll(/\S+/g)) check(node, word, index);
    }
    return found;
  });
}
