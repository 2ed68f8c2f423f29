// A page of a form that is longer than the tablet is cut into steps: what does not fit is asked on the
// next one. Measured once it is drawn, so that it holds for every form, language and register.

// Where people may scroll: a tablet held upright, a narrow window.
const kWide = '(min-width: 1101px)';

export class Steps {
  #starts = new Set(); // names of fields that begin a step

  #width = 0;

  /** The fields of a page as steps, of which there is at least one. */
  of(fields) {
    const steps = [[]];
    for (const field of fields) {
      if (this.#starts.has(field.name) && steps.at(-1).length) steps.push([]);
      steps.at(-1).push(field);
    }
    return steps;
  }

  /** Moves the last field of a step that does not fit to the next one; true when there was one. */
  fit(fields, step) {
    if (this.#turned() || !isTooLong()) return false;
    const steps = this.of(fields);
    const shown = steps[step] ?? [];
    if (shown.length < 2) return false;
    const after = steps[step + 1]?.[0];
    if (after) this.#starts.delete(after.name);
    this.#starts.add(shown.at(-1).name);
    return true;
  }

  /** In a window of another width other fields fit. */
  #turned() {
    const turned = this.#width !== 0 && this.#width !== window.innerWidth;
    if (turned) this.#starts.clear();
    this.#width = window.innerWidth;
    return turned;
  }
}

/** While a text is written, the tablet's own keyboard takes half of the page. */
function isTooLong() {
  const { activeElement, documentElement: root } = document;
  const writes = activeElement instanceof HTMLInputElement && activeElement.type !== 'radio';
  return !writes && window.matchMedia(kWide).matches && root.scrollHeight > root.clientHeight;
}
