// The sentences about the tablet itself: what waits on it, what it is, who it is used by, and what
// can be done while the workshop computer is out of reach.

export const tabletTexts = {
  away: {
    short: 'workshop computer out of reach',
    since: (time) => `out of reach, as of ${time}`,
    asOf: (time) => `What is shown from the book is as of ${time}.`,
    levels: (time) => `As of ${time}; what was recorded since is not counted here.`,
    needed: 'This page needs the workshop computer, which is out of reach now. Entries can still be '
      + 'recorded: they stay on this tablet until it answers.',
  },

  outbox: {
    title: 'What is on this tablet',
    none: 'All in the book',
    waiting: (count) => `${count} on this tablet`,
    attention: (count) => (count === 1 ? '1 needs attention' : `${count} need attention`),
    allIn: 'Everything that was recorded on this tablet is in the book.',
    lead: 'These entries are on this tablet and not in the book yet. They are sent by themselves.',
    leadAway: 'The workshop computer is out of reach. These entries are kept on this tablet, also '
      + 'when it is switched off, and are sent by themselves once the computer answers.',
    now: 'Send now',
    save: 'Save to a file',
    saveHelp: 'The file is a last resort, if this tablet has to be given away or repaired. It does '
      + 'not put anything into the book.',
    states: { waiting: 'On this tablet, not in the book yet',
      refused: 'Needs attention: the workshop computer did not take it',
      stranded: 'Needs attention: only the person who made it could send it',
      unclaimed: 'Needs attention: it was made without PIN, and this is no paired tablet any more' },
    whose: (name) => `${name} can mend or drop it after signing in.`,
    whoseOrManagers: (name) => `${name} can mend or drop it after signing in. Where ${name} does not `
      + 'come, a manager signs in here, saves it to a file and drops it. Then it has to be recorded '
      + 'anew.',
    gone: 'It is not among what can be mended on this tablet any more: it was sent or dropped '
      + 'meanwhile.',
    waitsFor: (name) => `${name} can send it: after signing in here with the PIN it goes by itself, or `
      + `after saying that it is theirs. Where ${name} does not come, a manager signs in here, saves `
      + 'it to a file and drops it. Then it has to be recorded anew.',
    anew: (page) => (page ? 'It cannot be altered. Look at what it is about; record it anew there if '
      + 'it still holds, and drop this one.'
      : 'There is nothing in it to mend. Send it again if what spoke against it has passed, or drop '
      + 'it: then it stays out of the book.'),
    lookAt: 'Look at what it is about',
    mend: 'Mend it', again: 'Send it again as it is', drop: 'Drop it',
    dropCaution: 'It will not come into the book.',
    dropGap: 'Its number stays open: the list of tablets shows that one is missing once a later '
      + 'entry of this tablet has arrived.',
    undone: 'It was undone on this tablet, so that there is nothing to mend. The entry and its '
      + 'strike-out can be dropped together: neither is in the book.',
    dropBoth: 'Drop both',
    own: (name) => `It is mine: send it as ${name}`, notOwn: 'Not mine: drop it',
    stranded: (name) => `${name} is not on the list of people any more. A manager can save it to a `
      + 'file and drop it.',
    saveAndDrop: (name) => `Save all to a file and drop it as ${name}`,
    keep: 'Keep it', dropYes: (name) => `Drop it as ${name}`,
    back: 'Back to the names',
  },

  claimed: {
    title: (name) => `Go on as ${name}, without PIN`,
    lead: 'The workshop computer is out of reach, so that no PIN can be checked.',
    caution: 'What you record is marked as not confirmed by PIN, until you confirm it with your PIN '
      + 'once the computer answers.',
    goOn: (name) => `Go on as ${name}`,
    note: 'not confirmed by PIN yet',
    name: (name) => `${name}, not confirmed by PIN`,
    back: 'The workshop computer answers again. Please confirm with your PIN who is recording.',
    confirm: 'Confirm',
  },

  authorship: {
    title: 'Recorded in your name without PIN',
    lead: (name) => `These entries were recorded as ${name} while no PIN could be checked. Mark those `
      + 'you can say it of, then say whether you made them. They stay in the book either way.',
    markAll: 'Mark all',
    mine: (name) => `These are mine – record as ${name}`,
    notMine: (name) => `Not mine – record as ${name}`,
    said: { mine: (numbers) => `Recorded as yours: no. ${numbers}`,
      'not-mine': (numbers) => `Recorded as not yours: no. ${numbers}` },
    later: 'Later',
  },

  pair: {
    title: 'Pair this tablet',
    lead: 'Pairing makes this browser a tablet of the workshop, under the name that the manager gave '
      + 'it.',
    does: 'On a paired tablet anybody on the list of people can go on recording when the workshop '
      + 'computer is out of reach, and the book says from which tablet an entry came. Pair only a '
      + 'device that stays in the workshop.',
    already: (name) => `It is paired already, as ${name}. Pairing it again gives it a new name.`,
    code: 'Pairing code', codeHelp: 'Eight signs; a manager shows it on the page of devices.',
    save: 'Pair this tablet',
    wrong: 'Wrong, used or old code. A manager can show a new one.',
    wait: (seconds) => `Too many wrong codes. Try again in ${seconds} s.`,
    unsent: 'There are entries on this tablet that are not in the book yet. Pair it once they are.',
    unsentTitle: 'First these entries have to leave this tablet',
    unsentOf: (name, count) => `${name}: ${count === 1 ? '1 entry' : `${count} entries`}`,
    unsentHow: 'Who made them signs in here with the PIN: then they are sent, those made without PIN '
      + 'once their person says on the page of what is on this tablet that they are theirs; those that '
      + 'the workshop computer did not take, their person mends or drops on that page. Where nobody '
      + 'comes for them, a manager signs in here, saves them to a file there and drops them.',
    unsentPaired: 'They are sent by themselves once the workshop computer answers. Those that it did '
      + 'not take, who made them mends or drops on the page of what is on this tablet, after signing '
      + 'in here; those of a person who is not on the list of people any more, a manager.',
    unsentLink: 'What is on this tablet',
    done: (name) => `This tablet is ${name} now.`,
    back: 'To the names',
  },
};
