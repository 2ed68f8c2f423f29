// What a calculation answered: results, how sure they are, every step, the values it was calculated
// with, for what it holds, sources and cautions. Figures and sentences are the daemon's own.
import { html, nothing } from 'lit';
import { grouped, isDecimal, joined, withNumbers } from './decimal.js';
import { caution } from './form-parts.js';
import { withDays } from './time.js';
import { texts } from '../texts.js';

const number = (text) => (isDecimal(text) ? grouped(text) : text);

const lineText = ({ text, unit }) => joined(number(withDays(text)), unit);

const sentence = (text) => withNumbers(withDays(text));

function howGiven({ given, text }) {
  if (!given) return texts.calculations.taken;
  return given === text ? '' : texts.calculations.typed(given.replace(/;$/, '').replaceAll(';', '; '));
}

const fact = (line, note = '') => html`<div data-line=${line.name}><dt>${line.label}</dt>
  <dd>${lineText(line)}</dd>${note ? html`<dd class="quiet">${note}</dd>` : nothing}</div>`;

function figures(list) {
  if (!list.length) return nothing;
  return html`<section><h3>${texts.calculations.figures}</h3>
    <ul>${list.map(({ value, unit, citation }) => html`<li>${joined(number(String(value)), unit)} ·
      ${citation}</li>`)}</ul></section>`;
}

/** The part of the page below the fields. */
export function calculated(answer) {
  const told = texts.calculations;
  return html`<section class="calculated"><h2 tabindex="-1">${told.results}</h2>
    <dl class="facts note results">${answer.results.map((line) => fact(line))}</dl>
    ${answer.cautions.length ? html`<h3>${told.cautions}</h3>
      <div class="blocks">${answer.cautions.map(caution)}</div>` : nothing}
    <h3>${told.uncertainty}</h3><p>${sentence(answer.uncertainty)}</p>
    <h3>${told.steps}</h3>
    <ol class="steps">${answer.steps.map((step) => html`<li>${sentence(step)}</li>`)}</ol>
    <h3>${told.understood}</h3>
    <dl class="facts">${answer.inputs.map((line) => fact(line, howGiven(line)))}</dl>
    ${figures(answer.figures)}
    <h3>${told.range}</h3><p>${sentence(answer.valid_range)}</p>
    <h3>${told.sources}</h3>
    <ul class="sources">${answer.sources.map((source) => html`<li>${source}</li>`)}</ul></section>`;
}
