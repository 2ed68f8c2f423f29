// Collections by date, and what to hand over next.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import { read, recorded } from './client.mjs';
import { ago, drain, freshId, newContainer, strikeOut, submission } from './submissions.mjs';

const kCollections = '/api/v1/collections';

const stage = (collection, name, fields = {}, more = {}) =>
  submission('collection', { collection, stage: name, ...fields }, more);

async function listed(collection) {
  const { collections } = await read(kCollections, 'technician');
  return collections.find((one) => one.collection === collection);
}

async function carrier() {
  const { things } = await read('/api/v1/register/carrier');
  return things.find((thing) => !thing.retired).id;
}

async function filled(millilitres) {
  const can = freshId('x');
  await recorded(newContainer(can), 'manager');
  await recorded(drain({ container: can, volume_ml: millilitres }, { occurred_at: ago(60) }));
  return can;
}

describe('a collection', () => {
  test('is listed from its plan to its weighing', async () => {
    const [first, second] = [await filled(4000), await filled(1000)];
    const collection = freshId('c');
    const volume = (container, millilitres) => ({ container, volume_ml: millilitres });
    await recorded(stage(collection, 'planned', { planned_date: '2031-04-01',
      loads: [volume(first, 4000), volume(second, 1000)] }));
    let told = await listed(collection);
    assert.deepEqual([told.stage, told.day, told.planned_for], ['planned', '2031-04-01', '2031-04-01']);
    assert.deepEqual(told.loads.map((load) => load.volume_ml).sort(), [1000, 4000]);

    const number = 'SALTMA/00A1B';
    await recorded(stage(collection, 'taken', { carrier: await carrier(), document_number: number,
      refused: 'no label', loads: [volume(first, 4000)] }));
    told = await listed(collection);
    assert.equal(told.stage, 'taken');
    assert.deepEqual(told.left_behind.map(({ container }) => container), [second]);
    assert.deepEqual(told.documents.map((one) => [one.number, one.returned_at]), [[number, null]]);
    const [{ logged_kg: logged }] = told.loads;
    assert.ok(logged > 3 && logged < 4, String(logged));

    await recorded(stage(collection, 'document-returned', { document_number: number }));
    await recorded(stage(collection, 'weighed', { loads: [{ container: first, mass_kg: 9 }] }));
    told = await listed(collection);
    assert.ok(told.documents[0].returned_at);
    assert.equal(told.loads[0].weighed_kg, 9);
    assert.equal(told.loads[0].difference_kg, Math.round((9 - logged) * 1000) / 1000);
    assert.deepEqual(told.findings.map(({ rule }) => rule).filter((rule) => /weigh/.test(rule)),
      ['own.weighed-difference']);
    assert.equal(told.entries.length, 4);
  });

  test('is gone once it is struck out', async () => {
    const entry = stage(freshId('c'), 'planned', { planned_date: '2031-04-02' });
    await recorded(entry);
    assert.ok(await listed(entry.fields.collection));
    await recorded(strikeOut(entry.id));
    assert.equal(await listed(entry.fields.collection), undefined);
  });

  test('stands by day, the latest first', async () => {
    const days = (await read(kCollections, 'inspector')).collections.map(({ day }) => day);
    assert.deepEqual(days, [...days].sort().reverse());
  });
});

describe('the proposal', () => {
  test('says why of every container, and names each once', async () => {
    const { today, window_days: window, handovers, undated } = await read(
      `${kCollections}/proposal`, 'technician');
    assert.equal(window, 14);
    const loads = handovers.flatMap((one) => one.loads);
    for (const one of handovers) {
      assert.ok(one.day >= today);
      assert.ok(one.loads.every((load) => load.reasons.length && load.day >= one.loads[0].day));
    }
    const named = loads.concat(undated).map(({ container }) => container);
    assert.equal(new Set(named).size, named.length);
    assert.ok(named.includes('s1')); // its storage clock ends within the days looked ahead
  });

  test('takes a container beyond its limit today, and knows what is planned', async () => {
    const can = freshId('x');
    await recorded(newContainer(can, { capacity_l: 1 }), 'manager');
    await recorded(drain({ container: can, volume_ml: 950 }));
    const of = async () => {
      const { today, handovers } = await read(`${kCollections}/proposal`);
      const one = handovers.find(({ loads }) => loads.some(({ container }) => container === can));
      return { today, day: one.day, load: one.loads.find(({ container }) => container === can) };
    };
    const { today, day, load } = await of();
    assert.equal(day, today);
    assert.equal(load.forecast.none_because, 'at-limit');
    assert.ok(load.reasons.some(({ rule }) => rule === 'own.working-limit'));
    const collection = freshId('c');
    await recorded(stage(collection, 'planned', { planned_date: '2031-04-03',
      loads: [{ container: can, volume_ml: 950 }] }));
    assert.deepEqual((await of()).load.planned_in, [collection]);
  });
});

test('levels tell the forecast, or why there is none', async () => {
  const can = await filled(100);
  const { levels } = await read('/api/v1/levels');
  const { forecast } = levels.find((level) => level.container === can);
  assert.equal(forecast.none_because, 'too-few-days');
  assert.equal(forecast.median, null);
});
