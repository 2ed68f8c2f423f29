// Files of an entry: chosen or photographed and sent in at once, so that the entry only names them;
// and those of recorded entries, as downloads.
import { html, nothing } from 'lit';
import { kFileTypes } from './api.js';
import { filesOf } from './draft.js';
import { alertLine } from './screen.js';
import { texts } from '../texts.js';

/** The longest file that is taken, in bytes. */
export const kFileBytesMax = 5000000;

function said(file) {
  return texts.files.said(texts.files.types[file.media_type] ?? file.media_type, file.bytes);
}

function row(screen, file) {
  return html`<li class="file-row"><p><b>${file.name}</b> ${said(file)}</p>
    <button class="button" type="button" ?disabled=${screen.busy}
      @click=${() => screen.dropFile(file)}>${texts.files.remove}</button></li>`;
}

function picker(screen, room) {
  if (!room) return html`<p>${texts.files.full}</p>`;
  return html`<label class="button primary file">${screen.busy ? texts.files.sending
    : texts.files.add}
    <input type="file" accept=${kFileTypes.join(',')} ?disabled=${screen.busy}
      @change=${(event) => screen.addFile(event.target)}></label>`;
}

/** The page on which files are added to an entry. */
export function filesPage(screen) {
  const { label, help, max } = screen.form.attachments;
  const files = filesOf(screen.values);
  return html`<div class="ask files"><h1 tabindex="-1">${label}</h1>
    <p>${help}</p><p class="quiet">${texts.files.accepted(max)}</p>
    ${alertLine(screen.fileFault)}
    <ul>${files.map((file) => row(screen, file))}</ul>
    <div class="actions across">
      <button class="button" type="button" @click=${() => screen.turnTo('main')}>
        ${texts.entry.backToForm}</button>
      ${picker(screen, files.length < max)}
    </div></div>`;
}

/** The button that turns to that page. */
export function filesButton(screen) {
  const { attachments } = screen.form;
  if (!attachments) return nothing;
  const count = filesOf(screen.values).length;
  return html`<button class="button" type="button" @click=${() => screen.turnTo('files')}>
    ${count ? texts.files.some(attachments.label, count) : attachments.label}</button>`;
}

/** The files of a recorded entry. */
export function attachedFiles({ attached }) {
  if (!attached?.length) return nothing;
  return html`<p class="links">${attached.map((file) => html`<a class="button" download
    href=${`/api/v1/attachments/${file.digest}`}>${texts.files.fetch(said(file))}</a>`)}</p>`;
}
