/**
 * Responses as weights on the steps that have been: for a history of what drove the bed, what each probe shows.
 */
import { type Curve, type Mix, type Spot, STEP_h, spotAt } from './curve.js';
import { type DriveName, GROUND_DRIVES, type Responses } from './responses.js';

/** Steps that are remembered: beyond, what drove the bed acts as if it had always been so. */
export const REMEMBERED_steps = 190 * 4;

/** Weights of one probe on a history, newest last; `value` °C, the others °C for each unit of an unknown. */
export interface ProbeTaps {
  readonly value: Float64Array;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly depth: Float64Array;
  readonly faster: Float64Array;
  readonly aroundBetter: Float64Array;
}

export interface Taps {
  /** How much faster than nominal the block was taken to conduct. */
  readonly speed: number;
  /** By probe: on the shade, over the sand and over the open ground. */
  readonly air: readonly ProbeTaps[];
  /** By probe: on the air over the sand alone. */
  readonly surface: readonly Float64Array[];
  /** By probe: on the warmth of roots. */
  readonly roots: readonly ProbeTaps[];
  readonly rootsX: readonly Float64Array[];
  readonly rootsY: readonly Float64Array[];
  readonly rootsZ: readonly Float64Array[];
  readonly rootsWarm: readonly Float64Array[];
}

/** Beginnings, middles and ends of all remembered steps, in order: an end is the next beginning. */
const halfSteps = (speed: number): Spot[] =>
  Array.from({ length: 2 * REMEMBERED_steps + 1 }, (_, half) => spotAt((half / 2) * STEP_h * speed));

/**
 * Responses to a unit from a step's beginning on, together, as the change that each step brings to the mean of a step
 * (by Simpson's rule).
 */
function changes(curves: readonly Curve[], mixes: readonly Mix[]): Float64Array {
  const values = new Float64Array(mixes.length);
  for (const curve of curves)
    for (let half = 0; half < mixes.length; half += 1)
      values[half] = (values[half] as number) + curve.mixed(mixes[half] as Mix);
  const taps = new Float64Array(REMEMBERED_steps);
  let before = 0;
  for (let step = 0; step < REMEMBERED_steps; step += 1) {
    const begin = values[2 * step] as number;
    const middle = values[2 * step + 1] as number;
    const end = values[2 * step + 2] as number;
    const mean = (begin + 4 * middle + end) / 6;
    taps[step] = mean - before;
    before = mean;
  }
  return taps;
}

export function tapsOf(responses: Responses, probes: number, speed: number): Taps {
  const spots = halfSteps(speed);
  const byValue = spots.map(({ value }) => value);
  const byFaster = spots.map(({ faster }) => faster);
  const of = (names: readonly DriveName[], probe: number): ProbeTaps => {
    const curves = (part: 'value' | 'x' | 'y' | 'depth'): Curve[] =>
      names.flatMap((name) => responses.drives[name][probe]?.[part] ?? []);
    const value = curves('value');
    return {
      value: changes(value, byValue),
      x: changes(curves('x'), byValue),
      y: changes(curves('y'), byValue),
      depth: changes(curves('depth'), byValue),
      faster: changes(value, byFaster),
      aroundBetter: changes(
        names.flatMap((name) => responses.ground[name]?.[probe] ?? []),
        byValue,
      ),
    };
  };
  const each = <T>(make: (probe: number) => T): T[] =>
    Array.from({ length: probes }, (_, probe) => make(probe));
  const alone = (name: DriveName) =>
    each((probe) => {
      const curve = responses.drives[name][probe]?.value;
      return changes(curve ? [curve] : [], byValue);
    });
  return {
    speed,
    air: each((probe) => of(['surface', 'open'], probe)),
    surface: alone('surface'),
    roots: each((probe) => of(['roots'], probe)),
    rootsX: alone('rootsX'),
    rootsY: alone('rootsY'),
    rootsZ: alone('rootsZ'),
    rootsWarm: alone('rootsWarm'),
  };
}

/** What a history gives by now, its newest step last. */
export function convolve(taps: Float64Array, history: readonly number[]): number {
  const last = history.length - 1;
  const count = Math.min(taps.length, history.length);
  let sum = 0;
  for (let back = 0; back < count; back += 1)
    sum += (taps[back] as number) * (history[last - back] as number);
  return sum;
}

/** Where something that has acted for some steps stands in its response. */
export const spotSince = (steps: number, speed: number): Spot => spotAt((steps + 0.5) * STEP_h * speed);

/** A response there: value, and change for each unit of speed and of the ground. */
export function responseAt(
  { value, faster }: Spot,
  responses: Responses,
  name: DriveName,
  probe: number,
): { value: number; x: number; y: number; depth: number; faster: number; aroundBetter: number } {
  const drive = responses.drives[name][probe];
  if (!drive) return { value: 0, x: 0, y: 0, depth: 0, faster: 0, aroundBetter: 0 };
  const ground = (GROUND_DRIVES as readonly string[]).includes(name)
    ? responses.ground[name]?.[probe]
    : undefined;
  return {
    value: drive.value.mixed(value),
    x: drive.x.mixed(value),
    y: drive.y.mixed(value),
    depth: drive.depth.mixed(value),
    faster: drive.value.mixed(faster),
    aroundBetter: ground?.mixed(value) ?? 0,
  };
}
