// A long digest or address, which may break between blocks of a few characters and nowhere else; what
// is copied from the page is the whole of it.
import { html } from 'lit';

const kBlock = 12; // four bytes of a fingerprint with their colons

export function inBlocks(text) {
  const parts = text.match(new RegExp(`.{1,${kBlock}}`, 'gs')) ?? [];
  return parts.map((part) => html`${part}<wbr>`);
}
