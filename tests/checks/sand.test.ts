/** Sand against published tables of its thermal properties, of the water that it keeps, and of the air beside that. */
import { describe, expect, test } from 'vitest';
import {
  conductivityOfSand_W_mK,
  DAY_s,
  dampingDepth_m,
  dampnessOf,
  diffusivityOfSand_m2_s,
  dryConductivityOfSand_W_mK,
  effectiveSaturation,
  heatCapacityOfSand_J_m3K,
  kerstenNumber,
  mediumOfBed,
  poreAirHumidity,
  RETENTION_CURVES,
  relativeConductivity,
  saturatedConductivityOfSand_W_mK,
  WILTING_POINT_Pa,
  waterContentAt,
  waterContentFromMass,
  waterDensity_kg_m3,
  waterPotential_Pa,
} from '../../services/core/physics/index.js';

// Table after de Vries 1963 and Smits et al. 2010, in a textbook on transport in soil [seen]: porosity, water content;
// conductivity W/(m K), heat capacity MJ/(m3 K), diffusivity 1e-6 m2/s.
const SANDY_SOIL = [
  { porosity: 0.4, water: 0, k: 0.24, capacity: 1.28, kappa: 0.19, reads: 'dry' },
  { porosity: 0.4, water: 0.2, k: 2.1, capacity: 2.12, kappa: 0.99, reads: 'wet' },
  { porosity: 0.4, water: 0.4, k: 2.5, capacity: 2.96, kappa: 0.85, reads: 'wet' },
  { porosity: 0.33, water: 0, k: 0.29, capacity: 1.42, kappa: 0.2, reads: 'dry' },
  { porosity: 0.33, water: 0.15, k: 2.5, capacity: 2.05, kappa: 1.2, reads: 'wet' },
  { porosity: 0.33, water: 0.33, k: 2.9, capacity: 2.81, kappa: 1.0, reads: 'wet' },
] as const;

describe('thermal properties', () => {
  /** As the source file states it; Johansen's own are +-20 % dry and, from memory, +-25 % moist. */
  const conductivityTolerance = (water: number, porosity: number): number =>
    water === porosity ? 0.15 : 0.07;

  test.each(SANDY_SOIL)('porosity $porosity, water $water: $k, $capacity, $kappa', (row) => {
    const { porosity, water, k, capacity, kappa } = row;
    const tolerance = conductivityTolerance(water, porosity);
    expect(Math.abs(conductivityOfSand_W_mK(porosity, water) / k - 1)).toBeLessThan(tolerance);
    expect(Math.abs(heatCapacityOfSand_J_m3K(porosity, water) / 1e6 - capacity)).toBeLessThan(0.011);
    // The printed diffusivities are up to 3.5 % off the quotient of the printed conductivity and heat.
    expect(Math.abs(diffusivityOfSand_m2_s(porosity, water) / (kappa * 1e-6) - 1)).toBeLessThan(
      tolerance + 0.035,
    );
  });

  // Johansen's dry formula as quoted from Farouki 1986, 3.3.2 [formula seen; values computed], kg/m3, W/(m K).
  test.each([
    [1400, 0.185],
    [1500, 0.209],
    [1600, 0.237],
    [1700, 0.27],
    [1800, 0.309],
  ])('dry, %d kg/m3: %d', (density, k) => {
    expect(Math.abs(dryConductivityOfSand_W_mK(density) - k)).toBeLessThan(0.00051);
  });

  // At 1600 kg/m3, by mass: Kersten number of coarse soil [formula from memory, values computed, two to three
  // digits, perhaps with another density of the grains], W/(m K).
  test.each([
    [0.02, 0.84],
    [0.03, 1.15],
    [0.05, 1.55],
    [0.1, 2.1],
  ])('1600 kg/m3 with %d of water: %d', (byMass, k) => {
    const porosity = 1 - 1600 / 2660;
    const water = waterContentFromMass(porosity, byMass);
    expect(Math.abs(conductivityOfSand_W_mK(porosity, water) / k - 1)).toBeLessThan(0.012);
  });

  // Farouki 1982 (CRREL 82-8), 100 % sand, ranges to one place [reproduced table seen]: kg/m3, by mass, W/(m K).
  test.each([
    [1600, 0.05, 1.4, 2.4],
    [1600, 0.1, 2.1, 2.6],
    [1600, 0.15, 2.3, 2.8],
    [1300, 0.05, 0.9, 1.9],
  ])('%d kg/m3 with %d of water: %d to %d', (density, byMass, low, high) => {
    const porosity = 1 - density / 2660;
    const k = conductivityOfSand_W_mK(porosity, waterContentFromMass(porosity, byMass));
    expect(k).toBeGreaterThan(low - 0.05);
    expect(k).toBeLessThan(high + 0.05);
  });

  test('2.5 % of moisture at porosity 0.4 more than doubles the dry diffusivity (ASME J. Solar Energy Eng. 110, 306)', () => {
    expect(diffusivityOfSand_m2_s(0.4, 0.025) / diffusivityOfSand_m2_s(0.4, 0)).toBeGreaterThan(2);
  });

  test('coefficients are as printed', () => {
    // 0.7 lg 0.5 + 1; 7.7^0.6 0.6^0.4 = exp(0.6 ln 7.7 + 0.4 ln 0.6); (0.6 2.13 + 0.2 4.18) 1e6.
    expect(Math.abs(dryConductivityOfSand_W_mK(1600) - 0.236917623228)).toBeLessThan(1e-11);
    expect(Math.abs(kerstenNumber(0.5) - 0.789279)).toBeLessThan(1e-7);
    expect(Math.abs(saturatedConductivityOfSand_W_mK(0.4) - 2.77431)).toBeLessThan(1e-5);
    expect(Math.abs(heatCapacityOfSand_J_m3K(0.4, 0.2) - 2.114e6)).toBeLessThan(1);
  });

  test('the daily wave reaches 7.2 to 7.4 cm in dry and 16 to 18 cm in moist sand, within 4 % [computed from the table]', () => {
    const depth_cm = (porosity: number, water: number): number =>
      dampingDepth_m(diffusivityOfSand_m2_s(porosity, water), DAY_s) * 100;
    for (const found of [depth_cm(0.4, 0), depth_cm(0.33, 0)]) {
      expect(found).toBeGreaterThan(7.2 * 0.96);
      expect(found).toBeLessThan(7.4 * 1.04);
    }
    for (const found of [depth_cm(0.4, 0.2), depth_cm(0.33, 0.15)]) {
      expect(found).toBeGreaterThan(16 * 0.96);
      expect(found).toBeLessThan(18 * 1.04);
    }
  });
});

