// The pages of a form: its steps where it is too long for the tablet, its lists and their rows.
import { Screen } from './screen.js';
import { firstNumber, isChoice, isEmptyRow, isGiven, rowsOf } from './draft.js';
import { isTable } from './points-page.js';
import { Steps } from './steps.js';

export class FormPages extends Screen {
  step = 0; // of the page, where it is too long for the tablet

  steps = new Steps();

  list = ''; // the list whose rows are shown

  row = 0; // the row of it that is filled in

  openList(name) {
    this.list = name;
    if (!isTable(this.field(name))) {
      this.turnTo('list');
      return;
    }
    const rows = rowsOf(this.values, this.field(name));
    this.turnTo('points');
    this.row = Math.max(0, rows.length - 1);
  }

  /** Another place of the table: its line and its number. */
  turnToCell(row, name) {
    this.row = row;
    this.active = name;
    this.requestUpdate();
  }

  /** Back to the page that has the button of the list. */
  closeList() {
    this.turnToField((name) => name === this.list);
  }

  openRow(index) {
    this.row = index;
    this.turnTo('row');
    this.active = firstNumber(this.form, this.values, this.field(this.list), this.cells());
  }

  /** A row nothing was filled into is none. */
  closeRow() {
    if (isEmptyRow(this.cells())) this.dropRow();
    else this.turnTo('list');
  }

  dropRow() {
    const rows = rowsOf(this.values, this.field(this.list));
    this.setRows(rows.filter((_, index) => index !== this.row));
    this.turnTo('list');
  }

  /** What is filled into the row that is open. */
  cells() {
    return rowsOf(this.values, this.field(this.list))[this.row] ?? {};
  }

  setCell(name, value) {
    this.setRow({ ...this.cells(), [name]: value });
  }

  setRow(row) {
    const rows = [...rowsOf(this.values, this.field(this.list))];
    rows[this.row] = row;
    this.setRows(rows);
  }

  /** Faults name rows by their place, which changes with the rows. */
  setRows(rows) {
    const others = Object.entries(this.faults).filter(([name]) => name.split('/')[0] !== this.list);
    this.faults = Object.fromEntries(others);
    this.change({ ...this.values, [this.list]: rows });
  }

  /** The fields of the page, step by step. */
  allSteps() {
    return this.steps.of(this.fields(this.page));
  }

  /** The fields of the step that is shown. */
  stepFields() {
    const steps = this.allSteps();
    return steps[Math.min(this.step, steps.length - 1)];
  }

  isLastStep() {
    return this.step >= this.allSteps().length - 1;
  }

  /** The page turns by itself once everything on it was given, the last of it by a choice. */
  turnWhenDone(name, before) {
    const fields = this.stepFields();
    const given = fields.every((field) => isGiven(this.values, field));
    const chosen = isChoice(this.field(name), this.values) && !before;
    if (given && chosen && !this.isLastStep()) this.turnTo(this.page, this.step + 1);
  }

  updated() {
    // What a fault takes of the page moves no field to another one.
    const faulty = this.fault || Object.values(this.faults).some(Boolean);
    const paged = this.loaded && !faulty && ['main', 'more'].includes(this.page);
    if (paged && this.steps.fit(this.fields(this.page), this.step)) this.requestUpdate();
  }

  /** To the first step that has such a field. */
  turnToField(wanted) {
    for (const page of ['main', 'more']) {
      const steps = this.steps.of(this.fields(page));
      const step = steps.findIndex((fields) => fields.some(({ name }) => wanted(name)));
      if (step >= 0) {
        this.turnTo(page, step);
        return;
      }
    }
    this.turnTo('main');
  }
}
