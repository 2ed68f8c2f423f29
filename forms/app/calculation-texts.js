// The words of the calculator pages; titles, labels, helps and sentences of a calculation are its own.

export const calculationTexts = {
  calculations: {
    title: 'Calculations',
    lead: 'Each shows its steps, how sure its result is, for what it holds and where it comes from. '
      + 'Nothing of it is recorded.',
    groups: { oil: 'Oil and containers', gas: 'Nitrogen and other gas', gauges: 'Gauges',
      solvent: 'Solvent', figures: 'Units, days and lines', others: 'Others' },
    all: 'All calculations',
    optional: 'What is left empty is taken at its usual value where it has one; the result names '
      + 'every value that was taken so.',
    accepted: (what) => `Takes ${what}`,
    list: 'One number a line, or with spaces or semicolons between them.',
    fromTo: (lowest, highest) => `${lowest} … ${highest}`,
    listRange: (fewest, most, range) => `${fewest} to ${most} numbers, each ${range}`,
    byDefault: (value) => `Not given: ${value} is taken`, today: 'today',
    plainNumber: 'a plain number',
    unitOf: (label) => `Unit of ${label}`,
    choose: 'not given',
    calculate: 'Calculate', clear: 'Empty all fields',
    refused: (count) => (count === 1 ? 'Not calculated: 1 field needs a look.'
      : `Not calculated: ${count} fields need a look.`),
    results: 'Results', uncertainty: 'How sure it is', steps: 'Steps',
    understood: 'Values it was calculated with',
    taken: 'not given: taken at its usual value', typed: (given) => `given as ${given}`,
    figures: 'Figures of the rules that were taken', range: 'Holds for', sources: 'Sources',
    cautions: 'Cautions',
    changed: 'Something was changed since. Calculate once more.',
  },

  absolute: ' abs.', // behind the unit of a pressure from zero

  // Symbols of units offered beside a number of the same kind, by the unit of the calculation.
  otherUnits: {
    bar: ['bar', 'psi', 'kPa', 'MPa'],
    'bar abs.': ['bar abs.', 'hPa abs.', 'kPa abs.', 'psi abs.'],
    'kPa abs.': ['kPa abs.', 'hPa abs.', 'mmHg abs.', 'psi abs.'],
    'MPa abs.': ['MPa abs.', 'bar abs.', 'psi abs.'],
    L: ['L', 'mL', 'm³', 'US gal', 'US qt'],
    'm³': ['m³', 'L', 'ft³'],
    kg: ['kg', 'g', 'lb'],
    '°C': ['°C', '°F', 'K'],
    mm: ['mm', 'cm', 'm', 'in'],
    'kg/m³': ['kg/m³', 'kg/L', 'lb/US gal'],
  },

  // What of these a workshop that measures in US units writes values in, by the same.
  usualUnits: { bar: 'psi', 'bar abs.': 'psi abs.', 'MPa abs.': 'psi abs.', L: 'US gal', 'm³': 'ft³',
    kg: 'lb', '°C': '°F', mm: 'in', 'kg/m³': 'lb/US gal' },
};
