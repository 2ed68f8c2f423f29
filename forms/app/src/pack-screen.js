// The workshop's own rule pack: what judges now, the text in force, and another one, which is looked
// through for faults before it can be put in force.
import { html, nothing } from 'lit';
import { Screen, alertLine, errorText } from './screen.js';
import { get, post, put } from './api.js';
import { store } from './store.js';
import { texts } from '../texts.js';

// The daemon takes a body of 64 KiB, and the text stands in it as JSON text.
const kBodyBytesMax = 65536;
const bytesOf = (toml) => new TextEncoder().encode(JSON.stringify({ toml })).length;

/** A copy needs a name that no built-in pack has. */
const renamed = (toml) => toml.replace(/^pack = "([^"]*)"/m, 'pack = "own-$1"');

class Pack extends Screen {
  static needsSession = true;

  toml = '';

  checked = null;

  said = '';

  fault = '';

  asking = false;

  fetch() {
    return this.load(async () => {
      [this.rules, this.packs] = await Promise.all([get('/rules'), get('/rules/packs')]);
    });
  }

  write(toml) {
    this.toml = toml;
    this.checked = null;
    this.said = '';
    this.fault = '';
    this.requestUpdate();
  }

  async choose(event) {
    const [file] = event.target.files;
    if (!file) return;
    if (file.size > kBodyBytesMax) {
      this.write('');
      this.fault = texts.pack.tooLong;
      return;
    }
    this.write(await file.text());
    await this.check();
  }

  /** One call to the daemon; what it says against it is shown. */
  ask(work) {
    return this.once(async () => {
      this.said = '';
      this.fault = '';
      try {
        await work();
      } catch (error) {
        this.fault = errorText(error);
      }
    });
  }

  check() {
    if (bytesOf(this.toml) > kBodyBytesMax) {
      this.fault = texts.pack.tooLong;
      this.requestUpdate();
      return undefined;
    }
    const { toml } = this;
    return this.ask(async () => {
      const checked = await post('/rules/check', { toml });
      if (toml === this.toml) this.checked = checked;
    });
  }

  adopt() {
    return this.ask(async () => {
      const { seq } = await put('/rules/local', { toml: this.toml });
      this.write('');
      this.said = texts.pack.adopted(seq);
      await this.fetch();
    });
  }

  withdraw() {
    return this.ask(async () => {
      await put('/rules/local', { toml: '' });
      this.asking = false;
      this.said = texts.pack.withdrawn;
      await this.fetch();
    });
  }

  turn(asking) {
    this.asking = asking;
    this.requestUpdate();
  }

  inForce() {
    const { packs, rules } = this.rules;
    const own = this.packs.local?.digest;
    return html`<section><h2>${texts.pack.now}</h2>
      <ul class="imported">${packs.map((pack) => html`<li data-pack=${pack.pack}>
        ${texts.pack.inForce(pack, rules.filter((one) => one.pack === pack.pack).length)}
        ${pack.digest === own ? html`<b>(${texts.pack.local})</b>` : nothing}</li>`)}</ul>
      ${this.standing()}</section>`;
  }

  standing() {
    const { local } = this.packs;
    if (!local) return html`<p>${texts.pack.none}</p>`;
    return html`<p>${texts.pack.standing(local)}</p>
      ${this.asking ? this.confirmation() : html`<button class="button" ?disabled=${this.busy}
        @click=${() => this.turn(true)}>${texts.pack.withdraw}</button>`}`;
  }

  confirmation() {
    return html`<p class="heed">${texts.pack.withdrawAsk}</p>
      <div class="links"><button class="button" @click=${() => this.turn(false)}>
        ${texts.pack.keep}</button>
      <button class="button primary" ?disabled=${this.busy} @click=${() => this.withdraw()}>
        ${texts.pack.withdrawYes(store.state.session.name)}</button></div>`;
  }

  copies() {
    const { built_in: builtIn, local } = this.packs;
    return html`<h3>${texts.pack.copy}</h3>
      <p class="quiet">${texts.pack.replaces}</p>
      <div class="links">${local ? html`<button class="button"
        @click=${() => this.write(local.toml)}>${local.pack} (${texts.pack.ours})</button>` : nothing}
      ${builtIn.map((pack) => html`<button class="button" data-copy=${pack.pack}
        @click=${() => this.write(renamed(pack.toml))}>${pack.title}</button>`)}</div>`;
  }

  result() {
    if (!this.checked) return nothing;
    const { pack, faults } = this.checked;
    if (!pack) {
      return html`<p class="fault" role="alert">${texts.pack.faults(faults.length)}</p>
        <ol class="imported">${faults.map((fault) => html`<li>${texts.pack.fault(fault)}</li>`)}</ol>`;
    }
    return html`<p role="status">${texts.pack.sound(pack)}</p>
      <button class="button primary" ?disabled=${this.busy} @click=${() => this.adopt()}>
        ${texts.pack.adopt(store.state.session.name)}</button>`;
  }

  writing() {
    return html`<section><h2>${texts.pack.another}</h2>
      ${this.copies()}
      <div class="narrow"><label class="written"><span>${texts.pack.file}</span>
        <input type="file" accept=".toml" ?disabled=${this.busy}
          @change=${(event) => this.choose(event)}></label></div>
      <label class="written"><span>${texts.pack.text}</span>
        <textarea rows="16" spellcheck="false" autocapitalize="off" autocomplete="off"
          .value=${this.toml} @input=${(event) => this.write(event.target.value)}></textarea></label>
      <button class="button" ?disabled=${this.busy || !this.toml} @click=${() => this.check()}>
        ${texts.pack.check}</button>
      ${this.result()}</section>`;
  }

  render() {
    if (!this.loaded) return this.waiting(texts.pack.title, () => this.fetch());
    return html`<h1 tabindex="-1">${texts.pack.title}</h1>
      <p>${texts.pack.lead}</p>
      ${this.said ? html`<p role="status">${this.said}</p>` : nothing}
      ${alertLine(this.fault)}
      ${this.inForce()}
      ${this.writing()}`;
  }
}

customElements.define('bw-pack', Pack);
