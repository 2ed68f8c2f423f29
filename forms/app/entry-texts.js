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
  },

  recorded: {
    title: 'What was recorded',
    none: 'Nothing of this is in the book.',
    shown: (count, day, all) => `${count === 1 ? '1 entry' : `${count} entries`}, back to ${day}; `
      + `what happened last stands first.${all ? ' There is no more.' : ''}`,
    corrected: 'Corrected', more: 'Show more',
    table: 'Save all of it as a table (CSV)',
    backwards: (from, to) => `${to} lies before ${from}: no day lies between them. Choose others.`,
  },

  paper: {
    printed: (moment) => `Printed ${moment}`,
    head: (size) => `Read from the book of ${size} entries with this root (SHA-256, base64):`,
  },

  summary: {
    labelled: (label, value) => `${label}: ${value}`,
    all: 'all that was in it',
    lacking: (labels) => `Found lacking: ${labels}`,
    noneLacking: (count) => (count === 1 ? '1 item, not found lacking'
      : `${count} items, none found lacking`),
  },

  filter: {
    title: 'Show only', any: 'all',
    kind: 'Kind', thing: 'Thing', person: 'Recorded by', from: 'From this day', to: 'To this day',
    chosen: (label, value) => `${label}: ${value}`, everything: 'Shown: all kinds, things and days',
  },

  csv: {
    name: (day) => `entries-${day}.csv`,
    withoutPin: 'without a PIN',
    columns: ['No.', 'Happened', 'Recorded', 'Kind', 'In short', 'By', 'Signed', 'State', 'Reason',
      'As it was recorded', 'As it stands now', 'Leaf hash (SHA-256)'],
  },

  head: {
    title: 'The head of the book',
    lead: 'Every entry is a leaf of one tree, and its root depends on each of them. Whoever has '
      + 'written down size and root can tell later whether anything before was altered.',
    size: 'Entries in the book', root: 'Root of the tree (SHA-256, base64)',
    leaf: 'Leaf hash of this entry (SHA-256)',
    open: 'Its proof',
    of: (number) => `What the book has of no. ${number}`,
    proofTitle: 'A proof for somebody else',
    means: 'The values above are what the workshop computer says now. A proof shows to anybody who has '
      + 'size and root from elsewhere, such as from a printed page, that the entry is in that book, '
      + 'word for word.',
    sizeThen: 'Entries in the book then',
    sizeHelp: 'As it stands beside the root that they have. Left empty: the book as it is now.',
    save: 'Save its proof', file: (number, size) => `proof-${number}-of-${size}.json`,
    proofHow: 'The file holds the text of the entry and the hashes from it to the root. RFC 9162, '
      + 'section 2.1.3.2, says how they are put together; the result must be the root.',
    signedTitle: 'What was signed last',
    signed: (moment, size) => `On ${moment} the workshop computer signed size and root of a book of ${size} `
      + 'entries. It signs once a day, and each report that is issued. Keep the file, and the key apart '
      + 'from it: with both nobody can show another book for this one.',
    unsigned: 'Nothing was signed yet: the workshop computer does that once a day.',
    key: 'The key it is checked with', saveNote: 'Save the signed file',
    noteFile: (size) => `checkpoint-${size}.txt`,
    howTitle: 'To check it',
    how: ['Save the signed file, or write down or print the size and the root today, and keep them '
        + 'outside of the workshop.',
      'Later benchwarden verify --checkpoint FILE --key KEY says whether the book that is shown then '
        + 'begins with the entries that were signed; with --size and --root in place of the file, too.',
      'Without that program, have the whole book written out: benchwarden export --to FOLDER. Its file '
        + 'entries.jsonl holds every entry as it is hashed, one a line; the leaf hash is SHA-256 of '
        + 'a zero byte and the line. The tree over as many lines as you wrote down (RFC 9162) must '
        + 'have the root you wrote down.',
      'Read that folder into an empty one: benchwarden import --book FOLDER --data NEW. Every byte '
        + 'is checked on the way, and the tree is made anew.',
      'benchwarden verify --data NEW checks every stored byte once more and names the first entry '
        + 'that does not fit.'],
    limit: 'It shows whether what stands in the book was altered since, not whether it was true.',
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
