/** What is said of a sand as it is given out: one level of words, units in the keys. */
import type { SandCooling } from './sand-cooling.js';
import type { DryingState } from './sand-drying.js';
import type { GradationPoint } from './sand-gradation.js';
import type { GrainSize, PercentRange } from './sand-grains.js';
import type { SandMoisture } from './sand-moisture.js';
import type { SandReport } from './sand-report.js';
import type { SandCheck, SandJudgement, SandVerdict } from './sand-verdict.js';

export interface GrainsDocument {
  verdict: SandVerdict;
  /** In plain words. */
  plain: string;
  sentence: string;
  D10: GrainSize;
  D30: GrainSize;
  D50: GrainSize;
  D60: GrainSize;
  Cu: number | null;
  Cc: number | null;
  fines_percent: PercentRange;
  gravel_percent: PercentRange;
  USCS: string[];
  USCS_remark: string;
  Wentworth: string | null;
  /** Saturated, for water, by Hazen; null where that does not hold. */
  conductivity_m_s: number | null;
  conductivity_remark: string;
  loss_percent: number | null;
  sum_g: number;
  finer: Pick<GradationPoint, 'opening_mm' | 'finer_percent'>[];
  checks: SandCheck[];
}

export interface SandDocument {
  grains?: GrainsDocument | undefined;
  moisture?:
    | (Omit<SandMoisture, 'limits' | 'contributions' | 'possible'> & {
        drying: DryingState;
        limits: SandMoisture['limits'][number][];
      })
    | undefined;
  cooling?: (Omit<SandCooling, 'least_s'> & { least_h: number }) | undefined;
  cautions: string[];
}

/** A report as it is shown: each figure with its unit in its key; what was not measured is absent. */
export function sandDocument(report: SandReport): SandDocument {
  const { grains, plain = '', moisture, drying = 'unknown', cooling, cautions } = report;
  return {
    ...(grains && { grains: grainsDocument(grains, plain) }),
    ...(moisture && { moisture: moistureDocument(moisture, drying) }),
    ...(cooling && { cooling: coolingDocument(cooling) }),
    cautions: [...cautions],
  };
}

function moistureDocument(
  { contributions: _, possible: __, limits, ...rest }: SandMoisture,
  drying: DryingState,
): NonNullable<SandDocument['moisture']> {
  return { ...rest, drying, limits: [...limits] };
}

const coolingDocument = ({ least_s, ...rest }: SandCooling): NonNullable<SandDocument['cooling']> => ({
  ...rest,
  least_h: least_s / 3600,
});

function grainsDocument(judged: SandJudgement, plain: string): GrainsDocument {
  const { gradation, grains, unified, wentworth, flow, checks, verdict, sentence } = judged;
  return {
    ...{ verdict, plain, sentence },
    ...{ D10: grains.d10, D30: grains.d30, D50: grains.d50, D60: grains.d60 },
    ...{ Cu: grains.uniformity ?? null, Cc: grains.curvature ?? null },
    ...{ fines_percent: grains.fines, gravel_percent: grains.gravel },
    ...{ USCS: [...unified.symbols], USCS_remark: unified.remark, Wentworth: wentworth ?? null },
    conductivity_m_s: flow.is === 'known' ? flow.conductivity_m_s : null,
    conductivity_remark: flow.is === 'known' ? 'by Hazen, within a factor of some' : flow.reason,
    ...{ loss_percent: gradation.loss_percent ?? null, sum_g: gradation.sum_g },
    finer: gradation.points.map(({ opening_mm, finer_percent }) => ({ opening_mm, finer_percent })),
    checks: [...checks],
  };
}
