/**
 * How readily sand lets water and air through, from its D10.
 *
 * Source: Hazen, K in cm/s = C d10^2 with d10 in cm, C 100 (seen; 40 to 150 from memory) for d10 from 0.1 to 2.5 mm
 * (seen) and clean sand of Cu below 5 (from memory), in water of 10 °C (from memory). It is right within a factor of
 * some, not to a digit.
 */
import { requireInDomain } from '../errors.js';
import { type GrainSize, type Grains, sizeText } from './sand-grains.js';
import { inDigits } from './sand-words.js';

const HAZEN = { usual: 100, low: 40, high: 150 } as const;
const D10_mm = { least: 0.1, most: 2.5 } as const;
const UNIFORMITY_BELOW = 5;

/** Of water at 10 °C over its density and gravity, m s: 1.307e-3 Pa s (from memory), 999.7 kg/m3, 9.80665 m/s2. */
const VISCOSITY_OVER_WEIGHT_m_s = 1.307e-3 / (999.7 * 9.80665);

export type SandFlow =
  | {
      readonly is: 'known';
      /** Of saturated sand for water. */
      readonly conductivity_m_s: number;
      /** With the least and the greatest C. */
      readonly low_m_s: number;
      readonly high_m_s: number;
      /** Of dry sand for air: the same pores. */
      readonly permeability_m2: number;
    }
  | { readonly is: 'unknown'; readonly reason: string };

/**
 * Conductivity of saturated sand for water.
 *
 * @param d10_mm 0.1 to 2.5 mm
 * @param coefficient 40 to 150
 * @returns m/s
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function hazenConductivity_m_s(d10_mm: number, coefficient: number = HAZEN.usual): number {
  requireInDomain('D10, mm,', d10_mm, D10_mm.least, D10_mm.most);
  requireInDomain('coefficient of Hazen', coefficient, HAZEN.low, HAZEN.high);
  const d10_cm = d10_mm / 10;
  return (coefficient * d10_cm * d10_cm) / 100;
}

/** Conductivity and permeability where Hazen's formula holds, and else why it does not. */
export function flowOf({ d10, uniformity }: Grains): SandFlow {
  const reason = whyNot(d10, uniformity);
  if (reason !== undefined) return { is: 'unknown', reason };
  const conductivity_m_s = hazenConductivity_m_s(d10.mm);
  return {
    is: 'known',
    conductivity_m_s,
    low_m_s: hazenConductivity_m_s(d10.mm, HAZEN.low),
    high_m_s: hazenConductivity_m_s(d10.mm, HAZEN.high),
    permeability_m2: conductivity_m_s * VISCOSITY_OVER_WEIGHT_m_s,
  };
}

function whyNot(d10: GrainSize, uniformity: number | undefined): string | undefined {
  if (!(d10.is === 'known' && d10.mm >= D10_mm.least && d10.mm <= D10_mm.most))
    return `Hazen's formula holds for D10 from 0.1 to 2.5 mm, got ${sizeText(d10)}`;
  if (!(uniformity !== undefined && uniformity < UNIFORMITY_BELOW))
    return `Hazen's formula holds for Cu below 5, got ${uniformity === undefined ? 'none' : inDigits(uniformity)}`;
  return undefined;
}
