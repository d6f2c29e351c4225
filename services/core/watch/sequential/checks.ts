/** What every function here asks of the numbers that it is given. */
import { requireInDomain, SandlarderError } from '../../errors.js';

/** Throws OUT_OF_DOMAIN for NaN and for what is infinite. */
export function requireFinite(name: string, value: number): void {
  requireInDomain(name, value, -Number.MAX_VALUE, Number.MAX_VALUE);
}

/** Throws OUT_OF_DOMAIN for a value that is not finite, TOO_FEW_SAMPLES for fewer than `least` values. */
export function requireSamples(name: string, values: readonly number[], least: number): void {
  if (!(values.length >= least))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `${name}: expected at least ${least} values, got ${values.length}`,
    );
  for (const value of values) requireFinite(name, value);
}
