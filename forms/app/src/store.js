// What all screens share. A change is announced as one event; screens then draw themselves anew.

class Store extends EventTarget {
  state = {
    started: false, // the first look at the daemon is done
    away: false, // the daemon does not answer
    asOf: null, // the moment of the oldest kept answer that is shown, in Unix milliseconds
    device: null, // {id, name} of a paired tablet
    signInBy: 'pin', // or 'passphrase': what signing in from here takes
    session: null, // {person, name, role, claimed}
    asking: null, // the person whose PIN is asked while a claimed session goes on
    unconfirmed: [], // entries in the person's name that were recorded without a PIN
    people: [],
    setupNeeded: false,
    forms: [], // summaries of GET /forms
    levels: [],
    emergency: null,
    note: '', // a sentence for the sign-in screen
    scan: null, // turns the form that is shown to its page with the camera, if it has one
    saved: null, // the last entry recorded here, for the bar with Undo
    rows: [], // of the outbox
    drafts: {}, // "person/address" -> {values, left}, of forms that are not recorded yet
  };

  set(change) {
    Object.assign(this.state, change);
    this.dispatchEvent(new Event('change'));
  }
}

export const store = new Store();
