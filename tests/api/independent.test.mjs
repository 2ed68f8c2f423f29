// What we prove is checked by others, and what others prove by us: a library from npm that
// implements RFC 9162, and the Ed25519 of Node.
import assert from 'node:assert/strict';
import { execFileSync, spawnSync } from 'node:child_process';
import { createHash, createPublicKey, randomBytes, randomInt, verify } from 'node:crypto';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, test } from 'node:test';
import { RFC9162 as library } from '@transmute/rfc9162';
import { call, read, recorded } from './client.mjs';
import { drain } from './submissions.mjs';
import { binary, demo } from './transport.mjs';

const base64 = (bytes) => Buffer.from(bytes).toString('base64');
const bytesOf = (text) => new Uint8Array(Buffer.from(text, 'base64'));
const isPowerOf2 = (number) => (number & (number - 1)) === 0;
const kSizeMax = 700;  // the library hashes every leaf anew for every hash it needs

let place;
let leaves;  // of the book, from an export
before(() => {
  place = mkdtempSync(join(tmpdir(), 'benchwarden-proofs.'));
  const to = join(place, 'export');
  execFileSync(binary(), ['export', '--data', demo.folder, '--to', to]);
  leaves = readFileSync(join(to, 'entries.jsonl'), 'utf8').split('\n').slice(0, -1)
    .map((line) => new Uint8Array(Buffer.from(line)));
});
after(() => rmSync(place, { recursive: true }));

/** The library's verifier wants the older root in front where that is a whole subtree; RFC 9162,
 *  section 2.1.4.2, has the verifier put it there itself. */
const asTheLibraryHasIt = ({ from, from_root: root, path }) =>
  (isPowerOf2(from) ? [root, ...path] : path).map(bytesOf);

/** Two sizes, the first below the second. */
function randomSizes() {
  const to = randomInt(2, kSizeMax);
  return { from: randomInt(1, to), to };
}

describe('proofs of the book', () => {
  test('of one entry are taken by the library', async () => {
    for (let turn = 0; turn < 12; turn += 1) {
      const size = randomInt(1, kSizeMax);
      const seq = randomInt(1, size + 1);
      const { id } = JSON.parse(Buffer.from(leaves[seq - 1]));
      const proof = await read(`/api/v1/entries/${id}/proof?size=${size}`);
      const root = await library.treeHead(leaves.slice(0, size));
      assert.equal(proof.root, base64(root));
      const path = proof.path.map(bytesOf);
      const wanted = { log_id: '', tree_size: size, leaf_index: seq - 1, inclusion_path: path };
      const leaf = await library.leaf(leaves[seq - 1]);
      assert.ok(await library.verifyInclusionProof(root, leaf, wanted), `${seq} of ${size}`);
      const other = await library.leaf(randomBytes(9));
      assert.ok(!await library.verifyInclusionProof(root, other, wanted));
    }
  });

  test('of two sizes are taken by the library', async () => {
    const pairs = Array.from({ length: 12 }, randomSizes);
    for (const { from, to } of [...pairs, { from: 64, to: 100 }, { from: 512, to: 600 }]) {
      const proof = await read(`/api/v1/book/consistency?from=${from}&to=${to}`);
      const older = await library.treeHead(leaves.slice(0, from));
      const newer = await library.treeHead(leaves.slice(0, to));
      assert.deepEqual([proof.from_root, proof.to_root], [base64(older), base64(newer)]);
      const wanted = { log_id: '', tree_size_1: from, tree_size_2: to,
        consistency_path: asTheLibraryHasIt(proof) };
      assert.ok(await library.verifyConsistencyProof(older, newer, wanted), `${from} to ${to}`);
      assert.ok(!await library.verifyConsistencyProof(newer, older, wanted));
      const made = await library.consistencyProof({ tree_size: from }, leaves.slice(0, to));
      assert.deepEqual(made.consistency_path.map(base64), wanted.consistency_path.map(base64));
    }
  });

  test('are refused where there is no such size', async () => {
    for (const [query, status] of [['', 422], ['from=0', 422], ['from=x', 422], ['from=9&to=8', 422],
      ['from=1&to=99999999', 404]]) {
      const answer = await call('GET', `/api/v1/book/consistency?${query}`, { as: 'inspector' });
      assert.equal(answer.status, status, query);
    }
  });
});

describe('proofs of the library', () => {
  /** A file as C2SP tlog-proof has it, over a note that nobody knows. */
  function proofFile(leaf, index, path, size, root) {
    const file = join(place, 'one.tlog-proof');
    writeFileSync(file, ['c2sp.org/tlog-proof@v1', `extra ${base64(leaf)}`, `index ${index}`,
      ...path.map(base64), '', 'a.tree', size, base64(root), '',
      `\u2014 a.tree ${base64(randomBytes(68))}`, ''].join('\n'));
    return spawnSync(binary(), ['verify', '--proof', file], { encoding: 'utf8' });
  }

  test('over random trees are taken by verify, and no others', async () => {
    for (let turn = 0; turn < 24; turn += 1) {
      const size = randomInt(1, 300);
      const tree = Array.from({ length: size }, () => randomBytes(randomInt(1, 40)).toString('hex'))
        .map((text) => new Uint8Array(Buffer.from(text)));
      const index = randomInt(0, size);
      const root = await library.treeHead(tree);
      const { leaf_index: place0, inclusion_path: path } =
        await library.inclusionProof(tree[index], tree);
      const good = proofFile(tree[index], place0, path, size, root);
      assert.equal(good.status, 0, good.stdout);
      assert.match(good.stdout, /not shown: who signed the note/);
      const wrong = proofFile(randomBytes(8), place0, path, size, root);
      assert.equal(wrong.status, 1, wrong.stdout);
      assert.match(wrong.stdout, /do not lead from this entry/);
    }
  });
});

