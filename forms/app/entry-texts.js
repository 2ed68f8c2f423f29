// The words of the pages about recorded entries; those of all others stand in texts.js.

export const entryTexts = {
  earlier: {
    happened: 'It happened', now: 'now',
    title: 'When did it happen?',
    lead: 'Day and time by the workshop\u2019s clock. The book also keeps when it was recorded.',
    day: 'Day', time: 'Time',
    both: 'Please fill in day and time.',
    ahead: 'That lies ahead. Choose a moment that has passed.',
    take: 'Take this moment', itIsNow: 'It happened now',
  },

  entryPage: {
    number: (number) => `No. ${number}`,
    inBook: (number) => `No. ${number} in the book`,
    none: (number) => `The book has no entry no. ${number}.`,
    open: 'Show the entry',
    happened: 'Happened', recordedAt: 'Recorded', by: 'By', reason: 'Reason',
    withoutPin: (name) => `${name}, without a PIN`,
    confirmedLater: (name, by) => `${name}, without a PIN, confirmed later by no. ${by}`,
    disowned: (name, by) => `${name}, without a PIN, and by no. ${by} it was somebody else`,
    recorded: 'As it was recorded', standing: 'As it stands now',
    line: (moment, person) => `${moment} · ${person}`,
    struck: (by) => `Struck out by no. ${by}: it counts for nothing any more.`,
    correction: 'Correction', corrects: (title) => `About this entry: ${title}`,
    correct: 'Correct', strike: 'Strike out', keep: 'Leave it as it is',
    strikeLead: 'Struck out, the entry counts for nothing any more. It stays in the book, with the '
      + 'reason, and cannot be brought back: it would be recorded anew.',
    strikeAs: (number, name) => `Strike out no. ${number} as ${name}`,
    why: 'Please say why.',
  },

  correct: {
    title: (number) => `Correct no. ${number}`,
    next: 'Go on', whyTitle: 'Why is it corrected?',
    nothing: 'Nothing is changed yet.',
    stays: 'Both stay in the book: what was recorded, and this correction with its reason.',
    save: (name) => `Record the correction as ${name}`,
    noAnswer: (text) => `${text} It is not known whether the correction is in the book. Record it `
      + 'once more: it can stand in the book only once.',
  },

  recorded: {
    title: 'What was recorded',
    lead: (days) => `What happened in the last ${days} days, what was recorded last first.`,
    none: 'Nothing was recorded in these days.',
    corrected: 'Corrected', more: 'Show more',
  },

  kept: {
    title: 'How long records are kept',
    lead: 'Nothing is ever removed from the book by itself. Here stands what the rules in force ask '
      + 'to be kept, until which day, and what holds were placed.',
    holds: 'Holds', noHold: 'No hold stands.',
    holdsLead: 'An authority or a court wants records kept. Nothing may be removed while one stands.',
    place: 'Place a hold', placeAs: (name) => `Place it as ${name}`,
    lift: 'Lift this hold', liftAs: (name) => `Lift it as ${name}`,
    liftCaution: 'Lift it only when who asked for it has said so in writing.',
    leave: 'Leave it as it is',
    rules: 'Kept by the rules in force', nothing: 'The rules in force name no entry to be kept.',
    until: (day) => `Until ${day}:`, noEnd: 'Without an end:',
  },
};
