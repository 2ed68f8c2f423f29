// Draws a chart into an element, by uPlot: a part of its own, fetched when the first chart is shown.
// It knows no words; these come with what is to be drawn.
import uPlot from 'uplot';

const kHeight = 300;
const kAxisGap = 130; // pixels that the day on the axis takes, at least
const kRightGap = 56; // for the right half of the last day
const kDashes = { solid: [], dashed: [10, 6], dotted: [2, 6] };
const kShades = { wide: 0.1, narrow: 0.22 };

/** The colours of the style sheet as they are now, light or dark. */
function inks(host) {
  const style = getComputedStyle(host);
  const of = (name) => style.getPropertyValue(name).trim();
  return { ink: of('--ink'), line: of('--chosen'), faint: of('--faint'), paper: of('--sheet') };
}

function series({ dash = 'solid', mark }, look) {
  const points = mark === 'ring' ? { size: 16, fill: look.paper, stroke: look.ink, width: 3 }
    : { size: 8, fill: look.line, stroke: look.line };
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

function options(host, spec, look) {
  const axis = { stroke: look.ink, font: '16px system-ui, sans-serif',
    grid: { stroke: look.faint, width: 1 }, ticks: { stroke: look.faint, width: 1 } };
  return {
    width: host.clientWidth,
    height: kHeight,
    padding: [null, kRightGap, null, null],
    legend: { show: false },
    cursor: { show: false },
    scales: { x: { time: true, range: spec.range && (() => spec.range) }, y: { range: spec.values } },
    series: [{}, ...spec.series.map((one) => series(one, look))],
    axes: [
      { ...axis, space: kAxisGap, values: (chart, seconds) => seconds.map(spec.day) },
      { ...axis, size: 84, values: (chart, values) => values.map(spec.value) },
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
