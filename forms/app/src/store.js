// What all screens share. A change is announced as one event; screens then draw themselves anew.

class Store extends EventTarget {
  state = {
    started: false, // the first look at the daemon is done
    session: null, // {person, name, role}
    people: [],
    setupNeeded: false,
    forms: [], // summaries of GET /forms
    levels: [],
    emergency: null,
    note: '', // a sentence for the sign-in screen
    saved: null, // the last entry recorded here, for the bar with Undo
    pending: null, // an entry sent without an answer: {person, body, values}
    drafts: {}, // "person/kind" -> values, of forms that are not recorded yet
    left: {}, // the same, as far as they were left for another screen
  };

  set(change) {
    Object.assign(this.state, change);
    this.dispatchEvent(new Event('change'));
  }
}

export const store = new Store();
