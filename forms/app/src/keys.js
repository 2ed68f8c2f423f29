// What a tapped or typed key does to a number being entered. Pure.

const kDigitsMax = 7;
const kPlacesMax = 3;

function withDigit(text, digit) {
  const [whole, fraction] = text.replace('-', '').split('.');
  if (fraction !== undefined) return fraction.length < kPlacesMax ? text + digit : text;
  if (whole.length >= kDigitsMax) return text;
  return whole === '0' ? text.slice(0, -1) + digit : text + digit;
}

/** The number after `key`: a digit, "." or "," for the point, "back", "sign". */
export function pressed(text, key) {
  if (/^\d$/.test(key)) return withDigit(text, key);
  if (key === '.' || key === ',') {
    if (text.includes('.')) return text;
    return text === '' || text === '-' ? `${text}0.` : `${text}.`;
  }
  if (key === 'back') return text.slice(0, -1);
  if (key === 'sign') return text.startsWith('-') ? text.slice(1) : `-${text}`;
  return text;
}

/** The key a physical keyboard event means, or null. */
export function keyOf(event) {
  if (event.ctrlKey || event.metaKey || event.altKey) return null;
  if (/^[\d.,]$/.test(event.key)) return event.key;
  if (event.key === 'Backspace') return 'back';
  if (event.key === '-') return 'sign';
  return null;
}
