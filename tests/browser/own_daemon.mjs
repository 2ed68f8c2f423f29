// A daemon of a test's own, on a small invented workshop: one that can be killed and started again
// on its port. It has the authority of the demo's daemon, which the browser trusts.
import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
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

function given(name, what) {
  const path = process.env[name];
  if (!path) throw new Error(`${name} must name ${what}`);
  return path;
}

const binary = () => given('BENCHWARDEN_BINARY', 'the benchwarden executable');

function run(args, input = '') {
  const { status, stderr } = spawnSync(binary(), args, { input, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${args.join(' ')}: ${stderr}`);
}

/** Resolves with {child, ended, address, local} once the daemon says where it answers. */
function serve(data, port) {
  const settings = join(data, 'serve.toml');
  writeFileSync(settings, `port = ${port}\nhttps = true\nname = "shop.local"\nset_up_port = 0\n`);
  const child = spawn(binary(), ['serve', '--config', settings, '--data', data],
    { stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = new Promise((resolve) => { child.on('exit', resolve); });
  return new Promise((resolve, reject) => {
    let told = '';
    child.stdout.on('data', (part) => {
      told += part;
      const found = / on (https:\S+)\n.* on (https:\S+)\n/.exec(told);
      if (found) resolve({ child, ended, address: found[1], local: found[2] });
    });
    child.on('exit', (code) => reject(new Error(`the daemon ended with ${code}: ${told}`)));
  });
}

/** The data of the workshop as each daemon finds it; made once, removed at the end. */
function freshData() {
  const data = mkdtempSync(join(tmpdir(), 'fresh-workshop-'));
  process.on('exit', () => rmSync(data, { recursive: true }));
  for (const { name, role, pin } of kPeople) {
    run(['person', 'add', '--data', data, '--name', name, '--role', role, '--pin', '-'], `${pin}\n`);
  }
  const file = `${data}.toml`;
  writeFileSync(file, kThings);
  run(['import', file, '--data', data, '--as', 'p1']);
  rmSync(file);
  cpSync(given('BENCHWARDEN_TLS', 'the tls folder of a daemon'), join(data, 'tls'), { recursive: true });
  return data;
}

let fresh;

/** {address, persons, kill, start, call, remove}. */
export async function ownDaemon() {
  fresh ??= freshData();
  const data = mkdtempSync(join(tmpdir(), 'own-workshop-'));
  cpSync(fresh, data, { recursive: true });
  let running = await serve(data, 0);
  const { address, local } = running;
  const kill = async (signal = 'SIGKILL') => {
    running.child.kill(signal);
    await running.ended;
  };
  return {
    address,
    persons: kPeople.map((person, index) => ({ ...person, id: `p${index + 1}` })),
    kill,
    start: async () => { running = await serve(data, new URL(address).port); },
    call: caller(local),
    remove: async () => {
      await kill('SIGTERM');
      rmSync(data, { recursive: true });
    },
  };
}

/** Calls the API as a person, without a browser. */
function caller(address) {
  const tokens = new Map();
  const send = async (method, path, content, token) => {
    const headers = { 'Content-Type': 'application/json' };
    if (token) headers.Authorization = `Bearer ${token}`;
    const answer = await fetch(`${address}/api/v1${path}`,
      { method, headers, body: content && JSON.stringify(content) });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
    return answer.status === 204 ? null : answer.json();
  };
  return async ({ id, pin }, method, path, body) => {
    if (!tokens.has(id)) {
      tokens.set(id, (await send('POST', '/session', { person: id, pin })).token);
    }
    return send(method, path, body, tokens.get(id));
  };
}
