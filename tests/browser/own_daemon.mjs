// A daemon of a test's own, on a small invented workshop: one that can be killed and started again
// on its port.
import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const kThings = `
[[thing]]
class = "workshop"
id = "site"
name = "Test works"
address = "Quay 1"
time_zone = "Europe/Berlin"

[[thing]]
class = "stream"
id = "used-oil"
name = "Used damper oil"
low_code = "13 01 10"
hazardous = "yes"
counted_by = "volume"
density_kg_m3 = "870.5"
density_source = "data sheet"
${['w1', 'w2'].map((id) => `
[[thing]]
class = "container"
id = "${id}"
name = "Oil drum ${id.toUpperCase()}"
stream = "used-oil"
capacity_l = 205
working_limit_percent = 90
counts_waste = "yes"
`).join('')}`;

const kPeople = [{ name: 'Office', role: 'manager', pin: '604172' },
  { name: 'Bench A', role: 'technician', pin: '274913' },
  { name: 'Bench B', role: 'technician', pin: '851306' }];

function binary() {
  const path = process.env.BENCHWARDEN_BINARY;
  if (!path) throw new Error('BENCHWARDEN_BINARY must name the benchwarden executable');
  return path;
}

function run(args, input = '') {
  const { status, stderr } = spawnSync(binary(), args, { input, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${args.join(' ')}: ${stderr}`);
}

/** Resolves with the address once the daemon says it. */
function serve(data, port) {
  const child = spawn(binary(), ['serve', '--data', data, '--port', String(port)],
    { stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = new Promise((resolve) => { child.on('exit', resolve); });
  return new Promise((resolve, reject) => {
    let told = '';
    child.stdout.on('data', (part) => {
      told += part;
      const found = / on (http:\/\/\S+)\n/.exec(told);
      if (found) resolve({ child, ended, address: found[1] });
    });
    child.on('exit', (code) => reject(new Error(`the daemon ended with ${code}: ${told}`)));
  });
}

/** {address, persons, kill, start, call, remove}. */
export async function ownDaemon() {
  const data = mkdtempSync(join(tmpdir(), 'own-workshop-'));
  for (const { name, role, pin } of kPeople) {
    run(['person', 'add', '--data', data, '--name', name, '--role', role, '--pin', '-'], `${pin}\n`);
  }
  const file = `${data}.toml`;
  writeFileSync(file, kThings);
  run(['import', file, '--data', data, '--as', 'p1']);
  let running = await serve(data, 0);
  const { address } = running;
  const kill = async (signal = 'SIGKILL') => {
    running.child.kill(signal);
    await running.ended;
  };
  return {
    address,
    persons: kPeople.map((person, index) => ({ ...person, id: `p${index + 1}` })),
    kill,
    start: async () => { running = await serve(data, new URL(address).port); },
    call: caller(address),
    remove: async () => {
      await kill('SIGTERM');
      rmSync(data, { recursive: true });
      rmSync(file);
    },
  };
}

/** Calls the API as a person, without a browser. */
function caller(address) {
  return async (person, method, path, body) => {
    const send = async (way, at, content, token) => {
      const headers = { 'Content-Type': 'application/json' };
      if (token) headers.Authorization = `Bearer ${token}`;
      const answer = await fetch(`${address}/api/v1${at}`,
        { method: way, headers, body: content && JSON.stringify(content) });
      if (!answer.ok) throw new Error(`${way} ${at}: ${answer.status} ${await answer.text()}`);
      return answer.status === 204 ? null : answer.json();
    };
    const { token } = await send('POST', '/session', { person: person.id, pin: person.pin });
    return send(method, path, body, token);
  };
}
