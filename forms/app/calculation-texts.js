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
    list: 'One number a line, or with semicolons between them.',
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

  // The choices of the calculations that are units; all others are said by their own words.
  choiceWords: {
    ml: 'mL', l: 'L', m3: 'm³', fl_oz_us: 'US fl oz', gal_us: 'US gal', fl_oz_imp: 'imp fl oz',
    gal_imp: 'imp gal', ft3: 'ft³', in3: 'in³', qt_us: 'US qt', pt_imp: 'imp pt',
    bbl: 'bbl (42 US gal)', ton_us: 'US ton', kpa: 'kPa', hpa: 'hPa', mm_hg: 'mmHg', mpa: 'MPa',
    kgf_cm2: 'kgf/cm²', in_hg: 'inHg', bar_abs: 'bar abs.', kpa_abs: 'kPa abs.',
    mbar_abs: 'mbar abs.', hpa_abs: 'hPa abs.', mm_hg_abs: 'mmHg abs.', mpa_abs: 'MPa abs.',
    psi_abs: 'psi abs.', k: 'K', c: '°C', f: '°F', kg_m3: 'kg/m³', kg_l: 'kg/L',
    lb_gal_us: 'lb/US gal', percent: '%', d: 'days', mo: 'months', a: 'years', per_h: '1/h',
    per_min: '1/min', 1: 'a plain number',
  },
};
