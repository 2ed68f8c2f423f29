// Reports: four formats, two papers, the same bytes twice, and what was issued stays as it was.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { before, describe, test } from 'node:test';
import { bookSize, call, personOf, read, recorded } from './client.mjs';
import { asPdfJs, check, fonts, size, textOf, wordsOf } from './pdf.mjs';
import { drain, uuid } from './submissions.mjs';

/** A month of the demo's own story, earlier than what other tests record. */
const kMonth = new Date(Date.now() - 200 * 86400000).toISOString().slice(0, 7);
const kYear = kMonth.slice(0, 4);
const kReports = { 'waste-month': `month=${kMonth}`, 'waste-year': `year=${kYear}`,
  'cylinder-history': 'subject=n1', 'tool-history': 'subject=gauge/g2',
  'inspection-sheet': 'subject=tool/r1', 'collection-sheet': 'subject=c5', 'findings-list': '',
  'walk-round-sheet': '', 'briefing-sheet': 'subject=needle-injection',
  'audit-pack': `from=${kMonth}-01&to=${kMonth}-28` };
const kDrawn = ['waste-month', 'waste-year', 'cylinder-history', 'tool-history', 'audit-pack'];
const kPapers = { a4: [595.28, 841.89], letter: [612, 792] }; // points, as printed upright

const sha256 = (bytes) => createHash('sha256').update(bytes).digest('hex');

async function preview(name, format, query, as = 'inspector') {
  const answer = await call('GET', `/api/v1/reports/${name}.${format}?${query}`, { as });
  assert.equal(answer.status, 200, answer.text);
  return answer;
}

let site;
before(async () => {
  const { attributes } = await read('/api/v1/register/workshop/site');
  site = attributes.name;
});

