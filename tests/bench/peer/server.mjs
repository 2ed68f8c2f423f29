// A plain service beside which the daemon is measured: the same submission of a drain, checked by
// its JSON schema, a session looked up by its token, the same columns in the same tables with the
// same durability, 201 after the commit. It hashes nothing, keeps no state and judges nothing.
//   node server.mjs BOOK.db TOKEN single|grouped [KEY.pem CERTIFICATE.pem]
// single: one transaction a request, as such services are written. grouped: what came in one turn
// of the event loop goes into one transaction.
import { readFileSync } from 'node:fs'
import Database from 'better-sqlite3'
import Fastify from 'fastify'

const [path, token, commits, keyFile, certificateFile] = process.argv.slice(2)
const database = openBook(path)
const newest = database.prepare('SELECT * FROM entry ORDER BY seq DESC LIMIT 1').get()
const template = JSON.parse(newest.leaf)
const findSubjects = database.prepare('SELECT subject FROM mention WHERE seq = ?').pluck()
const subjects = findSubjects.all(newest.seq)
const hash = Buffer.alloc(32, 7)

const insertEntry = database.prepare(
  'INSERT INTO entry (seq, id, kind, occurred_at_ms, corrects, subjects_hash, leaf_hash, ' +
  'interior, root, leaf) VALUES (?, ?, ?, ?, NULL, ?, ?, ?, ?, ?)')
const insertMention = database.prepare('INSERT INTO mention (subject, seq) VALUES (?, ?)')
const findSession = database.prepare('SELECT person FROM session WHERE token = ?')
let size = newest.seq

const drain = {
  body: {
    type: 'object',
    additionalProperties: false,
    required: ['id', 'kind', 'occurred_at', 'fields'],
    properties: {
      id: {
        type: 'string',
        pattern: '^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$'
      },
      kind: { const: 'oil-drained' },
      occurred_at: { type: 'string', format: 'date-time' },
      fields: {
        type: 'object',
        additionalProperties: false,
        required: ['container', 'volume_ml'],
        properties: {
          container: { type: 'string', pattern: '^[a-z0-9-]{1,40}$' },
          volume_ml: { type: 'number', minimum: 0.001, maximum: 20000 }
        }
      }
    }
  }
}

// The tables as the daemon left them, without the triggers, opened as src/sqlite/database.cpp does.
function openBook (file) {
  const opened = new Database(file)
  const triggers = opened.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck()
  for (const name of triggers.all()) opened.exec(`DROP TRIGGER ${name}`)
  opened.pragma('journal_mode = WAL')
  opened.pragma('synchronous = FULL')
  opened.pragma('journal_size_limit = 16777216')
  opened.exec('CREATE TABLE session (token TEXT PRIMARY KEY, person TEXT NOT NULL) WITHOUT ROWID')
  opened.prepare('INSERT INTO session VALUES (?, ?)').run(token, 'p1')
  return opened
}

function insert (submission, person) {
  const seq = ++size
  const recordedAt = new Date().toISOString()
  const leaf = JSON.stringify({
    ...template, fields: submission.fields, id: submission.id, occurred_at: submission.occurred_at,
    person, recorded_at: recordedAt, seq
  })
  const interior = Buffer.alloc(32 * (31 - Math.clz32(seq & -seq)), 7)
  insertEntry.run(seq, Buffer.from(submission.id.replaceAll('-', ''), 'hex'), submission.kind,
    Date.parse(submission.occurred_at), newest.subjects_hash, hash, interior, hash,
    Buffer.from(leaf))
  for (const subject of subjects) insertMention.run(subject, seq)
  return { id: submission.id, seq, recorded_at: recordedAt }
}

const inTransaction = database.transaction(
  group => group.map(({ submission, person }) => insert(submission, person)))

function commit (group) {
  try {
    return inTransaction(group)
  } catch (fault) {
    size = database.prepare('SELECT max(seq) FROM entry').pluck().get()
    throw fault
  }
}

let waiting = []

function commitWaiting () {
  const group = waiting
  waiting = []
  try {
    const recorded = commit(group)
    group.forEach(({ resolve }, i) => resolve(recorded[i]))
  } catch (fault) {
    for (const { reject } of group) reject(fault)
  }
}

function recordGrouped (submission, person) {
  return new Promise((resolve, reject) => {
    if (waiting.push({ submission, person, resolve, reject }) === 1) setImmediate(commitWaiting)
  })
}

const recordAlone = (submission, person) => commit([{ submission, person }])[0]
const record = commits === 'grouped' ? recordGrouped : recordAlone

const server = Fastify({
  https: keyFile && { key: readFileSync(keyFile), cert: readFileSync(certificateFile) }
})
server.post('/api/v1/entries', { schema: drain }, async (request, reply) => {
  const given = request.headers.authorization?.replace(/^Bearer /, '') ?? ''
  const session = findSession.get(given)
  if (!session) return reply.code(401).send({ title: 'nobody is signed in' })
  return reply.code(201).send(await record(request.body, session.person))
})
await server.listen({ host: '127.0.0.1', port: 0 })
console.log(JSON.stringify({ port: server.server.address().port }))
