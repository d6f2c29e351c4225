/** Finds a value in JSON by a path of names and indexes, such as `messages.0.status`. */
import { SandlarderError } from '../core/errors.js';

export type JsonPath = readonly string[];

/** Steps at the most: no answer of a gateway is as deep. */
const STEPS = 16;

/**
 * Reads a path: names and indexes with full stops between. A name that holds a full stop cannot be reached.
 *
 * @throws SandlarderError WRONG_USAGE for an empty path or step, or more than 16 steps
 */
export function parsePath(text: string): JsonPath {
  const steps = text.split('.');
  if (steps.length > STEPS || steps.some((step) => step.trim() !== step || step === '')) {
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected a path of 1 to ${STEPS} names or indexes with full stops between, such as messages.0.status, got ${JSON.stringify(text)}`,
    );
  }
  return steps;
}

/** The value at a path; undefined where there is none. Only what the JSON itself holds: no length, no prototype. */
export function valueAt(json: unknown, path: JsonPath): unknown {
  let value = json;
  for (const step of path) {
    if (typeof value !== 'object' || value === null) return undefined;
    if (Array.isArray(value) && !/^(0|[1-9]\d*)$/.test(step)) return undefined;
    if (!Object.hasOwn(value, step)) return undefined;
    value = (value as Record<string, unknown>)[step];
  }
  return value;
}
