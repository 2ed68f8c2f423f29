// The level of a container over time: what the daemon says it held at the end of each of the last
// weeks and holds now, and the drawing of it with the days between which it is likely full.
import { get } from './api.js';
import { amountOf } from './level-bar.js';
import { dayText, secondText } from './time.js';
import { about, axisOf } from './units.js';
import { texts } from '../texts.js';

const kDay = 86400; // seconds
const kWeek = 7 * kDay;
const kAtOnce = 3; // questions under way

const seconds = (moment) => Date.parse(moment) / 1000;

/** Levels of all containers at the ends of `weeks` weeks before today, the oldest first, as
 *  [{at, levels}]; what was fetched before for the same size of the book is kept in `known`. */
export async function weeklyLevels(weeks, now, known) {
  const today = new Date(now).setUTCHours(0, 0, 0, 0);
  const ends = Array.from({ length: weeks }, (_, back) =>
    new Date(today - (weeks - back) * kWeek * 1000).toISOString().replace('.000Z', 'Z'));
  const missing = ends.filter((at) => !known.has(at));
  const next = async () => {
    const at = missing.shift();
    if (at === undefined) return;
    known.set(at, (await get(`/levels?as_of=${encodeURIComponent(at)}`)).levels);
    await next();
  };
  await Promise.all(Array.from({ length: kAtOnce }, next));
  return ends.map((at) => ({ at, levels: known.get(at) }));
}

/** What one container held at each moment: [{at, amount, level}], without those before it was
 *  entered or when its level was not known. */
export function courseOf(container, weekly) {
  return weekly.map(({ at, levels }) => ({ at, level: levels.find((one) =>
    one.container === container) }))
    .filter(({ level }) => level && amountOf(level).amount !== null)
    .map(({ at, level }) => ({ at, level, amount: amountOf(level).amount }));
}

/** The last day that is drawn: the bands as far as they do not press what was into a corner. */
function horizon(course, { median, latest_95: latest }, now) {
  if (!median) return now;
  const far = Math.max(now - seconds(course[0].at), 2 * (seconds(median) - now));
  return Math.min(seconds(latest ?? median) + kWeek, now + far);
}

function spansOf({ median, earliest_80: from80, latest_80: to80, earliest_95: from95,
  latest_95: to95 }, end) {
  if (!median) return [];
  const span = (from, to, shade) => ({ from: seconds(from), to: to ? seconds(to) : end, shade });
  return [span(from95, to95, 'wide'), span(from80, to80, 'narrow')];
}

/** The drawing for bw-chart. `taken` are the moments at which content left for good. */
export function levelChart(level, course, taken, now) {
  const { forecast } = level;
  const end = horizon(course, forecast, now);
  const { limit, say, unit } = amountOf(level);
  const at = course.map((one) => seconds(one.at));
  const beginning = at[0];
  const drawn = at.at(-1) < end ? [...at, end] : at;
  const values = [...course.map(({ amount }) => amount), ...(at.at(-1) < end ? [null] : [])];
  const top = Math.max(limit ?? 0, ...course.map(({ amount }) => amount)) * 1.1 || 1;
  const axis = axisOf(unit, top);
  const told = texts.levels;
  return {
    title: told.chart(level.name),
    says: told.chartSays(course.length, dayText(course[0].at), limit === null ? '' : say(limit)),
    key: [['solid', told.keyLevel], ...(limit === null ? [] : [['dashed', told.keyLimit]]),
      ...(taken.length ? [['moment-dotted', told.keyTaken]] : []),
      ...(forecast.median ? [['moment-dashed', told.keyMedian], ['narrow', told.key80],
        ['wide', told.key95]] : [])],
    at: drawn,
    range: [beginning, Math.max(end, beginning + kDay)],
    values: [0, axis.of(top)],
    day: secondText,
    value: axis.say,
    series: [{ values: values.map(axis.of) }, ...(limit === null ? [] : [{
      values: drawn.map(() => axis.of(limit)),
      dash: 'dashed', mark: 'none' }])],
    spans: spansOf(forecast, end),
    moments: [...taken.map((moment) => ({ at: seconds(moment), dash: 'dotted' })),
      ...(forecast.median ? [{ at: seconds(forecast.median), dash: 'dashed' }] : [])],
  };
}

/** When it is likely full, in sentences; or why that is not told. */
export function forecastSentences({ forecast }) {
  const told = texts.levels;
  const day = (text) => (text ? dayText(text) : texts.level.noDay);
  if (!forecast.median) return [told.none[forecast.none_because] ?? told.noneElse];
  const { a_day_ml: volume, a_day_kg: mass } = forecast;
  const rate = volume === undefined ? about(mass, 'kg') : about(volume, 'ml');
  return [told.median(day(forecast.median)),
    told.of80(day(forecast.earliest_80), day(forecast.latest_80)),
    told.of95(day(forecast.earliest_95), day(forecast.latest_95)),
    told.rate(rate), told.rates[forecast.rate] ?? '']
    .filter(Boolean);
}
