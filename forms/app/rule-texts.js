// The words of the page about the rules in force; those of all others stand in texts.js.

import { packTexts } from './pack-texts.js';

export const ruleTexts = {
  rules: {
    /** What a figure is called; one of a series ("drum_1") by its category. */
    figureName: (name) => {
      const [, kind, category] = /^(.+)_(\d)$/.exec(name) ?? [];
      if (kind) return `${kind.replaceAll('_', ' ')}, category ${category}:`;
      return ruleTexts.rules.figureNames[name] ?? name.replaceAll('_', ' ');
    },
    figureNames: {
      acute: 'acutely hazardous', back: 'looked back', every: 'every', flash: 'flash point',
      near: 'near it from', smallest: 'smallest container counted', spill_residue: 'spill residue',
      star_capacity: 'water capacity for the star', star_interval: 'interval with the star',
      within: 'within', above: 'above', after: 'after', age: 'age', ahead: 'looked ahead', approved: 'with approval',
      baseline: 'oxygen in fresh air', capacity_uncertainty: 'uncertainty of the water capacity',
      coarse: 'coarser classes, points', common: 'common share', each: 'uncertainty of one entry',
      fine: 'finer classes, points', fluctuating: 'fluctuating pressure',
      fluctuating_marked: 'fluctuating pressure, marked', gauge_class: 'gauge class',
      gauge_span: 'gauge range', halogens: 'halogens', interval: 'interval', least: 'at least',
      limit: 'limit', lower_limit: 'lower explosive limit', molar_mass: 'molar mass',
      months: 'looked at', months_before: 'compared with', of_all: 'of all together',
      of_interest: 'from', of_largest: 'of the largest', reading: 'uncertainty of a reading',
      resolution: 'resolution of the gauge', share: 'share', span: 'looked back',
      steady: 'steady pressure', steady_marked: 'steady pressure, marked',
      temperature_uncertainty: 'uncertainty of the temperature',
      use_allowance: 'uncertainty of the logged use', vapour_pressure: 'vapour pressure',
      warn: 'warned before', window: 'window',
    },
    title: 'Rules in force', link: 'The rules in force', own: 'Rules of our own',
    lead: 'Each pack lies on top of those before it; a rule takes the place of one of its name '
      + 'below it.',
    edition: (day) => `Edition ${day}.`,
    doubt: { 'text-seen': 'from the text', 'own-rule': 'own', 'second-hand': 'second-hand',
      'from-memory': 'from memory' },
    figures: (figures, days) => `Figures: ${figures}${days === 'working' ? ' (days open)' : ''}`,
  },

  pack: packTexts,
};
