// Units: which a field is typed in, what is shown of a recorded amount, and the same amount in a second
// unit beside what was tapped, to catch a slipped decimal place or the wrong scale of a gauge. Exact
// factors (NIST SP 811, appendix B; pound, inch and gallon by definition), so that only what is shown
// is rounded. What is sent is what was typed, with its unit: the daemon converts it.
import { decimalText, grouped, joined, plain } from './decimal.js';
import { shownIn } from './shown-in.js';
import { texts } from '../texts.js';

// [numerator, denominator, offset]: smallest units = (value × numerator + offset) / denominator.
const kFactors = {
  ml: [1000n, 1n], l: [1000000n, 1n], m3: [1000000000n, 1n],
  fl_oz_us: [295735295625n, 10000000n], qt_us: [946352946n, 1000n], gal_us: [3785411784n, 1000n],
  ft3: [28316846592n, 1000n],
  g: [1000n, 1n], kg: [1000000n, 1n], oz: [45359237n, 1600n], lb: [45359237n, 100n],
  bar: [100000n, 1n], hpa: [100n, 1n], kpa: [1000n, 1n], mpa: [1000000n, 1n],
  mm_hg: [133322387415n, 1000000000n], psi: [44482216152605n, 6451600000n],
  k: [1000n, 1n], c: [1000n, 1n, 273150n], f: [5000n, 9n, 2298350n],
  mm: [1000n, 1n], cm: [10000n, 1n], m: [1000000n, 1n], in: [25400n, 1n], ft: [304800n, 1n],
  kg_m3: [1000n, 1n], kg_l: [1000000n, 1n], lb_gal_us: [453592370000000n, 3785411784n],
};

// What a stored unit may be typed in: the first is what a new form begins with.
const kTyped = {
  metric: { ml: ['ml', 'l'], l: ['l', 'ml'], kg: ['kg', 'g'], g: ['g', 'kg'], bar: ['bar', 'psi'] },
  us: {
    ml: ['fl_oz_us', 'gal_us', 'ml'], l: ['gal_us', 'l'], m3: ['ft3', 'm3'], kg: ['lb', 'kg'],
    g: ['oz', 'g'], bar: ['psi', 'bar'], c: ['f', 'c'], mm: ['in', 'mm'], m: ['ft', 'm'],
    kg_m3: ['lb_gal_us', 'kg_m3'],
  },
};

// What stands beside what was typed in the unit it is stored in.
const kBeside = {
  metric: { ml: 'l', l: 'ml', g: 'kg', mm: 'm', bar: 'psi' },
  us: { ml: 'gal_us', l: 'gal_us', g: 'oz', kg: 'lb', mm: 'in', bar: 'psi', c: 'f' },
};

const kGallonMl = 3785.411784;
const kGallonsFrom = 20000; // a field of millilitres that usually reaches so far is typed in gallons
const kExactPlaces = 6;
const kTypedPlaces = 3; // as many as the daemon takes
const kDigits = 5; // that are shown of what does not come out even
const kShownDigits = 4; // the same, of what is only read
const kAboutDigits = 3; // the same, of what is said as about, and of the ends of a range
const kEvenDigits = 8; // at most, of what does

const sizeOf = (whole) => (whole < 0n ? -whole : whole);

/** numerator / denominator, rounded to places, ties away from zero, as decimal text. */
function rounded(numerator, denominator, places) {
  const scaled = sizeOf(numerator) * 10n ** BigInt(places) * 2n + denominator;
  const digits = String(scaled / (denominator * 2n)).padStart(places + 1, '0');
  const point = digits.length - places;
  const fraction = places ? `.${digits.slice(point)}` : '';
  return plain(`${numerator < 0n ? '-' : ''}${digits.slice(0, point)}${fraction}`);
}

/** The value (decimal text) in another unit, as an exact fraction: [numerator, denominator]. */
function inUnit(text, from, to) {
  const [, fraction = ''] = text.split('.');
  const value = BigInt(text.replace('.', ''));
  const ten = 10n ** BigInt(fraction.length);
  const [numerator, denominator, offset = 0n] = kFactors[from];
  const [intoNumerator, intoDenominator, intoOffset = 0n] = kFactors[to];
  return [(value * numerator + offset * ten) * intoDenominator - intoOffset * denominator * ten,
    ten * denominator * intoNumerator];
}

/** How many places show so many digits of it. */
function placesOf(numerator, denominator, digits) {
  const whole = sizeOf(numerator) / denominator;
  if (whole > 0n) return Math.max(0, digits - String(whole).length);
  const nulls = kExactPlaces - String((sizeOf(numerator) * 10n ** BigInt(kExactPlaces)) / denominator)
    .length;
  return Math.min(kExactPlaces, nulls + digits);
}

/** The value in another unit, as people read it: exact where it comes out even, else so many digits. */
export function converted(text, from, to, digits = kDigits) {
  if (from === to) return text;
  const [numerator, denominator] = inUnit(text, from, to);
  const even = (sizeOf(numerator) * 10n ** BigInt(kExactPlaces)) % denominator === 0n;
  const exact = rounded(numerator, denominator, kExactPlaces);
  if (even && exact.replace(/\D/g, '').length <= kEvenDigits) return exact;
  return rounded(numerator, denominator, placesOf(numerator, denominator, digits));
}

/** The value in another unit if it can be sent as it is there; else "". */
export function carried(text, from, to) {
  const [numerator, denominator] = inUnit(text, from, to);
  const even = (sizeOf(numerator) * 10n ** BigInt(kTypedPlaces)) % denominator === 0n;
  return even ? rounded(numerator, denominator, kTypedPlaces) : '';
}

