/** A part of the program that is given what nobody should send, and what came of it. */

export interface Asked {
  readonly cases: number;
  readonly seed: number;
}

export interface Tried {
  readonly cases: number;
  /** What each case came to, and how often: a part where all is refused at the door tries nothing. */
  readonly outcomes: ReadonlyMap<string, number>;
}

/** A case whose answer is not as it must be: names the seed and the case, so that it can be had again. */
export class Unsound extends Error {}

export class Outcomes {
  readonly #counts = new Map<string, number>();

  add(outcome: string): void {
    this.#counts.set(outcome, (this.#counts.get(outcome) ?? 0) + 1);
  }

  get counts(): ReadonlyMap<string, number> {
    return new Map([...this.#counts].sort(([, one], [, other]) => other - one));
  }
}