for (const [name, query] of Object.entries(kReports)) {
  describe(`the report ${name}`, () => {
    const kTypes = { pdf: 'application/pdf', html: 'text/html; charset=utf-8',
      json: 'application/json', csv: 'text/csv; charset=utf-8; header=present' };
    for (const [format, type] of Object.entries(kTypes)) {
      test(`is had as ${format}, twice with equal bytes, and writes nothing`, async () => {
        const before = await bookSize();
        const first = await preview(name, format, query);
        const again = await preview(name, format, query, 'manager');
        assert.equal(first.headers['content-type'], type);
        assert.match(first.headers['content-disposition'],
          new RegExp(`^inline; filename="${name}[a-z0-9-]*\\.${format}"$`));
        assert.ok(first.bytes.length > (format === 'csv' ? 27 : 500), 'more than nothing');
        assert.ok(first.bytes.equals(again.bytes));
        assert.equal(await bookSize(), before);
      });
    }

    for (const [paper, [width, height]] of Object.entries(kPapers)) {
      test(`is a sound PDF on ${paper}: whole, fonts embedded, text readable`, async () => {
        const { bytes } = await preview(name, 'pdf', `${query}&paper=${paper}`);
        const looked = await check(bytes);
        assert.equal(looked.code, 0, looked.text);
        const used = await fonts(bytes);
        assert.ok(used.length > 0);
        assert.deepEqual(used.filter((font) => !font.embedded), []);
        const page = await size(bytes);
        assert.ok(Math.abs(page.width - width) < 1 && Math.abs(page.height - height) < 1,
          JSON.stringify(page));
        const text = await textOf(bytes);
        assert.ok(text.includes(site));
        assert.match(text, new RegExp(`page ${page.pages} of ${page.pages}`));
      });
    }

    test('reads the same in pdf.js, in its language, with an outline of its headings', async () => {
      const { bytes } = await preview(name, 'pdf', query);
      const read_there = await asPdfJs(bytes);
      const words = read_there.pages.flat().flatMap((text) => text.split(/\s+/))
        .filter((word) => word !== '');
      assert.ok(words.length > 100);
      assert.deepEqual([...words].sort(), (await wordsOf(bytes)).sort());
      assert.equal(read_there.language, 'en');
      assert.equal(read_there.tagged, false, 'it claims no tags');
      const { text } = await preview(name, 'html', query);
      // The page of contents is in no outline: it is one itself.
      const headings = [...text.matchAll(/<h2[^>]*>([^<]+)<\/h2>/g)]
        .map(([, heading]) => heading.replaceAll('&amp;', '&').replaceAll('&#39;', '\''))
        .filter((heading) => heading !== 'Contents');
      assert.deepEqual(read_there.outline.map(([title]) => title), headings);
    });

    test('says in HTML what it says in PDF, and loads nothing', async () => {
      const { text, headers } = await preview(name, 'html', query);
      assert.ok(text.startsWith('<!DOCTYPE html>'), text.slice(0, 60));
      assert.ok(text.includes(site));
      assert.match(headers['content-security-policy'], /^default-src 'none'; style-src 'sha256-/);
      assert.doesNotMatch(text, /<(script|img|link|iframe)\b/i);
      const pdf = await textOf((await preview(name, 'pdf', query)).bytes);
      const headings = [...text.matchAll(/<h2[^>]*>([^<]+)<\/h2>/g)].map(([, heading]) => heading);
      assert.ok(headings.length >= 4, text.slice(0, 200));
      for (const heading of headings) {
        const words = heading.replaceAll('&amp;', '&').replaceAll('&#39;', '\'');
        assert.ok(pdf.includes(words), `not in the PDF: ${words}`);
      }
    });

    test('changes with the book', async () => {
      const first = await preview(name, 'pdf', query);
      await recorded(drain());
      const later = await preview(name, 'pdf', query);
      assert.ok(!first.bytes.equals(later.bytes));
    });
  });
}

describe('charts', () => {
  for (const [name, query] of Object.entries(kReports)) {
    const drawn = kDrawn.includes(name);
    test(`of ${name} are ${drawn ? 'drawn' : 'not there, which is said'}`, async () => {
      const answer = await call('GET', `/api/v1/reports/${name}.svg?${query}`,
        { as: 'inspector' });
      assert.equal(answer.status, drawn ? 200 : 422, answer.text);
      if (!drawn) return;
      assert.equal(answer.headers['content-type'], 'image/svg+xml');
      assert.match(answer.text, /<svg [^>]*xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
      assert.doesNotMatch(answer.text, /<script|href=|<image/i);
    });
  }
});

describe('labels', () => {
  const kPaperOf = { 'container/w1': 'a6', 'container/s1': 'a6', 'container/d1': 'a7',
    'cylinder/n2': 'a7', 'tool/r1': 'roll-62', 'gauge/g2': 'roll-62', container: 'a4',
    tool: 'letter' };
  for (const [subject, paper] of Object.entries(kPaperOf)) {
    test(`of ${subject} come on ${paper}, in every form`, async () => {
      const query = `subject=${subject}&paper=${paper}`;
      const pdf = await preview('label', 'pdf', query);
      assert.equal((await check(pdf.bytes)).code, 0);
      assert.deepEqual((await fonts(pdf.bytes)).filter((font) => !font.embedded), []);
      const { json } = await preview('label', 'json', query);
      assert.ok(json.labels.length > 0);
      const forms = await Promise.all(['html', 'csv', 'svg']
        .map((format) => preview('label', format, query)));
      const text = await textOf(pdf.bytes);
      for (const { code, name, id } of json.labels) {
        assert.equal(code, `${json.labels[0].class}/${id}`);
        for (const word of name.split(' ')) assert.ok(text.includes(word), `${word} on paper`);
        for (const form of forms) assert.ok(form.text.includes(id));
      }
    });
  }

  test('that do not fit their paper are refused with those that would do', async () => {
    const answer = await call('GET', '/api/v1/reports/label.pdf?subject=container/w1&paper=a7',
      { as: 'manager' });
    assert.equal(answer.status, 422);
    assert.match(answer.json.detail, /Table 1\.3.*accepted: a4, letter, a6/);
  });

  test('and blank forms are never issued', async () => {
    const before = await bookSize();
    for (const [name, body] of [['label', { subject: 'container/w1' }], ['walk-round-sheet', {}],
      ['inspection-sheet', { subject: 'tool/r1' }],
      ['briefing-sheet', { subject: 'needle-injection' }]]) {
      const answer = await call('POST', `/api/v1/reports/${name}`, { as: 'manager', body });
      assert.equal(answer.status, 422, name);
      assert.match(answer.json.detail, /is not issued/);
    }
    assert.equal(await bookSize(), before);
  });
});

describe('issuing', () => {
  const kBodies = { 'waste-month': { month: kMonth, paper: 'a4' },
    'cylinder-history': { subject: 'n1', paper: 'letter' },
    'tool-history': { subject: 'gauge/g2', paper: 'a4' },
    'waste-year': { year: kYear, paper: 'a4' },
    'collection-sheet': { subject: 'c5', paper: 'a4' },
    'findings-list': { paper: 'letter' },
    'audit-pack': { from: `${kMonth}-01`, to: `${kMonth}-28`, paper: 'a4' } };
  /** What the entry says it was about, as it was asked for. */
  const kAbout = { 'waste-month': { month: kMonth }, 'cylinder-history': { cylinder: 'n1' },
    'tool-history': { gauge: 'g2' }, 'waste-year': { year: kYear },
    'collection-sheet': { collection: 'c5' }, 'findings-list': {},
    'audit-pack': { first_day: `${kMonth}-01`, last_day: `${kMonth}-28` } };

  for (const [name, body] of Object.entries(kBodies)) {
    test(`${name} keeps the bytes and records their digest`, async () => {
      const size_before = await bookSize();
      const shown = await preview(name, 'pdf', new URLSearchParams(body).toString());
      const issued = await call('POST', `/api/v1/reports/${name}`, { as: 'manager', body });
      assert.equal(issued.status, 201, issued.text);
      const { id, seq, digest, pdf } = issued.json;
      assert.equal(seq, size_before + 1);
      const kept = await call('GET', pdf, { as: 'inspector' });
      assert.equal(kept.status, 200);
      assert.equal(sha256(kept.bytes), digest);
      assert.ok(!kept.bytes.equals(shown.bytes), 'an issued report names its entry');

      const entry = await read(`/api/v1/entries/${id}`);
      assert.equal(entry.kind, 'report-issued');
      assert.equal(entry.person, personOf('manager').id);
      const { report, paper, report_digest, figures_digest, book_size, book_root, ...about } =
        entry.fields;
      assert.deepEqual(entry.attachments, [digest, figures_digest]);
      assert.deepEqual(about, kAbout[name]);
      assert.deepEqual([report, paper], [name, body.paper]);
      assert.equal(report_digest, digest);
      assert.ok(book_size && book_root);
      assert.equal(entry.fields.book_size, size_before);
      assert.equal(entry.fields.paper, body.paper);

      await recorded(drain());
      const later = await call('GET', pdf, { as: 'manager' });
      assert.ok(later.bytes.equals(kept.bytes), 'the same again, whatever was recorded since');
    });
  }

  test('stands on the head of the book, as the checkpoint has it', async () => {
    const { size: entries, root } = await read('/api/v1/book/checkpoint');
    const issued = await call('POST', '/api/v1/reports/waste-month',
      { as: 'manager', body: { month: kMonth } });
    const { fields } = await read(`/api/v1/entries/${issued.json.id}`);
    assert.equal(fields.book_size, entries);
    assert.equal(fields.book_root, Buffer.from(root, 'base64').toString('hex'));
  });

  test('asked for again under the same id answers as the first time', async () => {
    const id = uuid();
    const ask = (body) => call('POST', '/api/v1/reports/waste-month',
      { as: 'manager', body: { id, month: kMonth, ...body } });
    const first = await ask({});
    assert.equal(first.status, 201, first.text);
    assert.equal(first.json.id, id);
    const before = await bookSize();
    const again = await ask({});
    assert.equal(again.status, 200, again.text);
    assert.deepEqual(again.json, first.json);
    assert.equal((await ask({ paper: 'letter' })).status, 409);
    assert.equal(await bookSize(), before);
  });

  test('finds nothing under the id of another entry', async () => {
    const { id } = await recorded(drain());
    const answer = await call('GET', `/api/v1/reports/issued/${id}.pdf`, { as: 'inspector' });
    assert.equal(answer.status, 404);
  });
});

describe('a report that cannot be made', () => {
  test('is refused with what would be accepted', async () => {
    const refused = [
      ['waste-month.pdf', 422, /month=YYYY-MM/],
      ['waste-month.pdf?month=2026-13', 422, /2026-13/],
      ['waste-month.pdf?month=2026-10&paper=a5', 422, /'a5'; accepted: a4, letter/],
      ['waste-month.pdf?month=2026-10&subject=n1', 422, /nothing else/],
      ['waste-month.pdf?month=2026-10&colour=red', 422, /'colour' is not known/],
      ['cylinder-history.json?subject=n9', 404, /'n9'/],
      ['tool-history.json?subject=g2', 422, /tool\/ and its name in the register/],
      ['tool-history.json?subject=gauge/g9', 404, /'g9'/],
      ['none.pdf?month=2026-10', 404, /cylinder-history, .*waste-month/],
    ];
    for (const [path, status, words] of refused) {
      const answer = await call('GET', `/api/v1/reports/${path}`, { as: 'inspector' });
      assert.equal(answer.status, status, path);
      assert.match(answer.json.detail, words);
    }
  });

  test('is not issued either', async () => {
    const before = await bookSize();
    for (const body of [{}, { month: '2026-13' }, { month: 202610 }, { colour: 'red' },
      { month: '2999-01' }, { month: kMonth, id: '7' }]) {
      const answer = await call('POST', '/api/v1/reports/waste-month', { as: 'manager', body });
      assert.equal(answer.status, 422, JSON.stringify(body));
    }
    assert.equal(await bookSize(), before);
  });
});

describe('the history of a cylinder', () => {
  test('has every check in order, the same in the answer and in the report', async () => {
    const { checks: all } = await read('/api/v1/history/cylinder/n1', 'inspector');
    const { json } = await preview('cylinder-history', 'json', 'subject=n1');
    const checks = all.filter(({ entry }) => entry.kind === 'cylinder-check');
    assert.ok(checks.length > 50);
    const times = checks.map(({ entry }) => Date.parse(entry.occurred_at));
    assert.deepEqual(times, [...times].sort((a, b) => a - b));
    assert.deepEqual(checks.map(({ entry }) => entry.seq), json.checks.map((check) => check.entry));
    assert.deepEqual(checks.map(({ effective }) => effective.gauge_pressure_bar),
      json.checks.map((check) => check.fields.gauge_pressure_bar));
  });

  test('has the content that the calculator gives, and the same figures everywhere', async () => {
    const { checks } = await read('/api/v1/history/cylinder/n1', 'inspector');
    const { json } = await preview('cylinder-history', 'json', 'subject=n1');
    const { text: csv } = await preview('cylinder-history', 'csv', 'subject=n1');
    const standing = checks.filter(({ figures }) => figures);
    assert.deepEqual(standing.map(({ entry, figures }) => ({ entry: entry.seq, ...figures })),
      json.course.map(({ kind, occurred_at: at, ...figures }) => figures));
    const told = standing.filter(({ figures }) => figures.content_kg !== undefined);
    assert.ok(told.length > 40);
    for (const { entry, effective, figures } of [told[0], told[told.length >> 1], told.at(-1)]) {
      const answer = await call('POST', '/api/v1/calculations/nitrogen-content', { as: 'inspector',
        body: { inputs: { water_capacity_l: 50, gauge_pressure_bar: effective.gauge_pressure_bar,
          temperature_c: effective.ambient_temperature_c, atmosphere_bar: 1.01325,
          base_temperature_c: 15, base_pressure_bar: 1.01325 } } });
      assert.equal(answer.status, 200, answer.text);
      const of = (name) => answer.json.results.find((result) => result.name === name).value;
      assert.ok(Math.abs(figures.content_kg - of('mass_kg')) < 0.00051, answer.text);
      assert.ok(Math.abs(figures.content_m3 - of('volume_m3')) < 0.00051, answer.text);
      const line = new RegExp(`^course,${entry.seq},content_kg,([0-9.]+),kg\r$`, 'm').exec(csv);
      assert.equal(Number(line[1]), figures.content_kg);
    }
  });

  test('draws the content over time, on paper and on its page', async () => {
    const { text } = await preview('cylinder-history', 'html', 'subject=n1');
    assert.match(text, /<svg role="img" aria-label="Nitrogen in the cylinder over time"/);
    const pdf = await textOf((await preview('cylinder-history', 'pdf', 'subject=n1')).bytes);
    for (const words of ['Nitrogen in the cylinder over time', 'Content, kg']) {
      assert.ok(pdf.includes(words), words);
    }
  });

  test('is kept of tools and gauges too, and of nothing else', async () => {
    for (const subject of ['tool/h1', 'gauge/g2']) {
      const { checks } = await read(`/api/v1/history/${subject}`, 'technician');
      assert.ok(checks.length > 3, subject);
    }
    for (const subject of ['cylinder/n9', 'container/w1']) {
      const answer = await call('GET', `/api/v1/history/${subject}`, { as: 'manager' });
      assert.equal(answer.status, 404);
    }
  });
});
