/** Lines of a file of pairs that are left out, and files that take the place of a calibration. */
import { describe, expect, test } from 'vitest';
import type { PairsBody } from '../../services/http/index.js';
import { bodyOf, refusalOf } from '../support/calibrating.js';

import { expectNothingKept, GOOD, HEADER, kept, OF_P02, open, pairs } from '../support/pairs-files.js';

describe('a file of which something is to be left out, or that takes the place of a calibration', () => {
  const three = [HEADER, ...GOOD, 'p01,temperature,20,19,0.05'];

  test('leaves lines out by their number in the file, whatever stands beside them', () => {
    const station = open();
    const leaveOut = [
      { line: 5, probe: 'p01', reason: 'lid was open' },
      { line: 3, reason: 'spilt' },
    ];
    const lines = [HEADER, ...OF_P02, ...GOOD, 'p01,temperature,20,19,0.05'];
    const [damp, warm] = station.desk.pairs(pairs(lines, { leaveOut })).calibrations;
    expect(warm).toMatchObject({ probe: 'p01', fit: { range: [10, 20] } });
    expect(warm?.fit.leftOut).toMatchObject([{ index: 1, reason: 'lid was open' }]);
    expect(damp?.fit.leftOut).toMatchObject([{ index: 1, reason: 'spilt' }]);
    expect(warm?.points.map(({ label }) => label)).toEqual(['line 4', 'line 5', 'line 6']);
  });

  test.each<[string, Partial<PairsBody>, RegExp]>([
    [
      'a line that is none',
      { leaveOut: [{ line: 9, reason: 'x' }] },
      /^BAD_REQUEST: leaveOut: expected a line with a pair, got line 9$/,
    ],
    ['the header', { leaveOut: [{ line: 1, reason: 'x' }] }, /^BAD_REQUEST: leaveOut: .*got line 1$/],
    [
      'a line of another probe',
      { leaveOut: [{ line: 2, probe: 'p02', reason: 'x' }] },
      /^BAD_REQUEST: leaveOut: expected line 2 to be of probe p02, but it is of p01$/,
    ],
    [
      'a line twice',
      {
        leaveOut: [
          { line: 2, reason: 'x' },
          { line: 2, reason: 'y' },
        ],
      },
      /^OUT_OF_DOMAIN: point left out: expected each index once/,
    ],
    ['all lines', { leaveOut: [2, 3, 4].map((line) => ({ line, reason: 'x' })) }, /^TOO_FEW_SAMPLES: /],
    ['in the place of one that is none', { supersedes: 'none' }, /^CONFLICT: supersedes: /],
  ])('%s is refused', (_, change, sentence) => {
    const station = open();
    expect(refusalOf(() => station.desk.pairs(pairs(three, change)))).toMatch(sentence);
    expectNothingKept(station);
  });

  test('takes the place of a calibration, of one probe and quantity alone', () => {
    const station = open();
    const wrong = station.desk.add(bodyOf());
    const fixed = { supersedes: wrong.id };
    expect(refusalOf(() => station.desk.pairs(pairs([...three, ...OF_P02], fixed)))).toBe(
      'BAD_REQUEST: supersedes: expected a file of one probe and one quantity, got 2 of them: a calibration takes the place of one',
    );
    expect(kept(station)).toBe(1);
    const [right] = station.desk.pairs(pairs(three, fixed)).calibrations;
    expect(right).toMatchObject({ supersedes: wrong.id, from: wrong.from });
    expect(station.desk.supersededBy(wrong)).toBe(right?.id);
  });

  test('counts no step that nobody said', () => {
    const station = open();
    expect(station.desk.pairs(pairs(three, { dryRun: true })).calibrations[0]?.fit).not.toHaveProperty(
      'resolution',
    );
    const fit = { resolution: 0.1 };
    expect(station.desk.pairs(pairs(three, { fit })).calibrations[0]?.fit).toMatchObject({
      ...{ resolution: 0.1, resolutionFrom: 'given' },
    });
  });
});
