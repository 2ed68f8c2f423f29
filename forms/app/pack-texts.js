// The words of the page about the workshop's own rule pack.

export const packTexts = {
  title: 'Rules of our own',
  lead: 'A pack of the workshop\u2019s own lies on top of the built-in ones: a rule takes the place '
    + 'of one of its name below it, changes a figure, adds one or takes one out. It does not make '
    + 'a law more lenient than it is.',
  now: 'What judges now', local: 'the workshop\u2019s own',
  inForce: ({ title, edition }, count) =>
    `${title}, edition ${edition}: ${count === 1 ? '1 rule' : `${count} rules`}`,
  standing: ({ pack, edition, entry }) =>
    `In force: ${pack}, edition ${edition}, by entry no. ${entry}.`,
  none: 'No pack of the workshop\u2019s own is in force.',
  withdraw: 'Withdraw it', withdrawAsk: 'The built-in packs alone will judge from now on. What it '
    + 'judged before stays in the book.',
  withdrawYes: (name) => `Withdraw it as ${name}`, keep: 'Keep it', withdrawn: 'Withdrawn.',
  another: 'Another text',
  copy: 'Start from a copy', ours: 'our own', replaces: 'A copy takes the place of what is written below.',
  file: 'Or choose a file (TOML)', text: 'Text of the pack (TOML)',
  tooLong: 'This text is too long to be sent: with its line ends and quotes it must fit 64 KiB.',
  check: 'Look for faults',
  faults: (count) => (count === 1 ? '1 fault in this text; it cannot be put in force.'
    : `${count} faults in this text; it cannot be put in force.`),
  fault: ({ line, detail }) => [line && `Line ${line}`, detail].filter(Boolean).join(' \u00b7 '),
  sound: ({ pack, edition, rules }) => `${pack}, edition ${edition}: ${rules === 1 ? '1 rule'
    : `${rules} rules`}, no fault found. Nothing is in force before you say so.`,
  adopt: (name) => `Put in force as ${name}`,
  adopted: (seq) => `In force by entry no. ${seq}.`,
};
