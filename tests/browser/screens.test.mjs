// Every screen, light and dark: axe-core finds nothing, all targets are large enough, nothing
// scrolls across, entry screens do not scroll at all, and no policy is broken.
import assert from 'node:assert/strict';
import { after, before, describe, test } from 'node:test';
import {
  api, button, containerChoice, demo, launch, openTablet, outboxSays, personOf, recordDrain,
  screenFaults, signIn, tapNumber,
} from './tablet.mjs';

let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

/** Fails with everything wrong on the screen as it stands. */
async function clean(tablet, options) {
  assert.deepEqual(await screenFaults(tablet, options), []);
}

// Of a report.
const kForms = ['PDF, to print', 'Web page, also to be read out', 'Table (CSV)', 'Data (JSON)'];

const kPeople = { people: [], setup_needed: true };

async function answerWith(page, path, status, body) {
  const contentType = status < 400 ? 'application/json' : 'application/problem+json';
  await page.route(`**/api/v1${path}`, (route) =>
    route.fulfill({ status, contentType, body: JSON.stringify(body) }));
}

for (const colorScheme of ['light', 'dark']) {
  describe(`in ${colorScheme} colours`, () => {
    let tablet;
    let page;
    before(async () => {
      tablet = await openTablet(browser, { colorScheme });
      page = tablet.page;
    });
    after(() => tablet.context.close());

    test('the list of people and the PIN pad', async () => {
      await page.goto(demo.address);
      await page.locator('button.person').first().waitFor();
      assert.equal(await page.locator('button.person').count(), demo.persons.length);
      await clean(tablet);
      await page.locator('button.person').first().tap();
      await page.locator('.keypad').waitFor();
      await clean(tablet);
    });

    test('the emergency page is there for anybody', async () => {
      await page.getByRole('link', { name: 'Emergency' }).tap();
      await page.locator('.block').first().waitFor();
      const response = await page.request.get(`${demo.address}/api/v1/emergency`);
      const { sections } = await response.json();
      assert.deepEqual(await page.locator('.block h2').allTextContents(),
        sections.map((section) => section.title));
      await clean(tablet, { scrolls: true });
    });

    test('the bench, the form and its pages', async () => {
      await signIn(tablet, personOf('technician'));
      await clean(tablet, { scrolls: true });
      await page.getByRole('button', { name: 'Oil drained' }).tap();
      await page.locator('.form').waitFor();
      await clean(tablet);
      const cautions = page.locator('.cautions');
      assert.equal(await cautions.evaluate((box) => box.scrollHeight <= box.clientHeight), true);
      await page.locator('.save').tap();
      await page.locator('.fault').first().waitFor();
      await clean(tablet);
      await page.getByRole('button', { name: 'More details' }).tap();
      await page.locator('.written').first().waitFor();
      await clean(tablet);
      await button(page, 'Back to the main page').tap();
      await button(page, 'Read all cautions').tap();
      await page.locator('.block').first().waitFor();
      await clean(tablet, { scrolls: true });
      await button(page, 'Back').tap();
    });

    test('what else to record, and a form whose id is written', async () => {
      await page.getByRole('link', { name: 'Bench' }).tap();
      await page.getByRole('link', { name: 'Record something else' }).tap();
      await page.locator('[data-group="shop"]').waitFor();
      assert.equal(await page.locator('[data-group="office"]').count(), 0);
      await clean(tablet, { scrolls: true });
      await button(page, 'Stuck part').tap();
      await page.locator('label[data-field="stuck_part"] input').waitFor();
      await clean(tablet, { scrolls: true });
      await page.getByRole('link', { name: 'Bench' }).tap();
      await page.getByRole('button', { name: 'Oil drained' }).tap();
      await page.locator('.form').waitFor();
    });

    test('an unusual number, the bar after recording, and Undo', async () => {
      await containerChoice(page, 1).tap();
      for (const field of ['fluid', 'measured_by', 'contamination']) {
        await page.locator(`[data-field="${field}"] .choice`).first().tap();
      }
      await tapNumber(tablet, '5200');
      await page.locator('.save').tap();
      await page.locator('.asked').waitFor();
      await clean(tablet);
      await page.locator('.save').tap();
      await page.locator('.saved').waitFor();
      await page.getByRole('button', { name: 'Undo' }).tap();
      await page.getByText('is struck out by').waitFor();
      await clean(tablet, { scrolls: true });
    });

    test('an entry without an answer', async () => {
      await page.route('**/api/v1/entries', (route) => route.abort());
      await recordDrain(tablet, 20);
      await page.locator('.saved', { hasText: 'On this tablet' }).waitFor();
      await clean(tablet, { scrolls: true });
      await outboxSays(page, '1 on this tablet');
      await page.locator('.outbox-link').tap();
      await page.locator('[data-row]').waitFor();
      await clean(tablet, { scrolls: true });
      await page.unroute('**/api/v1/entries');
      await outboxSays(page, 'All in the book');
    });

    test('the papers of a manager', async () => {
      await button(page, 'Next person').tap();
      await page.locator('.people').waitFor();
      await signIn(tablet, personOf('manager'));
      await clean(tablet, { scrolls: true });
      await page.getByRole('link', { name: 'Monthly waste report' }).tap();
      await page.locator('.report').waitFor();
      await clean(tablet);
    });

    test('findings, acknowledged by a manager, and the rules in force', async () => {
      await page.getByRole('link', { name: 'Bench' }).tap();
      const { findings } = await api(tablet, '/findings');
      const over = findings.filter((one) => one.severity === 'over');
      const link = page.getByRole('link', { name: /^Findings: / });
      await link.waitFor();
      assert.match(await link.textContent(), new RegExp(`${over.length} beyond a limit`));
      await link.tap();
      await page.locator('[data-severity="over"] .finding').first().waitFor();
      assert.equal(await page.locator('[data-finding]').count(), findings.length);
      const first = page.locator('[data-severity="over"] .finding').first();
      assert.ok((await first.textContent()).includes(over[0].citation));
      if (over[0].confidence === 'from-memory') {
        assert.match(await first.textContent(), /from memory/);
      }
      await clean(tablet, { scrolls: true });
      await first.getByRole('button', { name: 'Acknowledge' }).tap();
      await first.locator('input').fill('collection ordered');
      await clean(tablet, { scrolls: true });
      await first.getByRole('button', { name: /^Record as / }).tap();
      await first.getByText('Acknowledged by').waitFor();
      const { findings: after } = await api(tablet, '/findings');
      assert.ok(after.find((one) => one.key === over[0].key).acknowledged_by_entry > 0);
      await page.getByRole('link', { name: 'The rules in force' }).tap();
      await page.locator('[data-rule="own.working-limit"]').waitFor();
      const { rules } = await api(tablet, '/rules');
      assert.equal(await page.locator('[data-rule]').count(), rules.length);
      assert.ok(await page.getByText('from memory').count() > 0 ||
        rules.every((one) => one.confidence !== 'from-memory'));
      await clean(tablet, { scrolls: true });
    });

    test('what is due, and the calendar feed of a manager', async () => {
      await page.getByRole('link', { name: 'Due', exact: true }).tap();
      await page.getByRole('heading', { name: 'In a calendar' }).waitFor();
      await clean(tablet, { scrolls: true });
      await page.getByRole('button', { name: /^Make a (new )?link$/ }).tap();
      const link = await page.getByLabel('Link for the calendar program').inputValue();
      assert.ok(link.startsWith(`${demo.address}/api/v1/calendar/`), link);
      const opened = await page.request.get(link);
      assert.equal(opened.status(), 200);
      assert.match(await opened.text(), /^BEGIN:VCALENDAR\r\n/);
      await button(page, 'Copy').tap();
      await page.getByText(/^(Copied\.|The link is marked)/).waitFor();
      await clean(tablet, { scrolls: true });
      await button(page, 'End the link').tap();
      await page.getByText('opens nothing any more').waitFor();
      assert.equal((await page.request.get(link)).status(), 404);
      await clean(tablet, { scrolls: true });
    });

    test('the cylinders and the checks of one', async () => {
      await page.getByRole('link', { name: 'Bench' }).tap();
      await page.getByRole('link', { name: 'Cylinder histories' }).tap();
      await page.locator('a.person').first().waitFor();
      await clean(tablet, { scrolls: true });
      await page.locator('a.person').first().tap();
      await page.locator('.check').first().waitFor();
      await clean(tablet, { scrolls: true });
    });

    test('the tools and gauges and the inspections of one', async () => {
      await page.getByRole('link', { name: 'Bench' }).tap();
      await page.getByRole('link', { name: 'Tools and gauges' }).tap();
      await page.locator('a.person', { hasText: 'G2' }).tap();
      await page.locator('.forecast').waitFor();
      await page.locator('.check').first().waitFor();
      await clean(tablet, { scrolls: true });
    });

    test('the first start', async () => {
      const fresh = await openTablet(browser, { colorScheme });
      await answerWith(fresh.page, '/people', 200, kPeople);
      await fresh.page.goto(demo.address);
      await fresh.page.getByLabel('Set-up code').waitFor();
      await clean(fresh);
      await fresh.context.close();
    });
  });
}

