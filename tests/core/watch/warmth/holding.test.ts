import { describe, expect, test } from 'vitest';
import { Onset } from '../../../../services/core/watch/warmth/bank.js';
import { heldOn, NONE_HELD, toldOn } from '../../../../services/core/watch/warmth/holding.js';
import type { Candidate, Evidence } from '../../../../services/core/watch/warmth/weighing.js';

const STEP = 400;

interface Case {
  readonly age_days?: number;
  readonly source?: number;
  readonly overFault?: number;
  readonly others?: number;
  readonly blind?: boolean;
}

/** Evidence of one step: of a source that began so many days before step 400. */
const doubted = ({ age_days = 3, source = 40, overFault = 8, others = 0, blind = false }: Case) => {
  const best: Candidate = {
    ...{ ratio: 50, power: 3, variance: 0.1, onset: new Onset(STEP - age_days * 4, 1, 1, 0.3) },
    reading: {
      place: { x: 50, y: 30, depth: 30, weights: new Float64Array(4) },
      ...{ probes: Int32Array.of(0), uncertain: Float64Array.of(0.2), weights: new Float64Array(4) },
      ...{ sizes: Float64Array.of(1), nearest: 0 },
    },
  };
  const fault = { fault: 'drift', probe: 0, ratio: 50 - overFault, size: 0.1 } as const;
  const evidence: Evidence = { source, control: Number.NEGATIVE_INFINITY, best, fault, without: 0, others };
  return { evidence, step: STEP, blind };
};

/** As it stands where evidence was there before. */
const SOME_HELD = { ...NONE_HELD, last: 15 };

/** What is told, step by step, of a verdict to unpack that holds while the evidence is as given. */
function toldOf(cases: readonly Case[]): (string | null)[] {
  let held = SOME_HELD;
  return cases.map((one) => {
    const now = doubted(one);
    held = heldOn(held, 'unpack', now);
    return toldOn(held, now);
  });
}

const often = (one: Case, times: number): Case[] => Array.from({ length: times }, () => one);

describe('evidence that leaves little doubt', () => {
  test('is told in its second step', () => {
    expect(toldOf(often({}, 2))).toEqual([null, 'unpack']);
  });

  test('must have held without a break', () => {
    const once = heldOn(NONE_HELD, 'unpack', doubted({}));
    expect(heldOn(once, null, doubted({ source: -3 }))).toEqual(NONE_HELD);
    expect(heldOn(once, 'check', doubted({})).unpack).toBe(0);
    expect(heldOn(once, 'check', doubted({})).check).toBe(2);
  });

  test('a look is asked for in the fourth step', () => {
    let held = NONE_HELD;
    const told = often({}, 4).map((one) => {
      held = heldOn(held, 'check', doubted(one));
      return toldOn(held, doubted(one));
    });
    expect(told).toEqual([null, null, null, 'check']);
  });
});

describe('evidence that came abruptly', () => {
  const steps = (first: Case, before: number): (string | null)[] => {
    let held = { ...NONE_HELD, last: before };
    return often(first, 6).map((one, at) => {
      const now = doubted({ ...one, source: (one.source ?? 40) + at });
      held = heldOn(held, 'unpack', now);
      return toldOn(held, now);
    });
  };

  test.each([
    ['of a source that began within the day', { age_days: 0.75 }, 15],
    ['that rose out of nothing', { source: 75.5 }, 14.9],
  ])('%s must hold for a day and a half', (_, one, before) => {
    const told = steps(one, before);
    expect(told.slice(0, 5)).not.toContain('unpack');
    expect(told[5]).toBe('unpack');
  });

  test('unless it grows more than twice and a half in a step', () => {
    const growing = (by: number): (string | null)[] => {
      let held = SOME_HELD;
      return [1, by].map((times) => {
        const now = doubted({ age_days: 0.75, source: 40 * times });
        held = heldOn(held, 'unpack', now);
        return toldOn(held, now);
      });
    };
    expect(growing(2.6)).toEqual([null, 'unpack']);
    expect(growing(2.5)).toEqual([null, null]);
  });

  test.each([
    ['a day old', { age_days: 1 }, 15],
    ['risen by less', { source: 74 }, 14.9],
    ['not out of nothing', { source: 140 }, 15],
    ['borne out by others', { age_days: 0.75, others: 5 }, 15],
  ])('%s is not abrupt', (_, one, before) => {
    expect(steps(one, before)[1]).toBe('unpack');
  });
});

describe('doubtful evidence', () => {
  test.each([
    ['hardly more like a source than like a fault of the one probe', { overFault: 4.9 }],
    ['of one probe without a shade probe', { blind: true }],
  ])('%s: is told in its fourth step', (_, one) => {
    expect(toldOf(often(one, 4))).toEqual([null, null, null, 'unpack']);
  });

  test('that other probes bear out is none', () => {
    expect(toldOf(often({ overFault: 1, others: 5 }, 2))[1]).toBe('unpack');
    expect(toldOf(often({ blind: true, others: 5 }, 2))[1]).toBe('unpack');
  });

  test('of a source that came slowly asks for a look as long as it does not grow', () => {
    const still = often({ age_days: 5.25, source: 18 }, 8);
    expect(toldOf(still)).toEqual([null, null, null, ...often({}, 5).map(() => 'check')]);
    const falling = [20, 19.5, 19, 18.5, 18].map((source) => ({ age_days: 6, source }));
    expect(toldOf(falling)).not.toContain('unpack');
  });

  test('of a source that came slowly is told once it has grown', () => {
    const growing = [17, 17.3, 17.6, 18.1].map((source) => ({ age_days: 6, source }));
    expect(toldOf(growing)).toEqual([null, null, null, 'unpack']);
    const later = [17, 17, 17, 17, 17.9, 18].map((source) => ({ age_days: 6, source }));
    expect(toldOf(later).slice(3)).toEqual(['check', 'check', 'unpack']);
  });

  test('that came slowly and is sure needs not grow', () => {
    expect(toldOf(often({ age_days: 6, source: 25 }, 2))[1]).toBe('unpack');
  });
});
