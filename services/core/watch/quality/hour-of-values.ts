/**
 * Usable values of one quantity in one hour, summed up in whole ten-thousandths, which are exact: the same values give
 * the same mean to the last bit.
 */
import type { HourSummary } from '../watch.js';
import { inTenThousandths, TEN_THOUSANDTHS } from './rounding.js';

export class HourOfValues {
  #count = 0;
  #sum = 0;
  #min = Number.POSITIVE_INFINITY;
  #max = Number.NEGATIVE_INFINITY;

  take(value: number): void {
    this.#count += 1;
    this.#sum += inTenThousandths(value);
    this.#min = Math.min(this.#min, value);
    this.#max = Math.max(this.#max, value);
  }

  /** Undefined where there was no value. */
  summary(): HourSummary | undefined {
    if (this.#count === 0) return undefined;
    return {
      count: this.#count,
      mean: this.#sum / this.#count / TEN_THOUSANDTHS,
      min: this.#min,
      max: this.#max,
    };
  }
}