describe('an inspector', () => {
  let tablet;
  let page;
  before(async () => {
    tablet = await openTablet(browser);
    page = tablet.page;
  });
  after(() => tablet.context.close());

  test('is told that a PIN is wrong, and is not let in', async () => {
    const { name, pin } = personOf('inspector');
    await page.goto(demo.address);
    await page.locator('button.person', { hasText: name }).tap();
    await tapNumber(tablet, [...pin].reverse().join(''));
    await button(page, 'Sign in').tap();
    await page.locator('.fault').waitFor();
    assert.equal(await page.locator('.fault').textContent(), 'Wrong PIN.');
    assert.equal(await page.locator('.bench').count(), 0);
    const session = await page.request.get(`${demo.address}/api/v1/session`);
    assert.equal(session.status(), 401);
  });

  test('opens the history of a cylinder within three taps and sees every check', async () => {
    await signIn(tablet, personOf('inspector'));
    tablet.taps = 0;
    await tablet.tap(page.getByRole('link', { name: 'Cylinder histories' }));
    await tablet.tap(page.locator('a.person').first());
    await page.locator('.check').first().waitFor();
    assert.ok(tablet.taps <= 3, `${tablet.taps} taps`);

    const id = decodeURIComponent(page.url().split('/').pop());
    const { checks } = await api(tablet, `/history/cylinder/${id}`);
    const rows = page.locator('.check');
    const older = page.getByRole('button', { name: /^Show \d+ older entries$/ });
    for (let shown = 20; shown < checks.length; shown += 20) {
      assert.equal(await rows.count(), shown);
      await older.tap();
    }
    assert.equal(await older.count(), 0);
    assert.equal(await rows.count(), checks.length);
    for (const [index, check] of checks.reverse().entries()) {
      const row = rows.nth(index);
      assert.match(await row.locator('h3').textContent(), new RegExp(`^No\\. ${check.entry.seq} `));
      assert.equal(await row.locator('.correction').count(), check.corrections.length);
      const mass = check.figures?.content_kg;
      if (mass !== undefined) {
        assert.match(await row.locator('.computed').textContent(), new RegExp(`${mass}\u00a0kg`));
      }
    }
  });

  test('can open the documents of that history', async () => {
    await page.getByRole('link', { name: 'Cylinder history', exact: true }).tap();
    for (const kind of kForms) {
      const href = await page.getByRole('link', { name: kind, exact: true }).getAttribute('href');
      const response = await page.request.get(demo.address + href);
      assert.equal(response.status(), 200, href);
    }
  });

  test('cannot record: no button, no form, and the daemon refuses', async () => {
    await page.getByRole('link', { name: 'Bench' }).tap();
    await page.locator('.bench').waitFor();
    assert.equal(await page.getByRole('button', { name: 'Oil drained' }).count(), 0);
    await page.goto(`${demo.address}/#/record/oil-drained`);
    await page.getByText('This sign-in cannot record entries.').waitFor();
    const response = await page.request.post(`${demo.address}/api/v1/entries`, {
      headers: { 'Content-Type': 'application/json', Origin: demo.address }, data: {} });
    assert.equal(response.status(), 403);
  });
});

