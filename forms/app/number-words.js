// Numbers and units in words, for the second look at an unusual value.

const ones = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine',
  'ten', 'eleven', 'twelve', 'thirteen', 'fourteen', 'fifteen', 'sixteen', 'seventeen',
  'eighteen', 'nineteen'];
const tens = ['', '', 'twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty',
  'ninety'];
export const unitWords = { ml: 'millilitres', l: 'litres', g: 'grams', kg: 'kilograms', bar: 'bar',
  psi: 'pounds per square inch', c: 'degrees Celsius', mm: 'millimetres', m: 'metres',
  fl_oz_us: 'US fluid ounces', gal_us: 'US gallons', lb: 'pounds', oz: 'ounces', in: 'inches',
  ft: 'feet', f: 'degrees Fahrenheit', percent: 'per cent' };

function underThousand(number) {
  if (number < 20) return ones[number];
  if (number < 100) {
    const rest = number % 10;
    return tens[Math.floor(number / 10)] + (rest ? `-${ones[rest]}` : '');
  }
  const rest = number % 100;
  return `${ones[Math.floor(number / 100)]} hundred${rest ? ` and ${underThousand(rest)}` : ''}`;
}

/** A decimal (text) in words, up to 999 999 999; longer ones stay digits. */
export function numberWords(text) {
  const [whole, fraction] = text.replace('-', '').split('.');
  if (whole.length > 9) return text;
  const parts = [];
  const number = Number(whole);
  const groups = [[1e6, 'million'], [1e3, 'thousand']];
  let rest = number;
  for (const [size, name] of groups) {
    const count = Math.floor(rest / size);
    if (count) parts.push(`${underThousand(count)} ${name}`);
    rest %= size;
  }
  if (rest || number === 0) {
    const and = parts.length && rest < 100 ? 'and ' : '';
    parts.push(and + underThousand(rest));
  }
  const tail = fraction ? ` point ${[...fraction].map((digit) => ones[Number(digit)]).join(' ')}`
    : '';
  return `${text.startsWith('-') ? 'minus ' : ''}${parts.join(' ')}${tail}`;
}