describe('dampness', () => {
  test.each(SANDY_SOIL)('$kappa e-6 m2/s reads $reads', ({ kappa, reads }) => {
    expect(dampnessOf(kappa * 1e-6)).toBe(reads);
  });

  // Oke 1987 and van Wijk & de Vries 1963 [from memory].
  test.each([
    [0.234, 'dry'],
    [0.743, 'wet'],
    [0.233, 'dry'],
    [0.84, 'wet'],
  ])('%d e-6 m2/s reads %s', (kappa, reads) => {
    expect(dampnessOf(kappa * 1e-6)).toBe(reads);
  });

  test('limits of sand alone are 0.310 and 0.583e-6 m2/s [computed apart from the program]', () => {
    for (const [limit, drier, wetter] of [
      [0.30978e-6, 'dry', 'damp'],
      [0.5832e-6, 'damp', 'wet'],
    ] as const) {
      expect(dampnessOf(limit - 1e-10)).toBe(drier);
      expect(dampnessOf(limit + 1e-10)).toBe(wetter);
    }
  });

  test('formulas of the bed are as printed', () => {
    // Porosity 0.4, one part of roots in five, dry and with 0.1 of water [computed with mpmath, apart from the program].
    for (const [water, k, kappa] of [
      [0, 0.275204025003, 1.4964331092e-7],
      [0.1, 1.40457410418, 6.46236781875e-7],
    ] as const) {
      const bed = mediumOfBed(0.4, water, 0.2);
      expect(Math.abs(bed.conductivity_W_mK / k - 1)).toBeLessThan(1e-10);
      expect(Math.abs(bed.diffusivity_m2_s / kappa - 1)).toBeLessThan(1e-10);
    }
  });

  test('a dry bed with one part of roots in five has 0.28 to 0.35 W/(m K), +-3 % [computed for the storage notes]', () => {
    const { conductivity_W_mK, diffusivity_m2_s } = mediumOfBed(0.4, 0, 0.2);
    expect(conductivity_W_mK).toBeGreaterThan(0.28 * 0.97);
    expect(conductivity_W_mK).toBeLessThan(0.35);
    // Its heat: 0.8 * 1.28 + 0.2 * 3.9 = 1.8 MJ/(m3 K) [computed there, two places].
    expect(Math.abs(conductivity_W_mK / diffusivity_m2_s / 1.8e6 - 1)).toBeLessThan(0.03);
  });
});

