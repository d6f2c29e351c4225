/**
 * Responses as weights on the steps that have been: for a history of what drove the bed, what each probe shows.
 */
import { type Curve, STEP_h, stepMean } from './curve.js';
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

/** A response to a unit from a step's beginning on, as the change that each step brings. */
function changes(at: (hours: number) => number): Float64Array {
  const taps = new Float64Array(REMEMBERED_steps);
  let before = 0;
  for (let step = 0; step < REMEMBERED_steps; step += 1) {
    const mean = stepMean(at, step);
    taps[step] = mean - before;
    before = mean;
  }
  return taps;
}

type Evaluate = (curve: Curve, hours: number) => number;

export function tapsOf(responses: Responses, probes: number, speed: number): Taps {
  const value: Evaluate = (curve, hours) => curve.at(hours * speed);
  const faster: Evaluate = (curve, hours) => curve.perFaster(hours * speed);
  const sum = (names: readonly DriveName[], curveOf: (name: DriveName) => Curve | undefined, by: Evaluate) =>
    changes((hours) =>
      names.reduce((total, name) => {
        const curve = curveOf(name);
        return curve ? total + by(curve, hours) : total;
      }, 0),
    );
  const of = (names: readonly DriveName[], probe: number): ProbeTaps => {
    const at = (part: 'value' | 'x' | 'y' | 'depth') => (name: DriveName) =>
      responses.drives[name][probe]?.[part];
    return {
      value: sum(names, at('value'), value),
      x: sum(names, at('x'), value),
      y: sum(names, at('y'), value),
      depth: sum(names, at('depth'), value),
      faster: sum(names, at('value'), faster),
      aroundBetter: sum(names, (name) => responses.ground[name]?.[probe], value),
    };
  };
  const each = <T>(make: (probe: number) => T): T[] =>
    Array.from({ length: probes }, (_, probe) => make(probe));
  const alone = (name: DriveName) =>
    each((probe) => sum([name], (of) => responses.drives[of][probe]?.value, value));
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

/** A response to something that has acted for some steps: value, and change for each unit of speed and of the ground. */
export function sinceStep(
  responses: Responses,
  name: DriveName,
  probe: number,
  steps: number,
  speed: number,
): { value: number; x: number; y: number; depth: number; faster: number; aroundBetter: number } {
  const drive = responses.drives[name][probe];
  if (!drive) return { value: 0, x: 0, y: 0, depth: 0, faster: 0, aroundBetter: 0 };
  const hours = (steps + 0.5) * STEP_h * speed;
  const ground = (GROUND_DRIVES as readonly string[]).includes(name)
    ? responses.ground[name]?.[probe]
    : undefined;
  return {
    value: drive.value.at(hours),
    x: drive.x.at(hours),
    y: drive.y.at(hours),
    depth: drive.depth.at(hours),
    faster: drive.value.perFaster(hours),
    aroundBetter: ground?.at(hours) ?? 0,
  };
}
