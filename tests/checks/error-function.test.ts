/** Error function against tabulated values, and against arithmetic in 40 digits. */
import { errorFunction } from 'simple-statistics';
import { expect, test } from 'vitest';
import { erf, erfc, fourTimesTwiceIntegratedErfc } from '../../services/core/physics/index.js';

// Tabulated to six places (as in textbooks of heat conduction) [recomputed with scipy].
test.each([
  [0.1, 0.112463],
  [0.2, 0.222703],
  [0.25, 0.276326],
  [0.5, 0.5205],
  [0.75, 0.711156],
  [1, 0.842701],
  [1.5, 0.966105],
  [2, 0.995322],
])('erf(%d) is %d', (x, tabulated) => {
  expect(Math.abs(erf(x) - tabulated)).toBeLessThan(5.1e-7);
});

// x, erfc(x), 4 i2erfc(x) = (1 + 2 x^2) erfc(x) - 2 x exp(-x^2) / sqrt(pi) [computed with mpmath, 40 digits].
const DIGITS = [
  [0.001, 0.9988716212090307, 0.9977452409135563],
  [0.1, 0.8875370839817152, 0.7935726649824557],
  [0.5, 0.4795001221869535, 0.2798588938127078],
  [1, 0.15729920705028513, 0.05679012373026069],
  [1.4375, 0.042059393943539934, 0.010467071497915167],
  [1.49, 0.03510213515679579, 0.008378033978335014],
  [1.5, 0.033894853524689274, 0.008026260550346944],
  [2, 0.004677734981047266, 0.0007656441212412848],
  [3, 2.209049699858544e-5, 1.9602871328798246e-6],
  [4, 1.541725790028002e-8, 8.401238345782913e-10],
  [6, 2.1519736712498913e-17, 5.6003646286176e-19],
  [10, 2.088487583762545e-45, 2.0381200829807148e-47],
  [20, 5.395865611607901e-176, 1.3406124331722058e-178],
  [26, 5.663192408856143e-296, 8.346690060466752e-299],
] as const;

test.each(DIGITS)('at %d the complement is %d, twice integrated %d', (x, complement, integrated) => {
  expect(Math.abs(erfc(x) / complement - 1)).toBeLessThan(1e-13);
  expect(Math.abs(erf(x) - (1 - complement))).toBeLessThan(1e-15);
  expect(Math.abs(fourTimesTwiceIntegratedErfc(x) / integrated - 1)).toBeLessThan(1e-12);
});

test('the usual one-line formula is 1e-7 off: the reason for having our own', () => {
  const worst = Math.max(...DIGITS.map(([x, complement]) => Math.abs(errorFunction(x) - (1 - complement))));
  expect(worst).toBeGreaterThan(1e-9);
  expect(worst).toBeLessThan(1.5e-7);
});
