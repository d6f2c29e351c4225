/** A whole question about a bed as data, with its whole answer: both can go between threads. */
import type { Point } from '../warmth/responses.js';
import { coverageOf } from './coverage.js';
import type { BedShape } from './learned.js';
import { nextProbe } from './next-probe.js';
import type { Coverage, CoverageQuestion, ProbePlace } from './types.js';

export interface CoverageTask {
  readonly bed: BedShape;
  /** Of the probes, cm from the north-west corner of the opening. */
  readonly points: readonly Point[];
  readonly question: CoverageQuestion;
  /** Whether it is asked where the next probe would help most: costs some seconds more. */
  readonly next: boolean;
}

export interface CoverageAnswer {
  readonly coverage: Coverage;
  /** Absent where it was not asked; null where none would add anything. */
  readonly next?: ProbePlace | null;
}

/** @throws SandlarderError as `coverageOf` */
export function answerOf({ bed, points, question, next }: CoverageTask): CoverageAnswer {
  const coverage = coverageOf(bed, points, question);
  return next ? { coverage, next: nextProbe(bed, points, question) ?? null } : { coverage };
}