/** The units a quantity may be typed in, the usual one first. */
export function typedUnits({ unit, normal, whole }) {
  const all = kTyped[shownIn.units][unit.id] ?? [unit.id];
  if (whole) return [unit.id];
  const large = unit.id === 'ml' && (normal?.highest ?? 0) > kGallonsFrom;
  return large && all.includes('gal_us') ? ['gal_us', 'fl_oz_us', 'ml'] : all;
}

/** The id of a unit by its symbol; none of a unit that is not converted here. Pressures from zero are
 *  converted as those on a gauge. */
export function unitId(symbol) {
  const plainSymbol = symbol.endsWith(texts.absolute)
    ? symbol.slice(0, -texts.absolute.length) : symbol;
  return Object.keys(kFactors).find((id) => (texts.units[id] ?? id) === plainSymbol);
}

/** What a unit is called: by its id, or as the form calls it. */
export const symbolOf = (id, unit) => texts.units[id] ?? unit?.symbol ?? id;

/** "62 mL": an amount with its unit, in whatever unit it is given. */
export const written = (text, id, unit) => joined(grouped(text), symbolOf(id, unit));

/** What a recorded amount is shown in. */
function shownUnit(id, text) {
  const usual = kTyped[shownIn.units][id]?.[0] ?? id;
  const gallons = id === 'ml' && usual === 'fl_oz_us' && Math.abs(Number(text)) >= kGallonMl;
  return gallons ? 'gal_us' : usual;
}

/** What an amount of a container is shown in, among others of which this one is the greatest. */
function levelUnit(id, greatest) {
  return id === 'ml' && shownIn.units === 'metric' ? 'l' : shownUnit(id, String(greatest));
}

/** A recorded amount (decimal text, unit of the form or its id) in the units of the workshop. */
export function shown(text, unit) {
  const id = unit.id ?? unit;
  const to = shownUnit(id, text);
  return written(converted(text, id, to, kShownDigits), to, unit);
}

/** "1250 mL = 1.25 L", "2900 psi = 199.95 bar": what was typed, in the unit it is kept in or, where it
 *  was typed in that, in another; without another only "12 %". */
export function echo(text, unit, typed = unit.id) {
  const beside = typed === unit.id ? kBeside[shownIn.units][unit.id] : unit.id;
  const first = written(text, typed, unit);
  return beside ? `${first} = ${written(converted(text, typed, beside), beside, unit)}` : first;
}

/** A volume in millilitres (JSON number) as litres, or as the workshop measures; beside a greater one
 *  in the unit of that. */
export function litres(volumeMl, greatest = volumeMl) {
  const unit = levelUnit('ml', greatest);
  const digits = shownIn.units === 'metric' ? kDigits : kShownDigits;
  return written(converted(plain(String(volumeMl)), 'ml', unit, digits), unit);
}

/** A mass in kilograms (JSON number) as the workshop measures. */
export const kilograms = (mass) => shown(plain(String(mass)), 'kg');

/** An amount (JSON number) that is known as about only, as the workshop measures. */
export const about = (number, id) => aboutIn(number, id, shownUnit(id, String(number)));

/** A volume in millilitres (JSON number) that is known as about only, in the unit of a greater one. */
export const aboutLitres = (volumeMl, greatest) =>
  aboutIn(volumeMl, 'ml', levelUnit('ml', greatest));

function aboutIn(number, id, unit) {
  const exact = Number(rounded(...inUnit(decimalText(number), id, unit), kExactPlaces));
  return written(decimalText(Number(exact.toPrecision(kAboutDigits))), unit);
}

/** The unit an axis has its round numbers in, of which `greatest` is the last: {of, say}, what stands
 *  at which number of it, and that number with its unit. */
export function axisOf(id, greatest) {
  const unit = levelUnit(id, greatest);
  return {
    of: (number) => (number === null ? null
      : Number(rounded(...inUnit(decimalText(number), id, unit), kExactPlaces))),
    say: (number) => written(decimalText(number), unit),
  };
}

/** An amount that was typed once, {text, unit}, as it is typed here today. */
export function typedHere(field, { text, unit }) {
  const units = typedUnits(field);
  const foreign = !units.includes(unit) || (unit === field.unit.id && unit !== units[0]);
  if (!foreign || !kFactors[unit]) return { text, unit };
  const [numerator, denominator] = inUnit(text, unit, units[0]);
  const places = Math.min(kTypedPlaces, placesOf(numerator, denominator, kShownDigits));
  return { text: rounded(numerator, denominator, places), unit: units[0] };
}

/** The ends of a range in another unit, so rounded that all between them lies in the range as well:
 *  [lowest, highest]. */
export function within(lowest, highest, from, to) {
  const [least, most] = [lowest, highest].map(decimalText);
  if (from === to) return [least, most];
  return [inward(inUnit(least, from, to), 1n), inward(inUnit(most, from, to), -1n)];
}

/** A fraction as decimal text of a few digits, upwards (1n) or downwards (-1n) where it is no such. */
function inward([numerator, denominator], way) {
  const places = placesOf(numerator, denominator, kAboutDigits);
  const ten = 10n ** BigInt(places);
  const near = rounded(numerator, denominator, places);
  const missing = places - (near.split('.')[1] ?? '').length;
  const reached = BigInt(near.replace('.', '')) * 10n ** BigInt(missing);
  const short = (numerator * ten - reached * denominator) * way > 0n;
  return short ? rounded(reached + way, ten, places) : near;
}
