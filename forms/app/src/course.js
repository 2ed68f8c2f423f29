// What follows from the readings of one entry: a cylinder's content and loss, a gauge's errors. The
// figures come rounded from the daemon; nothing is computed here.
import { html, nothing } from 'lit';
import { plain } from './decimal.js';
import { dayText } from './time.js';
import { kilograms, shown } from './units.js';
import { texts } from '../texts.js';

function fact(label, value) {
  return html`<div><dt>${label}</dt><dd>${value}</dd></div>`;
}

const bar = (value) => shown(plain(String(value)), 'bar');

function lossFacts(loss, label) {
  return html`${fact(label, texts.course.lossOf(kilograms(loss.loss_kg),
    kilograms(loss.expanded_uncertainty_kg), loss.since_entry))}
    ${fact(texts.course.verdict, texts.course.verdicts[loss.verdict])}`;
}

function cylinderFacts(figures) {
  const { content_kg: mass, content_m3: volume, used_kg: used, loss, loss_found: found } = figures;
  const why = figures.content_untold ?? figures.used_untold ?? figures.loss_untold;
  return html`
    ${mass === undefined ? nothing : fact(texts.course.content,
    `${kilograms(mass)} · ${shown(plain(String(volume)), 'm3')}`)}
    ${used === undefined ? nothing : fact(texts.course.used, kilograms(used))}
    ${loss ? lossFacts(loss, texts.course.loss) : nothing}
    ${found && found.since_entry !== loss?.since_entry
    ? lossFacts(found, texts.course.lossLonger) : nothing}
    ${why ? fact(texts.course.untold, texts.course.reasons[why]) : nothing}`;
}

function pointFact(point) {
  const limit = point.limit_bar === null ? texts.course.noLimit
    : texts.course.limit(bar(point.limit_bar), point.beyond_limit);
  return fact(texts.course.errorAt(bar(point.reference_bar)),
    `${bar(point.error_bar)} · ${limit}`);
}

/** The figures of one entry of GET /history/{class}/{id}; nothing where none follow. */
export function courseFacts(figures) {
  if (!figures || !Object.keys(figures).length || figures.points?.length === 0) return nothing;
  return html`<dl class="facts computed">
    ${figures.points ? figures.points.map(pointFact) : cylinderFacts(figures)}</dl>`;
}

/** What the newest check of which figures follow says, above all the others; nothing of tools. */
export function summary(checks) {
  const told = (name) => [...checks].reverse()
    .find(({ struck, figures }) => !struck && figures?.[name] !== undefined);
  const [content, loss] = [told('content_kg'), told('loss')];
  if (!content && !loss) return nothing;
  return html`<dl class="facts note summary">
    ${content ? fact(texts.course.newest(content.entry.seq, dayText(content.entry.occurred_at)),
    kilograms(content.figures.content_kg)) : nothing}
    ${loss ? lossFacts(loss.figures.loss, texts.course.loss) : nothing}</dl>`;
}

/** When a tool or gauge leaves its class, or why that is not told. */
export function forecastText(forecast) {
  if (forecast.untold) return texts.course.noForecast(texts.course.reasons[forecast.untold]);
  return texts.course.forecast(forecast.inspections.length,
    bar(forecast.reference_bar), bar(forecast.limit_bar),
    dayText(forecast.leaves));
}
