// The words of who may come in: sessions, and what a person shows again before a weighty act.

export const accessTexts = {
  stillYou: {
    title: 'Is it still you?',
    lead: (name, what) => `You are signed in as ${name}. Before this is done, show that it is you: ${what}. `
      + 'For five minutes it is not asked again.',
    pin: 'Your PIN', passphrase: 'Your passphrase', leave: 'Leave it', goOn: 'Go on',
  },

  inspection: {
    banner: (day, scope) => `read-only, ${day} is the last day: ${scope}`,
    scopes: { everything: 'everything', waste: 'waste', 'cylinders-and-tools': 'cylinders and tools' },
    scope: 'What may be read', firstDay: 'First day', lastDay: 'Last day',
    lastDayHelp: 'This one included; at most 30 days in all.',
    none: 'No access is given now: this person cannot sign in.',
    given: (from, last, scope) => `Reads ${scope} from ${from}; the last day is ${last}.`,
    give: 'Give access for some days', save: (name) => `Give ${name} this access`,
    done: (name) => `${name} can sign in on these days.`,
    replaces: (name) => `This takes the place of what ${name} may read now, and signs them out.`,
    chooseScope: 'Please choose what may be read.',
    end: 'End reading now', ends: (name) => `${name} is signed out everywhere and reads nothing any more.`,
    endNow: (name) => `End what ${name} may read`, ended: (name) => `${name} reads nothing any more.`,
  },

  tokens: {
    title: 'Tokens for scripts',
    lead: 'A program reads from the book, or records into it, with a token of its own. It is never good for '
      + 'people, sign-ins, tablets and tokens.',
    none: 'No token was made yet.',
    make: 'Make a token', name: 'What it is for', save: 'Make this token',
    needsName: 'Please say what it is for.', needsScope: 'Please choose what it may do.',
    scope: 'What it may do',
    scopes: { reads: ['Read', 'what you read of the book'], 'reads-and-entries': ['Read and record',
      'in your name, marked as without PIN'] },
    lastDay: 'Its last day', lastDayHelp: 'A year ahead at most.',
    secret: 'The token, shown this once: copy it now.', copied: 'I have it',
    made: (moment, name) => `Made on ${moment} by ${name}.`,
    until: (day) => `Its last day is ${day}.`, over: (moment) => `It ended on ${moment}.`,
    used: (moment) => `Used last on ${moment}.`, unused: 'Not used yet.',
    end: 'End it', ends: (name) => `Programs that use the token "${name}" get nothing any more.`,
    endNow: (name) => `End the token "${name}"`,
  },

  sessions: {
    title: 'Who is signed in',
    lead: 'Each line is one sign-in that has not ended. Whoever does not know one of their own ends it '
      + 'and asks for a new PIN.',
    none: 'Nobody is signed in.',
    places: { machine: 'at the workshop computer', device: (name) => `on the tablet ${name}`,
      elsewhere: 'in a browser elsewhere' },
    began: (moment) => `Since ${moment}.`,
    seen: (moment) => `Last used ${moment}.`,
    here: 'This is the one you use now.',
    end: 'End it', ends: (name) => `${name} is signed out there. What was not sent yet stays on that `
      + 'tablet.',
    passphrase: {
      title: 'Your passphrase',
      lead: 'With it you sign in from a browser that is no paired tablet. It has 12 characters or more, '
        + 'best some words that nobody would guess.',
      has: 'You have one; a new one takes its place. It signs you out everywhere else.',
      hasNone: 'You have none yet. Setting one signs you out everywhere else.',
      set: 'Set a passphrase', first: 'Passphrase', again: 'The same again',
      differs: 'The two differ.', save: 'Set this passphrase',
      done: 'It counts from now on.',
    },
    endNow: (name) => `End this sign-in of ${name}`,
  },
};
