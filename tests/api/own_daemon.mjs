// A daemon of a test's own on an empty workshop, as it stands behind a proxy on its machine: whoever
// comes from here comes from anywhere.
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { binary } from './transport.mjs';

const kPeople = [{ name: 'Office', role: 'manager', pin: '604172' },
  { name: 'Bench A', role: 'technician', pin: '274913' },
  { name: 'Visitor', role: 'inspector', pin: '851306' }];

async function serve(folder, file) {
  const child = spawn(binary(), ['serve', '--config', file, '--data', folder],
    { stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = new Promise((resolve) => { child.on('exit', resolve); });
  const address = await new Promise((resolve, reject) => {
    let told = '';
    child.stdout.on('data', (part) => {
      told += part;
      const found = / on (http:\S+)\n/.exec(told);
      if (found) resolve(found[1]);
    });
    child.on('exit', (code) => reject(new Error(`the daemon ended with ${code}: ${told}`)));
  });
  return { child, ended, address };
}

/** {address, folder, persons with their PINs and passphrases, person: the command line,
 *  restart(between), stop}. */
export async function proxiedDaemon(settings = '') {
  const folder = mkdtempSync(join(tmpdir(), 'own-daemon-'));
  const person = (act, ...words) => execFileSync(binary(), ['person', act, '--data', folder, ...words],
    { encoding: 'utf8' });
  const persons = kPeople.map(({ name, role, pin }, index) => {
    const id = `p${index + 1}`;
    person('add', '--name', name, '--role', role, '--pin', pin);
    const [, passphrase] = /new passphrase (\S+)\n/.exec(person('reset-passphrase', id));
    return { id, name, role, pin, passphrase };
  });
  const file = join(folder, 'serve.toml');
  writeFileSync(file, `port = 0\nbehind_proxy = true\n${settings}`);
  let running = await serve(folder, file);
  const end = async () => {
    running.child.kill('SIGTERM');
    await running.ended;
  };
  const daemon = { address: running.address, folder, persons, person };
  daemon.restart = async (between) => {
    await end();
    await between();
    running = await serve(folder, file);
    daemon.address = running.address;
  };
  daemon.stop = async () => {
    await end();
    rmSync(folder, { recursive: true });
  };
  return daemon;
}
