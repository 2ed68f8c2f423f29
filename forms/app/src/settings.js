// How this tablet is set: light or dark, for which hand, and on which papers it prints. Kept on the
// tablet itself, for whoever uses it; the style sheet reads looks and hand from the root element.
const kKey = 'benchwarden-tablet';

/** What may be chosen of each; the first is taken while nothing is chosen. */
export const kChoices = { theme: ['system', 'light', 'dark'], hand: ['right', 'left'],
  paper: ['a4', 'letter'], labels: ['a6', 'a7', 'roll-62', 'a4', 'letter'] };

function stored() {
  try {
    return JSON.parse(localStorage.getItem(kKey)) ?? {};
  } catch {
    return {}; // no storage allowed, or something else stands there
  }
}

/** {theme, hand, paper, labels} as chosen on this tablet. */
export function settings() {
  const kept = stored();
  return Object.fromEntries(Object.entries(kChoices).map(([name, choices]) =>
    [name, choices.includes(kept[name]) ? kept[name] : choices[0]]));
}

/** Sets the root element to what is chosen. */
export function applySettings() {
  const { theme, hand } = settings();
  const root = document.documentElement;
  root.dataset.hand = hand;
  if (theme === 'system') delete root.dataset.theme;
  else root.dataset.theme = theme;
}

/** Keeps a choice; false where this tablet keeps nothing, so that it holds until it is closed. */
export function choose(name, value) {
  const chosen = { ...settings(), [name]: value };
  let kept = true;
  try {
    localStorage.setItem(kKey, JSON.stringify(chosen));
  } catch {
    kept = false;
  }
  applySettings();
  return kept;
}
