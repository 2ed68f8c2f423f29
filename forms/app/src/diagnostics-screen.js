// How the program runs, in numbered lines: short enough to be read out over the phone to whoever
// helps, who asks for one by its number.
import { html, nothing } from 'lit';
import { Screen } from './screen.js';
import { get } from './api.js';
import { grouped } from './decimal.js';
import { mayEnter } from './session.js';
import { momentText } from './time.js';
import { onClock, workshopZone } from './zone.js';
import { store } from './store.js';
import { texts } from '../texts.js';

const kRootDigits = 16; // enough to tell two books apart, and to be read out

const count = (number) => grouped(String(number));
function sizeOf(bytes) {
  const words = texts.diagnostics;
  if (bytes === null) return words.unknown;
  return bytes < 1e9 ? words.megabytes((bytes / 1e6).toFixed(1))
    : words.gigabytes(grouped((bytes / 1e9).toFixed(1)));
}
const readOutInFours = (digits) => digits.match(/.{1,4}/g).join(' ');

class Diagnostics extends Screen {
  static needsSession = true;

  fetch() {
    if (!mayEnter(store.state.session)) return null;
    return this.load(async () => {
      const [told, backups, zone] = await Promise.all([get('/diagnostics'), get('/backups'),
        workshopZone()]);
      Object.assign(this, { told, backups, zone });
    });
  }

  moment(at) {
    return at === null ? texts.diagnostics.never : momentText(onClock(at, this.zone));
  }

  machineLines() {
    const { program, machine } = this.told;
    const words = texts.diagnostics;
    return [[words.version, program.version],
      [words.system, machine.system],
      [words.now, words.inZone(this.moment(machine.now), machine.zone)],
      [words.since, this.moment(machine.started_at)],
      [words.disk, words.free(sizeOf(machine.disk_free_bytes), sizeOf(machine.disk_bytes))],
      [words.memory, sizeOf(machine.resident_bytes)],
      [words.open, words.opened(machine.threads, machine.open_files, machine.open_files_max)]];
  }

  bookLines() {
    const { book } = this.told;
    const words = texts.diagnostics;
    return [[words.entries, count(book.entries)],
      [words.root, readOutInFours(book.root.slice(0, kRootDigits))],
      [words.last, this.moment(book.last_recorded_at)],
      [words.tallied, count(book.tallied)]];
  }

  backupLine() {
    const { newest, failure } = this.backups;
    const words = texts.diagnostics;
    if (failure) return [words.backup, words.failed(this.moment(failure.at), failure.detail)];
    return [words.backup, this.moment(newest?.made_at ?? null)];
  }

  trafficLines() {
    const { requests, connections } = this.told;
    const words = texts.diagnostics;
    const { slowest } = requests;
    return [[words.answers, words.answered(requests)],
      [words.slowest, slowest ? words.slow(slowest, this.moment(slowest.at)) : words.never],
      [words.connections, words.connected(connections)]];
  }

  logLines() {
    const { log } = this.told;
    const words = texts.diagnostics;
    return [[words.log, words.logged(log)], ...[...log.recent].reverse()
      .map(({ time, severity, event, detail }) => [`${severity} · ${event}`,
        words.entry(this.moment(time), detail)])];
  }

  libraryLines() {
    const { program } = this.told;
    const words = texts.diagnostics;
    return ['openssl', 'poco', 'compiler'].map((name) => [words.parts[name], program[name]]);
  }

  fileLines() {
    return this.told.book.files.map(({ name, bytes }) => [name, sizeOf(bytes)]);
  }

  render() {
    const words = texts.diagnostics;
    if (!mayEnter(store.state.session)) return html`<h1 tabindex="-1">${words.title}</h1>`;
    if (!this.loaded) return this.waiting(words.title, () => this.fetch());
    // What there may be more or less of comes last: the other lines keep their numbers everywhere.
    const lines = [...this.machineLines(), ...this.bookLines(), this.backupLine(),
      ...this.trafficLines(), ...this.libraryLines(), ...this.fileLines(), ...this.logLines()];
    return html`<h1 tabindex="-1">${words.title}</h1>
      <p>${words.lead}</p>
      <p class="links"><button class="button" @click=${() => this.fetch()}>${words.again}</button></p>
      <ol class="read-out">${lines.map(([label, value]) => html`<li>
        <span class="quiet">${label}:</span> <b>${value ?? nothing}</b></li>`)}</ol>`;
  }
}

customElements.define('bw-diagnostics', Diagnostics);
