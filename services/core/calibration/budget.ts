/**
 * What the uncertainty of a corrected value is made of, component by component.
 *
 * Clauses are of JCGM 100:2008. Clause numbers from memory, except H.3.
 */
import { requireInDomain } from '../errors.js';
import type { CalibrationFit } from '../model/calibration.js';
import { polynomialUncertaintyAt } from './polynomial.js';

/**
 * - `fit` the fitted correction at this value
 * - `reference` what all references share
 * - `resolution` the step in which the probe tells its values
 * - `repeatability` one reading of the probe
 */
export type ComponentName = 'fit' | 'reference' | 'resolution' | 'repeatability';

export interface UncertaintyComponent {
  readonly name: ComponentName;
  /** In °C or %RH. */
  readonly standardUncertainty: number;
  readonly distribution: 'normal' | 'rectangular';
  readonly clause: string;
  /** Absent where the uncertainty was known beforehand, and not found from the scatter of a few points. */
  readonly degreesOfFreedom?: number;
}

export interface UncertaintyBudget {
  /** Only what is known: a probe of unknown resolution has no component for it. */
  readonly components: readonly UncertaintyComponent[];
  /** Root of the sum of squares [5.1.2]. */
  readonly standardUncertainty: number;
  /** k = 2 [6.2.1]: about 95 % where the degrees of freedom are absent or many. */
  readonly expandedUncertainty: number;
  /** Welch-Satterthwaite [G.4.1]; absent where nothing rests on the scatter of a few points. */
  readonly effectiveDegreesOfFreedom?: number;
}

/** Coverage factor of `expandedUncertainty`: convention [JCGM 100 6.3.3]. */
export const COVERAGE_FACTOR = 2;

/** Half a step of a rectangular distribution, over the root of 3: step / sqrt(12) [JCGM 100 F.2.2.1]. */
const STEP_TO_DEVIATION = 1 / Math.sqrt(12);

/**
 * Budget of a corrected value.
 *
 * @param indicated finite, in the unit of the fit
 * @param readings that the value is the mean of, at least 1: only repeatability lessens with them
 * @remarks Where a probe's steps are coarse its scatter holds some of them as well: counted twice, to the safe side.
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function budgetAt(fit: CalibrationFit, indicated: number, readings = 1): UncertaintyBudget {
  requireInDomain('readings in the mean', readings, 1, Number.MAX_SAFE_INTEGER);
  const components = componentsAt(fit, indicated, readings);
  const standardUncertainty = Math.hypot(...components.map((component) => component.standardUncertainty));
  const effective = effectiveDegreesOfFreedom(components, standardUncertainty);
  return {
    components,
    standardUncertainty,
    expandedUncertainty: COVERAGE_FACTOR * standardUncertainty,
    ...(effective === undefined ? {} : { effectiveDegreesOfFreedom: effective }),
  };
}

function componentsAt(fit: CalibrationFit, indicated: number, readings: number): UncertaintyComponent[] {
  const { resolution, repeatability } = fit;
  const components: UncertaintyComponent[] = [
    {
      name: 'fit',
      standardUncertainty: polynomialUncertaintyAt(fit, indicated),
      distribution: 'normal',
      clause: '5.2.2, H.3.4',
      ...(restsOnScatter(fit) ? { degreesOfFreedom: fit.degreesOfFreedom } : {}),
    },
    {
      name: 'reference',
      standardUncertainty: fit.commonUncertainty,
      distribution: 'normal',
      clause: '4.3.3',
    },
  ];
  if (resolution !== undefined)
    components.push({
      name: 'resolution',
      standardUncertainty: resolution * STEP_TO_DEVIATION,
      distribution: 'rectangular',
      clause: 'F.2.2.1',
    });
  if (repeatability !== undefined)
    components.push({
      name: 'repeatability',
      standardUncertainty: repeatability / Math.sqrt(readings),
      distribution: 'normal',
      clause: '4.2.2',
    });
  return components;
}

const restsOnScatter = ({ weighting, birgeRatio }: CalibrationFit): boolean =>
  weighting === 'ordinary' || (birgeRatio ?? 0) > 1;

/** u^4 over the sum of u_i^4 / nu_i. */
function effectiveDegreesOfFreedom(
  components: readonly UncertaintyComponent[],
  standardUncertainty: number,
): number | undefined {
  let sum = 0;
  for (const { standardUncertainty: own, degreesOfFreedom } of components)
    if (degreesOfFreedom !== undefined) sum += own ** 4 / degreesOfFreedom;
  return sum > 0 ? standardUncertainty ** 4 / sum : undefined;
}
