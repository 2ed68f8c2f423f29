// How findings are drawn, wherever they are shown: by a word and the outline, never by a colour
// alone; with what they rest on, and how well their figures are known.
import { html, nothing } from 'lit';
import { joined } from './decimal.js';
import { dayText, momentText } from './time.js';
import { texts } from '../texts.js';

/** From what weighs most to what weighs least, as the daemon names them. */
export const kSeverities = ['over', 'due', 'note'];

/** "3 beyond a limit, 1 to be done"; "" where nothing is. */
export function countText(findings) {
  const counts = ['over', 'due'].map((severity) => [severity,
    findings.filter((one) => one.severity === severity).length]);
  return counts.filter(([, count]) => count)
    .map(([severity, count]) => texts.findings.counted[severity](count)).join(', ');
}

/** The citation, and in words where a figure was not read in the text itself. */
export function sourceText({ citation, confidence }) {
  return [citation, texts.confidence[confidence]].filter(Boolean).join(' · ');
}

/** One finding in short: its word and its sentence. */
export function findingLine(one) {
  return html`<p class="finding ${one.severity}"><b>${texts.findings.words[one.severity]}</b>
    ${one.sentence}</p>`;
}

/** A value with its unit, as people write it. */
export const valueText = ({ value, unit }) => joined(value, texts.units[unit] ?? unit);

function measured({ values: { measured: found, limit } }) {
  if (!found || !limit) return nothing;
  return html`<p>${texts.findings.measured(valueText(found), valueText(limit))}</p>`;
}

/** One finding with all that is known of it; `acts` is what can be done about it. */
export function findingItem(one, acts = nothing) {
  const { since, due, clears, entries, acknowledged_by_entry: seen, says,
    action_closed_by_entry: closed } = one;
  const told = texts.findings;
  return html`<li class="finding ${one.severity}" data-finding=${one.key}>
    <h3>${one.sentence}</h3>
    ${measured(one)}
    <p>${told.since(momentText(since))}${due ? html` · ${told.until(dayText(due))}` : nothing}</p>
    <p>${says}</p>
    ${clears ? html`<p>${told.clears(clears)}</p>` : nothing}
    ${entries.length ? html`<p>${told.entries(entries)}</p>` : nothing}
    <p class="quiet">${sourceText(one)}</p>
    ${seen ? html`<p>${told.acknowledged(seen)}</p>` : nothing}
    ${closed ? html`<p>${told.closed(closed)}</p>` : nothing}
    ${acts}</li>`;
}
