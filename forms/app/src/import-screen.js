// Things under care from a file: a dry run shows what would be entered, or every fault; only then
// can it be entered, all or nothing.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, post } from './api.js';
import { texts } from '../texts.js';

// The daemon takes a body of 64 KiB, and the file stands in it as JSON text.
const kBodyBytesMax = 65536;

const bodyOf = (toml, dryRun) => ({ toml, dry_run: dryRun });
const bytesOf = (body) => new TextEncoder().encode(JSON.stringify(body)).length;

class Import extends Screen {
  static needsSession = true;

  toml = null;

  shown = null;

  fault = '';

  async choose(event) {
    const [file] = event.target.files;
    this.toml = null;
    this.shown = null;
    this.fault = '';
    if (!file) return;
    await this.once(() => this.tryOut(file));
  }

  async tryOut(file) {
    const toml = file.size > kBodyBytesMax ? null : await file.text();
    if (toml === null || bytesOf(bodyOf(toml, false)) > kBodyBytesMax) {
      this.fault = texts.import.tooLong;
      return;
    }
    this.toml = toml;
    await this.send(true);
  }

  async send(dryRun) {
    this.fault = '';
    try {
      this.form ??= await get('/forms/register-change');
      this.shown = await post('/register/import', bodyOf(this.toml, dryRun));
    } catch (error) {
      this.fault = errorText(error);
    }
  }

  faults() {
    return html`<p class="fault" role="alert">${texts.import.faults(this.shown.faults.length)}</p>
      <ol class="imported">${this.shown.faults.map((fault) => html`
        <li>${texts.import.fault(fault)}</li>`)}</ol>`;
  }

  /** What becomes of one thing, in the words of the register. */
  thing({ thing_class: code, thing, act, fields }) {
    const labelOf = (name) => this.form.fields.find((field) => field.name === name)?.label ?? name;
    const kinds = this.form.fields.find(({ name }) => name === 'thing_class').options;
    const kind = kinds.find((option) => option.code === code)?.label ?? code;
    return texts.import.thing(kind, thing, act, act === 'changed' ? fields.map(labelOf) : []);
  }

  things() {
    const { things, recorded } = this.shown;
    const news = things.filter(({ act }) => act !== 'unchanged');
    return html`<p role="status">${recorded ? texts.import.done(news.length)
      : texts.import.would(news.length)}</p>
      <ol class="imported">${things.map((thing) => html`
        <li>${this.thing(thing)}</li>`)}</ol>
      ${recorded || !news.length ? nothing : html`<button class="button primary"
        ?disabled=${this.busy} @click=${() => this.once(() => this.send(false))}>
        ${texts.import.save(news.length)}</button>`}`;
  }

  result() {
    if (!this.shown) return nothing;
    return this.shown.faults.length ? this.faults() : this.things();
  }

  render() {
    return html`<h1 tabindex="-1">${texts.import.title}</h1>
      <p>${texts.import.lead}</p>
      <div class="narrow">
        <label class="written"><span>${texts.import.file}</span>
          <input type="file" accept=".toml" ?disabled=${this.busy}
            @change=${(event) => this.choose(event)}></label>
      </div>
      ${alertLine(this.fault)}
      ${this.result()}`;
  }
}

customElements.define('bw-import', Import);
