// Second way to read a quantity, shown beside what was tapped to catch a slipped decimal place.
// Only exact decimal steps; everything else about units comes from the form's definition.
import { grouped, joined, shift } from './decimal.js';

const kLarger = {
  ml: { symbol: 'L', places: -3 },
  g: { symbol: 'kg', places: -3 },
  mm: { symbol: 'm', places: -3 },
};

/** "1250 mL = 1.25 L"; without a larger unit only "1250 psi". */
export function echo(text, unit) {
  const first = joined(grouped(text), unit.symbol);
  const larger = kLarger[unit.id];
  if (!larger) return first;
  return `${first} = ${joined(grouped(shift(text, larger.places)), larger.symbol)}`;
}

/** A volume in millilitres (JSON number) as litres: "84.312 L". */
export function litres(volumeMl) {
  return joined(grouped(shift(String(volumeMl), -3)), 'L');
}
