/** M. B. Brown & A. B. Forsythe, J. Am. Stat. Assoc. 69 (1974) 364-367: whether treatments scatter alike. */
import { median } from 'simple-statistics';
import { type OneWay, oneWay } from './one-way.js';
import { groupsOf, type PerBed, perBed } from './per-bed.js';

/**
 * Analysis of variance of how far each bed lies from the median of its treatment.
 *
 * @throws SandlarderError TOO_FEW_SAMPLES where all lie equally far
 */
export function brownForsythe(values: PerBed): OneWay {
  const middles = new Map(groupsOf(values).map((group) => [group.treatment, median([...group.values])]));
  return oneWay(
    perBed(
      values.map((one) => ({ ...one, value: Math.abs(one.value - (middles.get(one.treatment) as number)) })),
    ),
  );
}
