// A QR code drawn from its rows of modules, dark on white in every theme, with the quiet zone that
// readers need. What it holds always stands beside it in words.
import { html, svg } from 'lit';

const kQuiet = 4; // modules of nothing on each side

/** The dark modules of a row as bars, each as far as it runs. */
function bars(row, y) {
  return [...row.matchAll(/1+/g)].map(({ 0: run, index }) =>
    `M${index + kQuiet} ${y + kQuiet}h${run.length}v1h-${run.length}z`).join('');
}

/** The drawing; `label` says what it opens. */
export function qrCode(rows, label) {
  const size = rows.length + 2 * kQuiet;
  return html`<svg class="qr" viewBox="0 0 ${size} ${size}" role="img" aria-label=${label}
    shape-rendering="crispEdges">${svg`
    <rect class="qr-paper" width=${size} height=${size}></rect>
    <path class="qr-modules" d=${rows.map(bars).join('')}></path>`}</svg>`;
}
