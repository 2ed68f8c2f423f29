// How a form's fields are spread over its pages: an arrangement only. Labels, options, units and
// limits are the form's. A kind that is not named here asks what its form requires and keeps the
// rest for the second page.

export const pages = {
  'oil-drained': {
    // Asked every time, also where a script may leave it out: who stands at the bench knows.
    main: ['container', 'fluid', 'measured_by', 'volume_ml', 'contamination'],
    // Filled in beforehand with what was recorded last. Never a finding.
    again: ['container', 'fluid', 'measured_by'],
    // With any other choice the field's help is set off, to be read before recording.
    harmless: { contamination: 'none' },
  },
};
