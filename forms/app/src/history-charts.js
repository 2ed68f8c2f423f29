// The drawings of histories: a cylinder's content or pressure with the losses that were found, and a
// gauge's errors between the limits of its class. Figures are the daemon's own.
import { dayText, secondText } from './time.js';
import { axisOf } from './units.js';
import { texts } from '../texts.js';

const seconds = ({ entry }) => Date.parse(entry.occurred_at) / 1000;
const kLost = 'loss-beyond-uncertainty';

const says = (checks) => texts.historyCharts.says(checks.length,
  dayText(checks[0].entry.occurred_at), dayText(checks.at(-1).entry.occurred_at));

/** A line ends where a new filling begins: between them nothing was measured. */
function withGaps(checks, valueOf) {
  return checks.flatMap((check, index) => {
    const point = { at: seconds(check), value: valueOf(check), check };
    const anew = index > 0 && check.figures?.loss_untold === 'first-of-filling';
    return anew ? [{ at: point.at - 1, value: null }, point] : [point];
  });
}

const isLost = ({ figures }) => figures?.loss?.verdict === kLost
  || figures?.loss_found?.verdict === kLost;

function cylinderChart(name, checks) {
  const told = texts.historyCharts;
  const massed = checks.filter(({ figures }) => figures?.content_kg !== undefined);
  const read = checks.filter(({ effective }) => typeof effective.gauge_pressure_bar === 'number');
  const byMass = massed.length > 1;
  const shown = byMass ? massed : read;
  if (shown.length < 2) return null;
  const points = withGaps(shown, ({ figures, effective }) =>
    (byMass ? figures.content_kg : effective.gauge_pressure_bar));
  const lost = points.map(({ value, check }) => (check && isLost(check) ? value : null));
  const flagged = lost.some((value) => value !== null);
  const most = Math.max(...points.map(({ value }) => value ?? 0)) * 1.1 || 1;
  const axis = axisOf(byMass ? 'kg' : 'bar', most);
  return {
    title: byMass ? told.content(name) : told.pressure(name),
    says: says(shown),
    key: [['solid', byMass ? told.keyContent : told.keyPressure],
      ...(flagged ? [['ring', told.keyLoss]] : [])],
    at: points.map(({ at }) => at),
    values: [0, axis.of(most)],
    day: secondText,
    value: axis.say,
    series: [{ values: points.map(({ value }) => axis.of(value)) },
      ...(flagged ? [{ values: lost.map(axis.of), mark: 'ring' }] : [])],
  };
}

/** The point of an inspection that was furthest off. */
const furthest = ({ figures }) => figures.points.reduce((most, point) =>
  (Math.abs(point.error_bar) > Math.abs(most.error_bar) ? point : most));

function gaugeChart(name, checks) {
  const shown = checks.filter(({ figures }) => figures?.points?.length);
  if (shown.length < 2) return null;
  const told = texts.historyCharts;
  const points = shown.map(furthest);
  const limits = points.map(({ limit_bar: limit }) => limit);
  const limited = limits.some((limit) => limit !== null);
  const most = Math.max(...points.map(({ error_bar: error }) => Math.abs(error)),
    ...limits.map((limit) => limit ?? 0)) * 1.2 || 1;
  const axis = axisOf('bar', most);
  const limit = (sign) => ({ values: limits.map((one) => axis.of(one === null ? null : sign * one)),
    dash: 'dashed', mark: 'none' });
  return {
    title: told.errors(name),
    says: says(shown),
    key: [['solid', told.keyError], ...(limited ? [['dashed', told.keyLimit]] : [])],
    at: shown.map(seconds),
    values: [-most, most].map(axis.of),
    day: secondText,
    value: axis.say,
    series: [{ values: points.map(({ error_bar: error }) => axis.of(error)) },
      ...(limited ? [limit(1), limit(-1)] : [])],
  };
}

/** The drawing for bw-chart of what GET /history answered; null where there is too little. */
export function historyChart(name, { subject, checks }) {
  const standing = checks.filter(({ struck }) => !struck);
  const draw = { cylinder: cylinderChart, gauge: gaugeChart }[subject.class];
  return draw ? draw(name, standing) : null;
}