test('a month’s report opens in its four forms for a manager', async () => {
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await signIn(tablet, personOf('manager'));
  await page.getByRole('link', { name: 'Monthly waste report' }).tap();
  await page.locator('.report .choice').nth(1).tap();
  for (const kind of kForms) {
    const href = await page.getByRole('link', { name: kind, exact: true }).getAttribute('href');
    assert.match(href, /month=\d{4}-\d\d&paper=a4$/);
    const response = await page.request.get(demo.address + href);
    assert.equal(response.status(), 200, href);
  }
  await tablet.context.close();
});

test('the first manager is entered with the code from the console', async () => {
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await answerWith(page, '/people', 200, kPeople);
  await answerWith(page, '/setup', 422, { type: '/problems/refused', status: 422,
    errors: [{ pointer: '/pin', code: 'too_simple', detail: 'Six to twelve digits.' }] });
  await page.goto(demo.address);
  await page.getByLabel('Set-up code').fill('code-of-the-console');
  await page.getByLabel('Name of the first manager').fill('Office');
  await page.getByLabel('PIN, 6 to 12 digits').fill('111111');
  await page.getByLabel('The same PIN again').fill('111112');
  await button(page, 'Enter the first manager').tap();
  await page.getByText('The two PINs differ.').waitFor();
  await page.getByLabel('The same PIN again').fill('111111');
  const sent = page.waitForRequest('**/api/v1/setup');
  await button(page, 'Enter the first manager').tap();
  assert.deepEqual((await sent).postDataJSON(),
    { code: 'code-of-the-console', name: 'Office', pin: '111111' });
  await page.getByText('Six to twelve digits.').waitFor();
  await tablet.context.close();
});

