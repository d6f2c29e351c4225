/** Heat of respiration against the remembered tables and the working curve computed from them. */
import { describe, expect, test } from 'vitest';
import {
  HEAT_OF_CARBON_DIOXIDE_W_t,
  heatOfCarbonDioxide_W_t,
  ROOT_CONDUCTIVITY_W_mK,
  ROOT_DENSITY_kg_m3,
  ROOT_DIFFUSIVITY_m2_s,
  ROOT_HEAT_CAPACITY_J_kgK,
  respiration_W_kg,
} from '../../services/core/physics/index.js';

describe('heat with each mg of CO2', () => {
  // Combustion of glucose, kJ/mol [2805 weak, 2817 to 2820 computed], over six CO2 of 44.01 g an hour, W/t.
  test.each([2805, 2817, 2820])('from %d kJ/mol', (enthalpy) => {
    const W_t = enthalpy / (6 * 44.01) / 3.6;
    expect(Math.abs(HEAT_OF_CARBON_DIOXIDE_W_t / W_t - 1)).toBeLessThan(0.007);
  });

  test('61 kcal a metric ton and 220 Btu a short ton, a day (USDA Agriculture Handbook 66, from memory)', () => {
    expect(Math.abs((61 * 4184) / 86_400 / HEAT_OF_CARBON_DIOXIDE_W_t - 1)).toBeLessThan(0.006);
    expect(Math.abs((220 * 1055.06) / 86_400 / 0.907185 / HEAT_OF_CARBON_DIOXIDE_W_t - 1)).toBeLessThan(
      0.004,
    );
  });

  test.each([
    [16, 47.5],
    [23, 68.4],
    [28.6, 84.9],
    [54, 160.5],
    [73, 217.3],
  ])('%d mg/(kg h) is %d W/t (remembered columns)', (mg_kg_h, W_t) => {
    expect(Math.abs(heatOfCarbonDioxide_W_t(mg_kg_h) / W_t - 1)).toBeLessThan(0.005);
  });
});

describe('working curve, W/t [computed from 20 mg times 2.97 = 59.4, whole W/t]', () => {
  /** 59 instead of 59.4, and half of the last place. */
  const tolerance_W_t = (W_t: number): number => 0.007 * W_t + 0.5;

  test.each([
    [12, 48],
    [15, 59],
    [18, 73],
    [20, 84],
    [22, 97],
    [25, 119],
    [28, 146],
    [30, 168],
    [33, 207],
  ])('cured at %d °C: %d', (root_C, W_t) => {
    expect(Math.abs(respiration_W_kg(root_C) * 1000 - W_t)).toBeLessThan(tolerance_W_t(W_t));
  });

  test.each([
    [15, 86],
    [20, 122],
    [25, 172],
    [30, 244],
  ])('uncured at %d °C: %d', (root_C, W_t) => {
    expect(Math.abs(respiration_W_kg(root_C, 'uncured') * 1000 - W_t)).toBeLessThan(1);
  });

  test('59 mW/kg at 15 °C and twice that at 25 °C, to the digit', () => {
    expect(respiration_W_kg(15)).toBe(0.059);
    expect(respiration_W_kg(25)).toBe(0.118);
  });
});

test('flesh of the roots: conductivity, diffusivity, heat capacity (Farinu & Baik 2007, abstract) and density', () => {
  expect(ROOT_CONDUCTIVITY_W_mK).toBe(0.49);
  expect(ROOT_DIFFUSIVITY_m2_s).toBe(1.2e-7);
  expect(ROOT_HEAT_CAPACITY_J_kgK).toBe(3660);
  // Middle of 1030 to 1150, whole fresh roots [from memory].
  expect(ROOT_DENSITY_kg_m3).toBe((1030 + 1150) / 2);
  // The measured four belong together: k / (rho c) with the flesh's own 1212 kg/m3, within the spread of c, 13 %.
  const computed = ROOT_CONDUCTIVITY_W_mK / (1212 * ROOT_HEAT_CAPACITY_J_kgK);
  expect(Math.abs(computed / ROOT_DIFFUSIVITY_m2_s - 1)).toBeLessThan(0.13);
});
