/** Bench work finished probe by probe: what came of those that are done, and what is still to be done. */
import { SandlarderError } from '../errors.js';
import type { Bench } from '../model/bench.js';
import { requireOnBench, requireOpenAt } from './bench.js';

/** What came of a probe. */
export interface FinishedProbe {
  readonly probe: string;
  readonly calibration: string;
}

/**
 * Notes what came of probes. The bench stays open for the others; it ends once all are finished, or where it is closed.
 *
 * @throws SandlarderError TOO_FEW_SAMPLES for none, unless a bench is closed of which something came before; CONFLICT
 * for a probe that is finished already, a bench that has ended, and a time before what was done last; BAD_REQUEST for a
 * stranger; OUT_OF_DOMAIN for a time that is none
 */
export function finished(bench: Bench, made: readonly FinishedProbe[], at: number, close = false): Bench {
  requireOpenAt(bench, at);
  const probes = made.map(({ probe }) => probe);
  requireUnfinished(bench, probes);
  const calibrations = [...bench.calibrations, ...made.map(({ calibration }) => calibration)];
  if (!(made.length >= 1 || (close && calibrations.length >= 1)))
    throw new SandlarderError(
      'TOO_FEW_SAMPLES',
      `bench ${bench.id}: expected a calibration to finish with, got none`,
    );
  const after = { ...bench, calibrations, finishedProbes: [...(bench.finishedProbes ?? []), ...probes] };
  return close || probesUnfinished(after).length === 0 ? { ...after, state: 'finished', endedAt: at } : after;
}

/** Probes of which nothing has come yet. */
export function probesUnfinished({ probes, finishedProbes = [] }: Bench): readonly string[] {
  return probes.filter((probe) => !finishedProbes.includes(probe));
}

/** Refuses probes that are not on the bench, and those that are finished already, by name. */
export function requireUnfinished(bench: Bench, probes: readonly string[]): void {
  requireOnBench(bench, probes);
  const again = probes.filter((probe) => bench.finishedProbes?.includes(probe));
  if (again.length > 0)
    throw new SandlarderError(
      'CONFLICT',
      `bench ${bench.id}: expected probes that are not finished yet, but ${again.join(', ')} ${again.length === 1 ? 'is' : 'are'} finished already`,
    );
}
