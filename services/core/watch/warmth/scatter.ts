/**
 * By how much each probe's readings scatter about what the filter expects, against what it thinks they would: learned
 * as it goes, so that a bed that is understood well is judged sharply, and a probe that is not counts for less.
 */

/** How fast it is followed; what one step counts at the most, in times of what it was. Judgement, by evaluation. */
const RATE = 0.02;
const MOST_times = 4;
/** Steps by which it is followed faster at first, and a scatter below which nothing counts as many times it. */
const FIRST_steps = 8;
const SMALL = 0.1;
/**
 * What follows from step to step is alike: evidence is weighed as if the scatter were so many times as large, and never
 * less than a floor. Judgement: in sound seasons the product of two steps in a row was mostly below half a square.
 */
const ALIKE = 2;
const FLOOR = 0.2;

export interface ScatterSaved {
  readonly steps: number;
  readonly shares: readonly number[];
}

export class Scatter {
  #steps = 0;
  /** By probe: mean square of the whitened innovations; 1 where the filter is right about itself. */
  #shares: number[];

  constructor(probes: number) {
    this.#shares = Array.from({ length: probes }, () => 1);
  }

  /** Of the middle one of the probes. */
  get middle(): number {
    const sorted = [...this.#shares].sort((one, other) => one - other);
    return sorted[Math.floor(sorted.length / 2)] as number;
  }

  /**
   * @param probes that measured
   * @param by how much more than usual they scatter now
   * @returns by which the whitened innovations of these probes are multiplied before they are evidence
   */
  weights(probes: readonly number[], by: number): number[] {
    return probes.map((probe) => 1 / Math.sqrt(by * effective(this.#shares[probe] as number)));
  }

  /** Takes the whitened innovations of a step, in the order of the probes that measured. */
  take(probes: readonly number[], innovations: ArrayLike<number>): void {
    const rate = Math.max(RATE, 1 / (this.#steps + FIRST_steps));
    this.#steps += 1;
    probes.forEach((probe, index) => {
      const before = this.#shares[probe] as number;
      const square = Math.min((innovations[index] as number) ** 2, MOST_times * Math.max(before, SMALL));
      this.#shares[probe] = before + rate * (square - before);
    });
  }

  save(): ScatterSaved {
    return { steps: this.#steps, shares: this.#shares };
  }

  restore(saved: ScatterSaved): void {
    this.#steps = saved.steps;
    this.#shares = [...saved.shares];
  }
}

/** What evidence is divided by, where a probe's whitened innovations have such a mean square. */
export const effective = (share: number): number => Math.max(FLOOR, ALIKE * share);