/** A note as C2SP signed-note has it, taken apart with nothing of ours. */
function open(note, verifierKey) {
  const [name, id, ...rest] = verifierKey.split('+');
  const typed = Buffer.from(rest.join('+'), 'base64');
  assert.equal(typed[0], 1);
  const named = Buffer.concat([Buffer.from(`${name}\n`), typed]);
  assert.equal(createHash('sha256').update(named).digest('hex').slice(0, 8), id);
  const text = note.slice(0, note.lastIndexOf('\n\n') + 1);
  const [dash, signer, signature] = note.slice(text.length + 1).trimEnd().split(' ');
  assert.deepEqual([dash, signer], ['\u2014', name]);
  const bytes = Buffer.from(signature, 'base64');
  assert.equal(bytes.subarray(0, 4).toString('hex'), id);
  const key = createPublicKey({ key: { kty: 'OKP', crv: 'Ed25519',
    x: typed.subarray(1).toString('base64url') }, format: 'jwk' });
  return { text, holds: verify(null, Buffer.from(text), key, bytes.subarray(4)),
    holdsChanged: verify(null, Buffer.from(`${text} `), key, bytes.subarray(4)) };
}

describe('signed checkpoints', () => {
  test('hold with the Ed25519 of Node, each for the leaves of its size', async () => {
    const { checkpoints } = await read('/api/v1/book/checkpoints?limit=200');
    assert.ok(checkpoints.length > 0);
    for (const { number, size, verifier_key: key, note } of checkpoints) {
      const { text, holds, holdsChanged } = open(note, key);
      assert.deepEqual([holds, holdsChanged], [true, false], `checkpoint ${number}`);
      const [origin, told, root] = text.split('\n');
      assert.equal(origin, key.split('+')[0]);
      assert.equal(told, String(size));
      const { to_root: today } = await read(`/api/v1/book/consistency?from=1&to=${size}`);
      assert.equal(root, today);
    }
  });

  test('are listed by pages', async () => {
    const one = await read('/api/v1/book/checkpoints?limit=1');
    assert.deepEqual([one.checkpoints.length, one.checkpoints[0].number, one.next_after], [1, 1, 1]);
    const none = await read('/api/v1/book/checkpoints?after=999999');
    assert.deepEqual(none, { checkpoints: [], next_after: null });
    for (const query of ['limit=0', 'limit=201', 'limit=x', 'after=-1']) {
      const { status } = await call('GET', `/api/v1/book/checkpoints?${query}`, { as: 'manager' });
      assert.equal(status, 422, query);
    }
  });

  test('are set with each report, and hold its figures', async () => {
    const issued = await call('POST', '/api/v1/reports/waste-month',
      { as: 'manager', body: { month: '2026-09' } });
    assert.equal(issued.status, 201, issued.text);
    const { signed } = await read('/api/v1/book/checkpoint');
    const figures = await call('GET', issued.json.pdf.replace(/pdf$/, 'json'), { as: 'manager' });
    const digest = createHash('sha256').update(figures.bytes).digest('hex');
    const { text, holds } = open(signed.note, signed.verifier_key);
    assert.ok(holds);
    assert.equal(text.split('\n')[3], `figures ${digest}`);
    const entry = await read(`/api/v1/entries/${issued.json.id}`);
    assert.equal(entry.fields.figures_digest, digest);
  });
});

describe('the proof file of an entry', () => {
  test('is taken by verify with the key, and tells a changed one', async () => {
    const { checkpoints: [{ verifier_key: key }] } = await read('/api/v1/book/checkpoints?limit=1');
    const { entries: [{ id, seq }] } = await read('/api/v1/entries?kind=oil-drained&limit=1');
    const answer = await call('GET', `/api/v1/entries/${id}/tlog-proof`, { as: 'inspector' });
    assert.equal(answer.status, 200, answer.text);
    assert.match(answer.headers['content-disposition'], new RegExp(`entry-${seq}\\.tlog-proof`));
    const file = join(place, 'entry.tlog-proof');
    writeFileSync(file, answer.bytes);
    const said = execFileSync(binary(), ['verify', '--proof', file, '--key', key],
      { encoding: 'utf8' });
    assert.match(said, new RegExp(`is entry ${seq} of the book`));
    assert.match(said, /it is signed by the key you gave/);
    writeFileSync(file, answer.text.replace(/^index \d+/m, 'index 0'));
    assert.equal(spawnSync(binary(), ['verify', '--proof', file, '--key', key]).status, 1);
  });

  test('is not there before a checkpoint covers the entry', async () => {
    const sent = drain();
    await recorded(sent);
    for (const [id, why] of [[sent.id, /is under no signed checkpoint yet/], ['x', /./],
      ['0190c2a4-7e00-7000-8000-00000000dead', /./]]) {
      const answer = await call('GET', `/api/v1/entries/${id}/tlog-proof`, { as: 'inspector' });
      assert.equal(answer.status, 404);
      assert.match(answer.json.detail, why);
    }
  });
});