test('who tried too often is told once how long to wait', async () => {
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await page.route('**/api/v1/session', (route) => (route.request().method() === 'POST'
    ? route.fulfill({ status: 429, contentType: 'application/problem+json',
      headers: { 'Retry-After': '30' }, body: '{"status":429,"detail":"locked out for 30 s"}' })
    : route.continue()));
  await page.goto(demo.address);
  await page.locator('button.person').first().tap();
  await tapNumber(tablet, '123456');
  await button(page, 'Sign in').tap();
  await page.locator('.fault').waitFor();
  assert.equal(await page.locator('.fault').textContent(),
    'Too many wrong PINs. Try again in 30 s.');
  await tablet.context.close();
});

for (const [role, words] of [['technician', 'A manager enters them'],
  ['manager', 'You enter them']]) {
  test(`without a container a ${role} is told who enters one`, async () => {
    const tablet = await openTablet(browser);
    const { page } = tablet;
    await answerWith(page, '/levels', 200, { as_of: '2026-01-01T00:00:00Z', levels: [] });
    await signIn(tablet, personOf(role));
    await page.getByText('No waste container is entered yet.').waitFor();
    await page.getByText(words).waitFor();
    await clean(tablet, { scrolls: true });
    await page.getByRole('button', { name: 'Oil drained' }).tap();
    const nothing = page.locator('[data-field="container"]').getByText('Nothing to choose from');
    await nothing.waitFor();
    await clean(tablet);
    await tablet.context.close();
  });
}

test('a suspected contamination sets off what the form says about it, before recording', async () => {
  const tablet = await openTablet(browser);
  const { page } = tablet;
  await signIn(tablet, personOf('technician'));
  await page.getByRole('button', { name: 'Oil drained' }).tap();
  const group = page.locator('[data-field="contamination"]');
  const { fields } = await api(tablet, '/forms/oil-drained');
  const { help } = fields.find(({ name }) => name === 'contamination');
  await group.locator('.choice').first().tap();
  assert.equal(await group.locator('.heed').count(), 0);
  for (const index of [1, 3, 5]) {
    await group.locator('.choice').nth(index).tap();
    assert.equal(await group.locator('.heed').textContent(), help);
    await clean(tablet);
  }
  await group.locator('.choice').first().tap();
  assert.equal(await group.locator('.heed').count(), 0);
  await tablet.context.close();
});

test('what is due stands under whether its day has passed, on a phone too', async () => {
  const tablet = await openTablet(browser, { viewport: { width: 360, height: 740 } });
  const { page } = tablet;
  await signIn(tablet, personOf('technician'));
  const item = (day) => ({ day, rule: 'planned-collection', subject: 'collection/c1',
    sentence: `Collection c1: planned for ${day}`, citation: 'Entry 7 of the book' });
  await answerWith(page, '/due', 200, { today: '2026-11-25',
    items: [item('2026-11-24'), item('2026-11-25'), item('2026-11-26'), item('2027-01-02')] });
  await page.getByRole('link', { name: 'Due', exact: true }).tap();
  await page.getByRole('heading', { name: 'Today' }).waitFor();
  const groups = await page.locator('main section').evaluateAll((sections) => sections.map((one) =>
    [one.querySelector('h2').textContent, one.querySelectorAll('li').length]));
  assert.deepEqual(groups, [['The day has passed', 1], ['Today', 1], ['To come', 2]]);
  assert.equal(await page.getByRole('heading', { name: 'In a calendar' }).count(), 0);
  await clean(tablet, { scrolls: true });
  await tablet.context.close();
});
