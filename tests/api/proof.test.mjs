// What shows that one entry is in the book is checked here as RFC 9162, section 2.1.3.2, has it, with
// nothing of ours.
import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { describe, test } from 'node:test';
import { call, read, recorded } from './client.mjs';
import { drain, freshId, newContainer } from './submissions.mjs';

const sha256 = (...parts) => createHash('sha256').update(Buffer.concat(parts)).digest();
const node = (left, right) => sha256(Buffer.of(1), left, right);

/** Whether the path leads from the leaf to the root; numbers far below 2^53. */
function leads({ seq, leaf, size, root, path }) {
  let at = seq - 1;
  let last = size - 1;
  let hash = sha256(Buffer.of(0), Buffer.from(leaf, 'utf8'));
  for (const text of path) {
    if (last === 0) return false;
    const beside = Buffer.from(text, 'base64');
    if (at % 2 === 1 || at === last) {
      hash = node(beside, hash);
      while (at % 2 === 0 && at !== 0) {
        at /= 2;
        last = Math.floor(last / 2);
      }
    } else {
      hash = node(hash, beside);
    }
    at = Math.floor(at / 2);
    last = Math.floor(last / 2);
  }
  return last === 0 && hash.toString('base64') === root;
}

const proofOf = (id) => read(`/api/v1/entries/${id}/proof`);

describe('the proof of one entry', () => {
  test('leads from what was recorded to the root of the book', async () => {
    const container = freshId('p');
    await recorded(newContainer(container), 'manager');
    const sent = drain({ container, volume_ml: 61 });
    const { seq, leaf_hash: leafHash } = await recorded(sent);
    const proof = await proofOf(sent.id);
    const { size, root } = await read('/api/v1/book/checkpoint');
    assert.deepEqual([proof.seq, proof.leaf_hash, proof.size, proof.root],
      [seq, leafHash, size, root]);
    assert.equal(JSON.parse(proof.leaf).fields.volume_ml, 61);
    assert.ok(leads(proof));
    assert.ok(!leads({ ...proof, leaf: proof.leaf.replace('61', '62') }));
    assert.ok(!leads({ ...proof, seq: seq - 1 }));
  });

  test('is there for every entry of a page, however deep it stands', async () => {
    const { entries } = await read('/api/v1/entries?limit=60');
    assert.equal(entries.length, 60);
    for (const { id } of entries) assert.ok(leads(await proofOf(id)), id);
  });

  test('is given for the book as it was, of which somebody wrote down size and root', async () => {
    const { size, root } = await read('/api/v1/book/checkpoint');
    const { entries: [{ id }] } = await read('/api/v1/entries?limit=1');
    await recorded(drain());
    const then = await read(`/api/v1/entries/${id}/proof?size=${size}`);
    assert.deepEqual([then.size, then.root], [size, root]);
    assert.ok(leads(then));
    for (const [wrong, status] of [[0, 404], [size + 1000, 404], ['x', 422]]) {
      const answer = await call('GET', `/api/v1/entries/${id}/proof?size=${wrong}`, { as: 'inspector' });
      assert.equal(answer.status, status);
    }
  });

  test('is not there for what is no entry', async () => {
    for (const id of ['0190c2a4-7e00-7000-8000-00000000dead', 'x']) {
      const { status } = await call('GET', `/api/v1/entries/${id}/proof`, { as: 'inspector' });
      assert.equal(status, 404);
    }
  });
});
