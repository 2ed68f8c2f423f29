// Work goes on while the daemon is away: entries stay on the tablet, over a reload too, and all of
// them come into the book, each once, when it is back.
import assert from 'node:assert/strict';
import { describe, test } from 'node:test';
import {
  benchA, daemon, entriesOf, findNetwork, loseNetwork, page, retire, tablet, work,
} from './own_shop.mjs';
import { isLong, outboxSays, pick, recordDrain, until } from './tablet.mjs';

const kMany = isLong ? 50 : 24;

/** In the page: true once it has fetched ahead what forms need. */
const provided = () => new Promise((resolve) => {
  const opening = indexedDB.open('benchwarden');
  opening.onsuccess = () => {
    const fact = opening.result.transaction('facts').objectStore('facts').get('provided');
    fact.onsuccess = () => {
      opening.result.close();
      resolve(Boolean(fact.result));
    };
  };
});

const volumes = (found) => found.map(({ fields }) => fields.volume_ml);

describe('while the daemon is away', () => {
  test('many entries wait on the tablet, outlive a reload, and come into the book once each',
    async () => {
      await work();
      await outboxSays(page, 'All in the book');
      await daemon.kill();
      for (let count = 1; count <= kMany; count += 1) {
        await recordDrain(tablet, 100 + count);
        await outboxSays(page, `${count} on this tablet`);
        if (count === 20) {
          await page.reload();
          await page.locator('.bench').waitFor();
          assert.match(await page.locator('.who').textContent(), /Bench A.*out of reach, as of \d/s);
          await outboxSays(page, '20 on this tablet');
        }
      }
      await page.locator('.outbox-link').tap();
      await page.locator('[data-row]').nth(kMany - 1).waitFor();
      assert.equal(await page.locator('[data-row]').count(), kMany);

      await daemon.start();
      await page.getByRole('button', { name: 'Send now' }).tap();
      await outboxSays(page, 'All in the book');
      const found = await entriesOf('oil-drained');
      const expected = [1, ...Array.from({ length: kMany }, (_, index) => 101 + index)];
      assert.deepEqual(volumes(found), expected);
      assert.equal(new Set(found.map(({ id }) => id)).size, kMany + 1);
      assert.ok(found.every((entry) => entry.person === benchA.id && entry.person_verified));
      assert.deepEqual(tablet.complaints, []);
      assert.deepEqual(await page.evaluate(() => window.violations), []);
    });

  test('a tablet that was loaded anew sends by itself when the daemon is back', async () => {
    await work();
    await daemon.kill();
    await recordDrain(tablet, 77);
    await page.reload();
    await outboxSays(page, '1 on this tablet');
    await daemon.start();
    await outboxSays(page, 'All in the book');
    assert.deepEqual(volumes(await entriesOf('oil-drained')), [1, 77]);
  });

  test('what is undone before it was sent comes into the book with its strike-out', async () => {
    await work();
    await daemon.kill();
    await recordDrain(tablet, 333);
    await page.locator('.saved').getByRole('button', { name: 'Undo' }).tap();
    await page.locator('.saved', { hasText: 'Undone; both come into the book' }).waitFor();
    await outboxSays(page, '2 on this tablet');
    await daemon.start();
    await outboxSays(page, 'All in the book');
    const [, undone] = await entriesOf('oil-drained');
    assert.equal(undone.fields.volume_ml, 333);
    assert.deepEqual(undone.corrections.map(({ fields }) => fields.action), ['struck-out']);
  });

  test('a form that was never opened on the tablet can be filled in', async () => {
    await work();
    await until(page, provided, 60000);
    await daemon.kill();
    await page.getByRole('link', { name: 'Record something else' }).tap();
    await page.getByRole('button', { name: 'Container change' }).tap();
    await pick(page, 'container');
    await pick(page, 'container_act', 'emptied');
    await page.locator('.save').tap();
    await outboxSays(page, '1 on this tablet');
    await daemon.start();
    await outboxSays(page, 'All in the book');
    assert.equal((await entriesOf('container-change')).length, 1);
  });

  test('who leaves ends the session once the entries are in the book under it', async () => {
    await work();
    await daemon.kill();
    await recordDrain(tablet, 55);
    await page.getByRole('button', { name: 'Next person' }).tap();
    await page.locator('.people').waitFor();
    await page.getByText('Who was signed in can go on').waitFor();
    await daemon.start();
    await outboxSays(page, 'All in the book');
    const [, entry] = await entriesOf('oil-drained');
    assert.deepEqual([entry.person, entry.person_verified], [benchA.id, true]);
    await until(page, async () => (await fetch('/api/v1/session')).status === 401);
  });

  test('what is refused later waits for attention, and its person mends it', async () => {
    await work();
    await loseNetwork();
    await recordDrain(tablet, 64, 'W2');
    await outboxSays(page, '1 on this tablet');
    await retire('w2');
    await findNetwork();
    await outboxSays(page, '1 needs attention');
    await page.locator('.outbox-link').tap();
    await page.locator('[data-row] .fault').waitFor();
    await page.getByRole('link', { name: 'Mend it' }).tap();
    await page.locator('.form').waitFor();
    await page.locator('[data-field="container"] .fault').waitFor();
    assert.equal(await page.locator('.number-value').textContent(), '64');
    await page.locator('[data-field="container"] .choice', { hasText: 'W1' }).tap();
    await page.locator('.save').tap();
    await outboxSays(page, 'All in the book');
    const found = await entriesOf('oil-drained');
    assert.deepEqual(found.map(({ fields }) => [fields.container, fields.volume_ml]),
      [['w1', 1], ['w1', 64]]);
  });
});
