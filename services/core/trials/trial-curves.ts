/** The course of each treatment, by days since each bed was filled or by the calendar, for a figure. */
import { survivalOf } from '../keeping/index.js';
import { DAY_ms } from '../model/time.js';
import type { Trial } from '../model/trial.js';
import type { BedMaterial } from './outcome.js';
import { type BedCurve, type SummaryCurve, summaryCurves } from './summary-curve.js';

export const CURVES_OF = ['loss', 'excess'] as const;
export type CurvesOf = (typeof CURVES_OF)[number];
export const CURVES_BY = ['filling', 'calendar'] as const;
export type CurvesBy = (typeof CURVES_BY)[number];

export const CURVE_WORDS: Readonly<Record<CurvesOf, { readonly name: string; readonly unit: string }>> = {
  loss: { name: 'share of the roots lost', unit: '%' },
  excess: { name: 'highest excess of the day', unit: '°C' },
};

/** Between two looks a loss stands as it was found: it is read off each week. */
const STEP_days = 7;

/** Times are whole days: since the filling, or of the calendar (UTC) as ms. */
export function trialCurves(
  trial: Trial,
  materials: readonly BedMaterial[],
  of: CurvesOf,
  by: CurvesBy,
): SummaryCurve[] {
  return summaryCurves(
    materials.flatMap((material): BedCurve[] => {
      const { bed } = material;
      const treatment = trial.beds.find((one) => one.bed === bed)?.treatment;
      if (treatment === undefined) return [];
      return [{ bed, treatment, points: (of === 'loss' ? lossPoints : excessPoints)(material, by) }];
    }),
  );
}

type Points = BedCurve['points'];

/** Read off at times that beds share, up to the first of them at which the last look is known. */
function lossPoints({ filledAt, looks }: BedMaterial, by: CurvesBy): Points {
  const steps = survivalOf(filledAt, looks);
  const last = steps.at(-1);
  if (!last) return [];
  const step_ms = STEP_days * DAY_ms;
  const origin = by === 'filling' ? filledAt : Math.ceil(filledAt / step_ms) * step_ms;
  const points: { time: number; value: number }[] = [];
  for (let at = origin; at < filledAt + last.time * DAY_ms + step_ms; at += step_ms) {
    const day = (at - filledAt) / DAY_ms;
    const lost = 100 * (1 - (steps.findLast(({ time }) => time <= day)?.survival ?? 1));
    points.push({ time: by === 'filling' ? Math.round(day) : at, value: lost });
  }
  return points;
}

const excessPoints = ({ filledAt, excess }: BedMaterial, by: CurvesBy): Points =>
  excess.map(({ at, excess_C }) => ({
    time: by === 'filling' ? Math.max(0, Math.floor((at - filledAt) / DAY_ms)) : at,
    value: excess_C,
  }));
