// Draws a chart into an element, by uPlot: a part of its own, fetched when the first chart is shown.
// It knows no words; these come with what is to be drawn.
import uPlot from 'uplot';

const kHeight = 300;
// Pixels: that the day on the axis takes at least, for the right half of the last day, for the numbers
// on the left and the days below. On a phone a day stands on two lines.
const kWide = { day: 130, right: 56, left: 84, below: 50, font: '16px system-ui, sans-serif' };
const kNarrow = { day: 72, right: 30, left: 76, below: 68, font: '14px system-ui, sans-serif' };
const kNarrowBelow = 560; // of the whole drawing
const kDot = { most: 8, least: 3 };
const kRing = { most: 16, least: 8 };
const kDashes = { solid: [], dashed: [10, 6], dotted: [2, 6] };
const kShades = { wide: 0.1, narrow: 0.22 };

/** The colours of the style sheet as they are now, light or dark. */
function inks(host) {
  const style = getComputedStyle(host);
  const of = (name) => style.getPropertyValue(name).trim();
  return { ink: of('--ink'), line: of('--chosen'), faint: of('--faint'), paper: of('--sheet') };
}

/** The size of a mark that leaves the marks beside it apart, as far as it can be seen then. */
const apart = ({ most, least }, spacing) => Math.max(least, Math.min(most, spacing / 2));

function series({ dash = 'solid', mark }, look, spacing) {
  const points = mark === 'ring'
    ? { size: apart(kRing, spacing * 2), fill: look.paper, stroke: look.ink, width: 3 }
    : { size: apart(kDot, spacing), fill: look.line, stroke: look.line };
  return { stroke: mark === 'ring' ? undefined : look.line, width: mark === 'ring' ? 0 : 2,
    dash: kDashes[dash], spanGaps: false, points: { show: mark !== 'none', ...points } };
}

/** Days between which something is expected, shaded, and moments as upright lines. */
function behind(chart, { spans = [], moments = [] }, look) {
  const { ctx, bbox } = chart;
  const at = (second) => chart.valToPos(second, 'x', true);
  ctx.save();
  ctx.beginPath();
  ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
  ctx.clip();
  for (const { from, to, shade } of spans) {
    ctx.globalAlpha = kShades[shade];
    ctx.fillStyle = look.ink;
    ctx.fillRect(at(from), bbox.top, at(to) - at(from), bbox.height);
  }
  ctx.globalAlpha = 1;
  ctx.strokeStyle = look.ink;
  ctx.lineWidth = 2 * devicePixelRatio;
  for (const { at: second, dash } of moments) {
    ctx.setLineDash(kDashes[dash].map((length) => length * devicePixelRatio));
    ctx.beginPath();
    ctx.moveTo(at(second), bbox.top);
    ctx.lineTo(at(second), bbox.top + bbox.height);
    ctx.stroke();
  }
  ctx.restore();
}

/** What part of the width lies between two marks, as a mean: what is drawn may reach further. */
function stepOf({ at, series: lines, range = [at[0], at.at(-1)] }) {
  const marked = at.filter((_, index) => lines[0].values[index] !== null);
  const span = Math.max(1, range[1] - range[0]) * Math.max(1, marked.length - 1);
  return Math.max(1, marked.at(-1) - marked[0]) / span;
}

/** The year of a day on a line of its own. */
const onTwoLines = (day) => day.replace(/\s(?=\S+$)/, '\n');

function options(host, spec, look) {
  const narrow = host.clientWidth < kNarrowBelow;
  const room = narrow ? kNarrow : kWide;
  const spacing = (host.clientWidth - room.left - room.right) * stepOf(spec);
  const day = (second) => (narrow ? onTwoLines(spec.day(second)) : spec.day(second));
  const axis = { stroke: look.ink, font: room.font,
    grid: { stroke: look.faint, width: 1 }, ticks: { stroke: look.faint, width: 1 } };
  return {
    width: host.clientWidth,
    height: kHeight,
    padding: [null, room.right, null, null],
    legend: { show: false },
    cursor: { show: false },
    scales: { x: { time: true, range: spec.range && (() => spec.range) }, y: { range: spec.values } },
    series: [{}, ...spec.series.map((one) => series(one, look, spacing))],
    axes: [
      { ...axis, space: room.day, size: room.below,
        values: (chart, seconds) => seconds.map(day) },
      { ...axis, size: room.left, values: (chart, values) => values.map(spec.value) },
    ],
    hooks: { drawClear: [(chart) => behind(chart, spec, look)] },
  };
}

/** Draws `spec` and keeps it as wide as `host`; the answer takes it away again. */
export function draw(host, spec) {
  const chart = new uPlot(options(host, spec, inks(host)),
    [spec.at, ...spec.series.map(({ values }) => values)], host);
  const sized = new ResizeObserver(() =>
    chart.setSize({ width: host.clientWidth, height: kHeight }));
  sized.observe(host);
  return () => {
    sized.disconnect();
    chart.destroy();
  };
}
