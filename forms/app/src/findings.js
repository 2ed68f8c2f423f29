// How findings are drawn, wherever they are shown: by a word and the outline, never by a colour
// alone; with what they rest on, and how well their figures are known.
import { html, nothing } from 'lit';
import { grouped, isDecimal, joined } from './decimal.js';
import { entryLink, entryLinks } from './entries.js';
import { dayText, momentText, withDays } from './time.js';
import { symbolOf } from './units.js';
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
    ${withDays(one.sentence)}</p>`;
}

/** A value with its unit, as people write it; of a rule, so in the unit of its text. */
export const valueText = ({ value, unit }) =>
  joined(isDecimal(value) ? grouped(value) : value, symbolOf(unit));

function measured({ values: { measured: found, limit } }) {
  if (!found || !limit) return nothing;
  return html`<p>${texts.findings.measured(valueText(found), valueText(limit))}</p>`;
}

/** Who acknowledged it, until when and why; `entry` is the acknowledgement as it stands. */
function acknowledgement(number, entry) {
  if (!entry) return nothing;
  const { name, moment, until, reason } = entry;
  return html`<p>${texts.findings.acknowledged(name, momentText(moment),
    until && dayText(until))}</p>
    <p>${texts.findings.said(reason)}</p><p>${entryLink(number)}</p>`;
}

/** One finding with all that is known of it; `acts` is what can be done about it, and
 *  `acknowledged` its acknowledgement: {name, moment, until, reason}. */
export function findingItem(one, acts = nothing, acknowledged = null) {
  const { since, due, clears, entries, acknowledged_by_entry: seen, says,
    action_closed_by_entry: closed } = one;
  const told = texts.findings;
  return html`<li class="finding ${one.severity}" data-finding=${one.key}>
    <h3>${withDays(one.sentence)}</h3>
    ${measured(one)}
    <p>${told.since(momentText(since))}${due ? html` · ${told.until(dayText(due))}` : nothing}</p>
    <p>${says}</p>
    ${clears ? html`<p>${told.clears(clears)}</p>` : nothing}
    ${entries.length ? entryLinks(told.entries, entries) : nothing}
    <p class="quiet">${sourceText(one)}</p>
    ${acknowledgement(seen, acknowledged)}
    ${closed ? entryLinks(told.closed, [closed]) : nothing}
    ${acts}</li>`;
}
