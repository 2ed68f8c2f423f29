// Every sentence and word of the tablet page's own. What a form says (labels, options, units,
// cautions) and what the daemon answers comes from there and is shown as it is.
import { accessTexts } from './access-texts.js';
import { calculationTexts } from './calculation-texts.js';
import { entryTexts } from './entry-texts.js';
import { officeTexts } from './office-texts.js';
import { ruleTexts } from './rule-texts.js';
import { sheetTexts } from './sheet-texts.js';
import { tabletTexts } from './tablet-texts.js';
import { numberWords, unitWords } from './number-words.js';

const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

export const texts = {
  product: 'Benchwarden',
  page: { title: 'Benchwarden', language: 'en', needsScript: 'This page needs JavaScript.' },
  months: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
  loading: 'Fetching …',
  roles: { technician: 'Technician', manager: 'Manager', inspector: 'Inspector' },

  header: {
    bench: 'Bench', due: 'Due', emergency: 'Emergency', next: 'Next person', nav: 'Pages',
  },

  problem: {
    noAnswer: 'No answer from the workshop computer.',
    notKept: (text) => `This browser could not keep it: ${text} Nothing was recorded.`,
    tryAgain: 'Try again',
    signedOut: 'Please sign in again.',
    plain: (status) => `The workshop computer refused this (${status}).`,
    sentence: (text) => capital(text) + (/[.!?…]$/.test(text) ? '' : '.'),
  },

  setup: {
    title: 'First start',
    lead: 'Nobody is entered yet. Here the first manager is entered; all others are entered on the '
      + 'workshop computer. The set-up code stands there, in the window in which Benchwarden was '
      + 'started.',
    code: 'Set-up code', name: 'Name of the first manager', pin: 'PIN, 6 to 12 digits',
    pinAgain: 'The same PIN again', pinDiffers: 'The two PINs differ.',
    wrongCode: 'Wrong or used-up set-up code. The one that counts was shown last on the workshop '
      + 'computer.',
    save: 'Enter the first manager',
    done: (name) => `${name} is entered. Please sign in.`,
  },

  signIn: {
    title: 'Who is at the bench?',
    pinTitle: (name) => `PIN of ${name}`,
    digits: (count) => ['Tap the digits', '1 digit'][count] ?? `${count} digits`,
    enter: 'Sign in', other: 'Somebody else',
    tablet: (name) => `This tablet is ${name}.`,
    unpaired: 'This browser is not paired as a tablet of the workshop.',
    away: 'The workshop computer is out of reach: no PIN can be checked now.',
    nobodyNew: 'The workshop computer is out of reach. Who was signed in can go on; somebody else can '
      + 'begin once it answers, or on a paired tablet.',
    nobody: 'Nobody can sign in yet.',
    passphraseTitle: (name) => `Passphrase of ${name}`,
    passphrase: 'Passphrase', wrongPassphrase: 'Wrong passphrase.',
    passphraseLead: 'This browser is no paired tablet, and a PIN is not enough here. Everybody sets a '
      + 'passphrase of their own on the page of who is signed in, at the workshop computer or on a '
      + 'tablet.',
    wrong: 'Wrong PIN.',
    wait: (seconds) => `Too many wrong PINs. Try again in ${seconds} s.`,
    lockedOut: 'Too many wrong PINs. Somebody must set a new PIN on the workshop computer.',
  },

  keypad: { point: 'point', back: 'Delete the last digit', sign: 'Change the sign', pad: 'Keypad' },

  home: {
    title: 'The bench',
    drain: 'Drain', waste: 'Waste containers', gas: 'Gas cylinders', papers: 'Papers',
    readOnly: 'You are signed in to read, not to record.',
    noContainers: 'No waste container is entered yet.',
    enterContainers: {
      manager: 'You enter them in the register, first the waste streams and then the containers, or '
        + 'all of it from a file; the guide (README, Install) shows what stands in it. Then they '
        + 'stand here.',
      other: 'A manager enters them. Then they stand here.',
    },
    gasAndTools: 'Gas and tools', cylinders: 'Cylinder histories', tools: 'Tools and gauges',
    import: 'Things from a file',
  },

  import: {
    title: 'Things under care from a file',
    lead: 'Choose a file of things under care. First you see what would be entered, or every fault '
      + 'of the file; nothing is recorded before you say so.',
    file: 'File (TOML)',
    tooLong: 'This file is too long to be sent: with its line ends and quotes it must fit 64 KiB. '
      + 'Cut it in two, or use the command "benchwarden import" on the workshop computer.',
    faults: (count) => (count === 1 ? '1 fault in this file; nothing can be entered.'
      : `${count} faults in this file; nothing can be entered.`),
    fault: ({ line, thing, detail }) => [line && `Line ${line}`, thing, detail].filter(Boolean)
      .join(' · '),
    would: (count) => (count ? `To be entered or changed: ${count}` : 'All of it is entered already.'),
    done: (count) => `Recorded: ${count}`,
    save: (count) => `Record all ${count}`,
    acts: { added: 'new', changed: 'changed', unchanged: 'as it is' },
    thing: (kind, thing, act, fields) =>
      `${kind} ${thing}: ${texts.import.acts[act]}${fields.length ? ` (${fields.join(', ')})` : ''}`,
  },

  more: {
    title: 'What else to record', link: 'Record something else',
    groups: { waste: 'At the waste containers', gas: 'At the gas cylinders',
      tools: 'Tools, plant and stuck parts', shop: 'In the whole shop', office: 'In the office' },
  },

  level: {
    of: (volume, limit) => `${volume} of ${limit}`,
    percent: (percent) => `${percent}\u00a0% of working limit`,
    unknown: 'level not known',
    since: (day) => `oldest content ${day}`,
    sealed: 'sealed',
    beyond: (percent) => `at or beyond the working limit (${percent}\u00a0%)`,
    beyondShort: 'at or beyond its limit',
    code: (code) => `List of Waste ${code.replaceAll(' ', '\u00a0')}`,
    now: (name) => `${name} now:`,
    full: (day, from, to) => `at its limit about ${day} (80 in 100: ${from} to ${to})`,
    noDay: 'no day',
  },

  entry: {
    save: (name) => `Record as ${name}`,
    saving: 'Recording …',
    again: (value) => `${value} again`,
    usual: (lowest, highest) => `usual: ${lowest} to ${highest}`,
    more: 'More details',
    moreFilled: (count) => `More details (${count} given)`,
    backToForm: 'Back to the main page',
    notGiven: 'not given',
    noChoice: 'Nothing to choose from is entered yet.',
    openHint: 'What is left without a choice counts as not given. Another tap takes a choice back.',
    choose: 'Please choose.', enter: 'Please enter a number.', write: 'Please fill in.',
    nothing: 'tap the digits',
    otherUnit: (unit, other) => `${unit}: type in ${other} instead`,
    next: 'Next page', previous: 'Page before',
    others: (count) => (count === 1 ? 'Show 1 other' : `Show ${count} others`),
    cautions: 'Before you start', allCautions: 'Read all cautions', cautionsBack: 'Back',
    leave: 'Back to the bench',
    cannotRecord: 'This sign-in cannot record entries.',
  },

  resume: {
    title: (form) => `${form}: begun and not recorded`,
    lead: 'You left this form before it was recorded. Nothing of it is in the book yet.',
    goOn: 'Go on with it', anew: 'Begin anew',
  },

  register: {
    title: 'Things under care',
    lead: 'Everything the book is kept of, with what was entered about it.',
    count: (count) => (count ? `${count} in use` : 'none entered'),
    none: 'Nothing of this kind is entered yet.',
    nothing: 'Nothing else is entered about it.',
    add: 'Add one', change: 'Change', retire: 'Retire',
    all: 'All kinds', back: 'Back to the list',
    retired: 'It is retired: it stays in the book and takes no new entries.',
    titles: {
      added: (kind) => `New: ${kind}`,
      changed: (kind, name) => `Change: ${name}`,
      retired: (kind, name) => `Retire: ${name}`,
    },
    person: 'Person', personHelp: 'Who can sign in and is not in the register yet.',
    cannotEmpty: 'What is entered can be altered here, not emptied.',
  },

  points: {
    next: 'Next field', add: 'Next line',
    part: (from, to, count) => `Lines ${from} to ${to} of ${count}`,
    earlier: 'Lines before', later: 'Lines after',
    cell: (label, line) => `${label}, line ${line}`,
  },

  dip: {
    follows: (volume) => `${volume} by its inside measures: take it`,
    beyond: (height) => `No volume follows: this is more than the container is high inside by the `
      + `register, ${height}. Check the height and the container.`,
  },

  rows: {
    count: (count) => ['no line', '1 line'][count] ?? `${count} lines`,
    title: (label, number) => `${label}, line ${number}`,
    none: 'There is no line yet.', empty: 'nothing filled in',
    add: 'Add a line', change: 'Change', done: 'Done with this line', remove: 'Remove this line',
    unfinished: 'This line is not complete yet.',
    needed: 'Please add a line.',
    someUnfinished: 'A line is not complete yet.',
  },

  files: {
    add: 'Add a file or photo', sending: 'Sending …', remove: 'Remove',
    full: 'No more files can be added.',
    some: (label, count) => `${label} (${count})`,
    accepted: (max) => `PDF, JPEG or PNG, up to 5\u00a0MB each; at most ${max}. `
      + 'They stay in the book for ever, with the entry.',
    tooLarge: (name) => `${name} is larger than 5\u00a0MB. Take the picture in a smaller size.`,
    types: { 'application/pdf': 'PDF', 'image/jpeg': 'JPEG', 'image/png': 'PNG' },
    said: (type, bytes) => (bytes < 100000 ? `${type}, ${(bytes / 1000).toFixed(1)}\u00a0kB`
      : `${type}, ${(bytes / 1e6).toFixed(1)}\u00a0MB`),
    fetch: (what) => `Save the file (${what})`,
  },

  confirm: {
    title: 'Is this right?',
    words: (text, unit) => capital(`${numberWords(text)} ${unitWords[unit.id] ?? unit.symbol}`),
    yes: (value, name) => `Yes, record ${value} as ${name}`,
    change: 'Change it', answer: (label, value) => `${label}: ${value}`,
  },

  saved: {
    inBook: (seq) => `In the book, no. ${seq}`,
    undo: 'Undo', undoWithin: (seconds) => `${seconds} s`,
    reason: 'undone at once',
    undone: (seq, by) => `No. ${seq} is struck out by no. ${by}`,
    onTablet: 'On this tablet, not in the book yet',
    undoneHere: 'Undone; both come into the book',
    strikeOut: 'Strike-out',
    undoFailed: (detail) => `Not struck out: ${detail}`,
    close: 'Close', show: 'Show the entry',
  },

  ...accessTexts,
  ...calculationTexts,
  ...entryTexts,
  ...officeTexts,
  ...ruleTexts,
  ...sheetTexts,
  ...tabletTexts,

  histories: {
    cylinders: { title: 'Gas cylinders', none: 'No cylinder is entered yet.',
      list: 'All cylinders' },
    tools: { title: 'Tools and gauges', none: 'No tool or gauge is entered yet.',
      list: 'All tools and gauges' },
  },

  course: {
    newest: (entry, day) => `Content at the newest check (no. ${entry}, ${day})`,
    content: 'Content (15 °C, 1.01325 bar)', used: 'Logged use',
    loss: 'Loss since the last check', lossLonger: 'Loss since an earlier check',
    lossOf: (loss, uncertainty, entry) => `${loss} ± ${uncertainty} (k = 2), since no. ${entry}`,
    verdict: 'Says',
    verdicts: {
      'loss-beyond-uncertainty': 'loss beyond uncertainty',
      'no-evidence-of-loss': 'no evidence of loss',
      'cannot-tell': 'cannot tell',
    },
    untold: 'Not told',
    reasons: {
      'other-gas': 'not nitrogen: not computed',
      'no-water-capacity': 'water capacity missing',
      'no-pressure': 'pressure missing',
      'no-temperature': 'temperature missing',
      'out-of-range': 'out of the equation\'s range',
      'first-of-filling': 'loss: first check of the filling',
      'use-not-told': 'a use without pressure or gas space',
      'no-rule': 'no rule in force for it',
      'no-class': 'class or range missing in the register',
      'no-points': 'no pressure compared within the scale',
      adjusted: 'adjusted at the last inspection',
      'too-few': 'fewer than four inspections since the last adjustment',
      'not-towards-limit': 'the errors do not run towards the limit',
      'beyond-already': 'the line of the errors was beyond the limit at the last inspection',
      'too-far-ahead': 'it lies further ahead than the inspections reach back',
    },
    errorAt: (reference) => `Error as found at ${reference}`,
    limit: (limit, beyond) => `${beyond ? 'beyond' : 'not beyond'} the limit of ±${limit}`,
    noLimit: 'class missing in the register',
    forecast: (count, reference, limit, day) => `By the line through ${count} inspections, the error at ${
      reference} meets the limit of its class, ${limit}, on ${day}.`,
    noForecast: (why) => `No day on which it leaves its class is given: ${why}.`,
  },

  closing: {
    title: (month) => `Closing of ${month}`,
    running: 'The month is not over yet.',
    open: 'The month is not closed: no manager has signed its figures.',
    closed: (name, moment, seq) => `Closed by ${name} on ${moment}, no. ${seq} in the book.`,
    said: (statement) => `Statement: ${statement}`,
    since: (count) => `Entries of the month recorded, corrected or struck out since: ${count}. `
      + 'The report shows them.',
    nothingSince: 'No entry of the month was recorded or corrected since.',
    fromElsewhere: 'No entry of the month was recorded or corrected since. Its figures are others '
      + 'all the same, by a change of the register or of an earlier month:',
    others: 'Figures that are others by now:',
    parts: { arisen: 'arisen', collected: 'collected', standing: 'standing' },
    signedAndNow: (part, then, now) => `${part} ${then} signed, ${now} now`,
    figures: (hazardous, other) => `Hazardous waste that arose: ${hazardous}; other: ${other}.`,
    noFigure: 'no figure',
    statement: 'Statement', statementHelp: 'Gaps, estimates, what was put right. May stay empty.',
    caution: 'The figures can be corrected later, but the closing stays in the book.',
    close: (month, name) => `Close ${month} as ${name}`,
  },

  collections: {
    title: 'Collections', next: 'To be handed over next', list: 'By date',
    together: (days) => `What is due within ${days} days of each other goes together.`,
    by: (day) => `By ${day}`,
    expected: (now, then) => `${now} now, about ${then} by then`,
    planned: (ids) => `Planned already: ${ids}`,
    plan: 'Plan this collection', other: 'Record another collection',
    nothing: 'Nothing is due to be handed over in the days looked ahead.',
    off: 'The workshop\u2019s rules propose nothing.',
    none: 'No collection is recorded yet.',
    stages: { planned: 'Planned', taken: 'Taken away', 'document-returned': 'Document came back',
      weighed: 'Weighed by the receiver', 'not-taken': 'Nothing was taken' },
    take: 'Record what was taken', refused: 'Nothing was taken', returned: 'Document came back', weigh: 'Record what was weighed',
    document: (number, day) => `Document ${number}, taken on ${day};`,
    noNumber: 'without a number',
    back: (day) => `came back on ${day}.`, notBack: 'not back yet.',
    logged: (mass) => `${mass} logged`, weighed: (mass) => `${mass} weighed`,
    difference: (mass) => `${mass} apart`, notWeighed: 'not weighed yet',
    left: (names) => `Planned and left behind: ${names}`,
    entries: 'In the book:',
    confidence: { 'own-rule': 'own rule', 'second-hand': 'second-hand', 'from-memory': 'from memory' },
  },

  cylinders: {
    retired: 'retired', outOfService: 'withdrawn',
    history: (name) => `Checks of ${name}`,
    noChecks: 'No check is recorded yet.',
    corrections: 'Corrections', noCorrection: 'no correction',
    entryLine: (seq, moment, person) => `No. ${seq} · ${moment} · ${person}`,
    struckOut: 'Struck out',
    reason: (reason) => `Reason: ${reason}`,
    changed: (label, before, after) => `${label}: ${before} → ${after}`,
    typed: (amount) => `read as ${amount}`,
    notRecorded: 'not recorded', rows: (count) => (count === 1 ? '1 row' : `${count} rows`),
    newestFirst: 'The newest stands first.',
    older: (count) => `Show ${count} older entries`,
  },

  units: { l: 'L', ml: 'mL', c: '°C', d: 'days', bar_l: 'bar·L', percent: '%', m3: 'm³', k: 'K',
    g_mol: 'g/mol', mm_hg: 'mmHg', kg_m3: 'kg/m³', lb: 'lb', gal_us: 'US gal', qt_us: 'US qt', 1: '',
    fl_oz_us: 'US fl oz', ft3: 'ft³', g: 'g', kg: 'kg', oz: 'oz', bar: 'bar', psi: 'psi', f: '°F',
    mm: 'mm', cm: 'cm', m: 'm', in: 'in', ft: 'ft', kg_l: 'kg/L', lb_gal_us: 'lb/US gal',
    hpa: 'hPa', kpa: 'kPa', mpa: 'MPa' },

  confidence: { 'own-rule': 'the workshop\u2019s own rule, not of a text',
    'second-hand': 'second-hand, not read in the text',
    'from-memory': 'from memory, not read in the text' },

  findings: {
    title: 'Findings',
    lead: 'What the rules in force say of the book as it is now. Acknowledging a finding does not '
      + 'hide it and does not clear it.',
    none: 'The rules in force find nothing in what is recorded.',
    words: { over: 'Beyond a limit:', due: 'To be done:', note: 'To know:' },
    groups: { over: 'Beyond a limit', due: 'To be done by a day', note: 'To know' },
    counted: { over: (count) => `${count} beyond a limit`, due: (count) => `${count} to be done` },
    link: (counts) => `Findings: ${counts || 'none beyond a limit or to be done'}`,
    measured: (value, limit) => `Found ${value}, limit ${limit}`,
    since: (moment) => `Since ${moment}`,
    until: (day) => `last day ${day}`,
    clears: (what) => `What ends it: ${what}`,
    entries: 'Entries behind it:',
    acknowledged: (name, moment, until) => `Acknowledged by ${name} on ${moment}${
      until ? `, until ${until}` : ''}`,
    said: (reason) => `Reason: ${reason}`,
    closed: 'An action about it is recorded:',
    acknowledge: 'Acknowledge',
    reason: 'Why it stands for now, and what is being done',
    stays: 'It stays in this list until what it says has ended.',
    record: (name) => `Record as ${name}`,
    more: (count) => `and ${count} more, on the page Findings`,
  },

  due: {
    title: 'What is due',
    none: 'Nothing that is recorded has a day by which it is due.',
    passed: 'The day has passed', today: 'Today', coming: 'To come',
  },

  feed: {
    title: 'In a calendar',
    lead: 'A calendar program can fetch this list by a link and keep it up to date.',
    caution: 'Whoever has the link can read the list without signing in. Give it to nobody you would '
      + 'not show the list to; a new link ends the one before.',
    none: 'You have made no link.',
    since: (day) => `You made a link on ${day}. It is not shown again.`,
    make: 'Make a link', makeAgain: 'Make a new link', end: 'End the link',
    link: 'Link for the calendar program',
    once: 'It is shown this once.',
    copy: 'Copy', copied: 'Copied.', marked: 'The link is marked; copy it from there.',
    ended: 'The link opens nothing any more.',
  },

  emergency: {
    title: 'Emergency', back: 'Back',
    missing: 'The emergency page cannot be fetched now. '
      + 'Follow the emergency plan of your workshop.',
  },

  people: { unknown: (id) => `person ${id}`, machine: 'the workshop computer' },
};
