import { expect, test } from 'vitest';
import { SandlarderError } from '../../../services/core/errors.js';

/** What no function of the physics takes, whatever it measures. */
const NO_NUMBERS = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];

export function codeOf(call: () => unknown): string {
  try {
    call();
  } catch (error) {
    return error instanceof SandlarderError ? error.code : `another error: ${String(error)}`;
  }
  return 'no error';
}

/** One test for each value that an argument must not take: those given, NaN and both infinities. */
export function refuses(argument: string, call: (value: number) => unknown, values: readonly number[]): void {
  test.each([...values, ...NO_NUMBERS])(`${argument} of %d is refused`, (value) => {
    expect(codeOf(() => call(value))).toBe('OUT_OF_DOMAIN');
  });
}

/** One test for each value at the edge that an argument may still take. */
export function takes(argument: string, call: (value: number) => number, values: readonly number[]): void {
  test.each([...values])(`${argument} of %d is taken`, (value) => {
    expect(Number.isFinite(call(value))).toBe(true);
  });
}
