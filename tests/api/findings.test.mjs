// What the rules say, from outside: raised and cleared by entries, cited, seen as of earlier.
import assert from 'node:assert/strict';
import { before, describe, test } from 'node:test';
import { bookSize, call, read, recorded } from './client.mjs';
import { freshId, newContainer, strikeOut, submission } from './submissions.mjs';

const overLimit = (findings, container) => findings.filter(
  (one) => one.rule === 'own.working-limit' && one.subject === `container/${container}`);

describe('findings', () => {
  const container = freshId('f');
  let filled;
  let sizeBefore;
  before(async () => {
    await recorded(newContainer(container, { capacity_l: 10, working_limit_percent: 90 }), 'manager');
    sizeBefore = await bookSize();
    filled = submission('oil-drained', { container, volume_ml: 9001 }, { confirmed: ['volume_ml'] });
  });

  test('stand by the entry that raises them, with value, limit and citation', async () => {
    const { seq } = await recorded(filled);
    const { findings } = await read(`/api/v1/entries/${filled.id}/findings`, 'technician');
    const [finding, ...others] = overLimit(findings, container);
    assert.deepEqual(others, []);
    assert.equal(finding.severity, 'over');
    assert.deepEqual(finding.values,
      { measured: { value: '9.001', unit: 'l' }, limit: { value: '9', unit: 'l' } });
    assert.deepEqual(finding.entries, [seq]);
    assert.equal(Date.parse(finding.since), Date.parse(filled.occurred_at));
    assert.match(finding.citation, /common practice, no source/);
    assert.match(finding.sentence, /9\.001.L logged, working limit 9.L/);
    const all = await read('/api/v1/findings', 'technician');
    assert.deepEqual(overLimit(all.findings, container), [finding]);
    assert.ok(all.packs.some(({ pack, edition }) => pack === finding.pack &&
                                                    edition === finding.pack_edition));
  });

  test('are not there when the book is seen at an earlier size', async () => {
    const { findings } = await read(`/api/v1/findings?known_at=${sizeBefore}`);
    assert.deepEqual(overLimit(findings, container), []);
  });

  test('end when what raised them is struck out', async () => {
    await recorded(strikeOut(filled.id));
    const { findings } = await read(`/api/v1/entries/${filled.id}/findings`, 'technician');
    assert.deepEqual(overLimit(findings, container), []);
    assert.deepEqual(overLimit((await read('/api/v1/findings')).findings, container), []);
  });

  test('refuse a viewpoint that is none', async () => {
    const { status, json } = await call('GET', '/api/v1/findings?as_of=yesterday', { as: 'manager' });
    assert.equal(status, 422);
    assert.equal(json.errors[0].pointer, '/query/as_of');
  });
});

test('the rules in force tell figure, citation and how well it is known', async () => {
  const { rules, packs } = await read('/api/v1/rules', 'inspector');
  assert.ok(packs.length > 0);
  for (const rule of rules) {
    assert.ok(rule.citation.length > 3 && rule.says.length > 10 && rule.edition.length > 3, rule.rule);
    assert.ok(packs.some(({ pack }) => pack === rule.pack), rule.rule);
  }
  assert.ok(rules.some(({ rule }) => rule === 'own.working-limit'));
});
