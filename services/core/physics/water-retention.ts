/**
 * How much water drained sand keeps against a suction, and how readily it lets water through.
 *
 * Source: van Genuchten 1980 (closed form, m = 1 - 1/n, with Mualem's conductivity; from memory), parameters
 * of Carsel & Parrish 1988 (seen in two public model configurations). The residual content is a fitted constant:
 * the curve means nothing drier than that.
 */
import { requireInDomain } from '../errors.js';

export interface RetentionCurve {
  /** m3/m3 */
  readonly residual: number;
  /** m3/m3 */
  readonly saturated: number;
  /** 1/cm */
  readonly alpha_per_cm: number;
  readonly n: number;
  /** Of the saturated soil, cm/d. */
  readonly conductivity_cm_d: number;
}

/** Carsel & Parrish 1988. */
export const RETENTION_CURVES = {
  sand: { residual: 0.045, saturated: 0.43, alpha_per_cm: 0.145, n: 2.68, conductivity_cm_d: 712.8 },
  'loamy sand': { residual: 0.057, saturated: 0.41, alpha_per_cm: 0.124, n: 2.28, conductivity_cm_d: 350.2 },
  'sandy loam': { residual: 0.065, saturated: 0.41, alpha_per_cm: 0.075, n: 1.89, conductivity_cm_d: 106.1 },
  loam: { residual: 0.078, saturated: 0.43, alpha_per_cm: 0.036, n: 1.56, conductivity_cm_d: 24.96 },
} as const satisfies Readonly<Record<string, RetentionCurve>>;

/** 15,000 cm is the wilting point; beyond it water is film, and the curve says nothing. cm. */
const GREATEST_SUCTION_cm = 15_000;

/**
 * Share of the pores' drainable water that is left.
 *
 * @param suction_cm height of the water column that pulls, 0 to 15,000 cm
 * @returns above 0 to 1
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function effectiveSaturation(curve: RetentionCurve, suction_cm: number): number {
  requireInDomain('suction, cm,', suction_cm, 0, GREATEST_SUCTION_cm);
  const { alpha_per_cm, n } = curve;
  return (1 + (alpha_per_cm * suction_cm) ** n) ** (1 / n - 1);
}

/**
 * Water content at a suction.
 *
 * @param suction_cm 0 to 15,000 cm
 * @returns m3/m3
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function waterContentAt(curve: RetentionCurve, suction_cm: number): number {
  const saturation = effectiveSaturation(curve, suction_cm);
  return saturation * curve.saturated + (1 - saturation) * curve.residual;
}

/**
 * Suction that leaves a water content: the inverse of `waterContentAt`.
 *
 * @param waterContent m3/m3, above the residual and up to the saturated content
 * @returns cm, 0 to 15,000
 * @throws SandlarderError OUT_OF_DOMAIN also where the suction would be beyond 15,000 cm
 */
export function suctionAt_cm(curve: RetentionCurve, waterContent: number): number {
  const { residual, saturated, alpha_per_cm, n } = curve;
  requireInDomain('water content, m3/m3,', waterContent, residual, saturated);
  const saturation = (waterContent - residual) / (saturated - residual);
  const suction_cm = (saturation ** (n / (1 - n)) - 1) ** (1 / n) / alpha_per_cm;
  requireInDomain('suction, cm,', suction_cm, 0, GREATEST_SUCTION_cm);
  return suction_cm;
}

/**
 * Hydraulic conductivity over that of the saturated soil (Mualem).
 *
 * @param saturation effective saturation, 0..1
 * @returns 0..1
 * @throws SandlarderError OUT_OF_DOMAIN
 */
export function relativeConductivity(curve: RetentionCurve, saturation: number): number {
  requireInDomain('effective saturation', saturation, 0, 1);
  const m = 1 - 1 / curve.n;
  return Math.sqrt(saturation) * (1 - (1 - saturation ** (1 / m)) ** m) ** 2;
}