describe('water between the grains', () => {
  // Kelvin relation with the density of CoolProp [computed]: MPa, °C, %RH.
  test.each([
    [-0.033, 20, 99.9756],
    [-0.1, 20, 99.926],
    [-1.5, 20, 98.8955],
    [-10, 20, 92.863],
    [-100, 20, 47.6899],
    [-1.5, 10, 98.8584],
    [-1.5, 25, 98.9126],
    [-1.5, 30, 98.929],
  ])('at %d MPa and %d °C: %d %RH', (potential_MPa, t, published_RH) => {
    expect(Math.abs(poreAirHumidity(potential_MPa * 1e6, t) * 100 - published_RH)).toBeLessThan(0.0003);
  });

  // The same at 25 °C [computed for the storage notes], to the places given: MPa, %RH.
  test.each([
    [-0.1, 99.93, 2],
    [-1.5, 98.9, 1],
    [-3.1, 97.8, 1],
    [-7, 95, 1],
    [-14.5, 90, 1],
    [-30, 80, 0],
    [-50, 69, 0],
    [-95, 50, 0],
  ])('at %d MPa: %d %RH', (potential_MPa, published_RH, places) => {
    const found_RH = poreAirHumidity(potential_MPa * 1e6, 25) * 100;
    expect(Math.abs(found_RH - published_RH)).toBeLessThan(0.51 * 10 ** -places);
    expect(Math.abs(waterPotential_Pa(found_RH / 100, 25) / (potential_MPa * 1e6) - 1)).toBeLessThan(1e-9);
  });

  // Density of water [from memory: 999.97 at 4, 998.207 at 20, 997.047 at 25, 995.65 at 30, 992.22 at 40 °C], kg/m3.
  test.each([
    [4, 999.975],
    [20, 998.207],
    [25, 997.047],
    [30, 995.649],
    [40, 992.215],
  ])('water of %d °C has %d kg/m3', (t, published) => {
    expect(Math.abs(waterDensity_kg_m3(t) - published)).toBeLessThan(0.005);
  });

  test.each([
    [10, 999.7027016288],
    [25, 997.0470216718],
    [40, 992.2152091324],
  ])('the formula at %d °C, to the digit [computed with mpmath]', (t, exact) => {
    expect(Math.abs(waterDensity_kg_m3(t) - exact)).toBeLessThan(1e-9);
  });

  test('the wilting point is -1.5 MPa', () => {
    expect(WILTING_POINT_Pa).toBe(-1_500_000);
  });

  // Carsel & Parrish 1988, sand [parameters seen in two repositories; contents computed]: cm, m3/m3.
  const { sand } = RETENTION_CURVES;
  test.each([
    [0, 0.43],
    [1, 0.42864],
    [5, 0.3537],
    [10, 0.21434],
    [20, 0.10714],
    [30, 0.07718],
    [50, 0.05876],
    [100, 0.04931],
    [330, 0.04558],
    [1000, 0.04509],
    [15_000, 0.045],
  ])('sand at %d cm of suction keeps %d', (suction_cm, content) => {
    expect(Math.abs(waterContentAt(sand, suction_cm) - content)).toBeLessThan(0.0000051);
  });

  test('effective saturation 0.439855 at 10 cm', () => {
    expect(Math.abs(effectiveSaturation(sand, 10) - 0.439855)).toBeLessThan(5.1e-7);
  });

  test.each([
    [10, 0.0212212],
    [50, 1.8034e-6],
    [100, 2.473e-8],
  ])('at %d cm it lets through %d of what it does when saturated', (suction_cm, published) => {
    const found = relativeConductivity(sand, effectiveSaturation(sand, suction_cm));
    expect(Math.abs(found / published - 1)).toBeLessThan(3e-5);
  });

  test('parameters are as published, for all four soils', () => {
    expect(RETENTION_CURVES).toEqual({
      sand: { residual: 0.045, saturated: 0.43, alpha_per_cm: 0.145, n: 2.68, conductivity_cm_d: 712.8 },
      'loamy sand': {
        residual: 0.057,
        saturated: 0.41,
        alpha_per_cm: 0.124,
        n: 2.28,
        conductivity_cm_d: 350.2,
      },
      'sandy loam': {
        residual: 0.065,
        saturated: 0.41,
        alpha_per_cm: 0.075,
        n: 1.89,
        conductivity_cm_d: 106.1,
      },
      loam: { residual: 0.078, saturated: 0.43, alpha_per_cm: 0.036, n: 1.56, conductivity_cm_d: 24.96 },
    });
  });
});
