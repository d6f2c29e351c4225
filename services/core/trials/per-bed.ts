/**
 * The unit of every comparison is a bed with one number. Readings of one bed share its sand, roof and roots: taken for
 * beds they would make a trial look many times as large as it is. What compares takes `PerBed`, and `perBed` is the only
 * way to one.
 */
import { SandlarderError } from '../errors.js';

export interface BedValue {
  readonly bed: string;
  readonly treatment: string;
  /** Beds of a block are alike in what is no treatment: place, day of filling, lot. */
  readonly block?: string;
  /** The one number that stands for the bed. */
  readonly value: number;
}

declare const oneABed: unique symbol;

/** Beds, each once, each with one number. */
export type PerBed = readonly BedValue[] & { readonly [oneABed]: true };

/**
 * @throws SandlarderError CONFLICT for a bed that comes twice, OUT_OF_DOMAIN for a value that is no number
 */
export function perBed(values: readonly BedValue[]): PerBed {
  const seen = new Set<string>();
  for (const { bed, value } of values) {
    if (seen.has(bed))
      throw new SandlarderError(
        'CONFLICT',
        `bed "${bed}": expected one number that stands for it, got two: readings of a bed are not beds`,
      );
    seen.add(bed);
    if (!Number.isFinite(value))
      throw new SandlarderError('OUT_OF_DOMAIN', `bed "${bed}": expected a number, got ${value}`);
  }
  return values as PerBed;
}

/** Beds of one treatment. */
export interface Group {
  readonly treatment: string;
  readonly beds: readonly string[];
  readonly values: readonly number[];
}

/**
 * Beds by treatment, in the order in which treatments first come.
 *
 * @param least beds that each must have
 * @throws SandlarderError TOO_FEW_SAMPLES for fewer, and for fewer than two treatments
 */
export function groupsOf(values: PerBed, least = 2): Group[] {
  const names = [...new Set(values.map(({ treatment }) => treatment))];
  if (!(names.length >= 2))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `treatments: expected two or more to compare, got ${names.length === 0 ? 'none' : `"${names[0]}" alone`}`,
    );
  return names.map((treatment) => {
    const of = values.filter((one) => one.treatment === treatment);
    if (!(of.length >= least))
      throw new SandlarderError(
        'TOO_FEW_SAMPLES',
        `treatment "${treatment}": expected at least ${least} beds, got ${of.length}`,
      );
    return { treatment, beds: of.map(({ bed }) => bed), values: of.map(({ value }) => value) };
  });
}
