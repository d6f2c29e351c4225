import { expect, test } from 'vitest';
import { Onset } from '../../../../services/core/watch/warmth/bank.js';
import { faultIn, limitFor, verdictOn } from '../../../../services/core/watch/warmth/verdict.js';
import type { Candidate, Evidence } from '../../../../services/core/watch/warmth/weighing.js';

const RATES = { unpack_per_bed_month: 1e-4, check_per_bed_month: 0.1 };
const ENOUGH = limitFor(RATES.unpack_per_bed_month) + 5;
const STEP = 400;

/** A source of 3 W that began some days ago in a bed whose probes scattered so much before. */
const candidate = ({ age_days = 3, power = 3, scatter = 0.3, ratio = 30 } = {}): Candidate => ({
  ...{ ratio, power, variance: 0.1, onset: new Onset(STEP - age_days * 4, 1, 1, scatter) },
  reading: {
    place: { x: 50, y: 30, depth: 30, weights: new Float64Array(4) },
    ...{ probes: Int32Array.of(0), uncertain: Float64Array.of(0.2), weights: new Float64Array(4) },
    ...{ sizes: Float64Array.of(1), nearest: 0 },
  },
});

const evidence = (change: Partial<Evidence> = {}): Evidence => ({
  ...{ source: ENOUGH, control: Number.NEGATIVE_INFINITY, best: candidate(), without: 0, others: 0 },
  fault: { fault: 'drift', probe: 0, ratio: 20, size: 0.1 },
  ...change,
});

const never = (_probe: number, _step: number): boolean => false;

const verdict = (of: Evidence, isUnsound = never, blind = false, isDoubted = never) =>
  verdictOn({ evidence: of, blind, rates: RATES, step: STEP, isUnsound, isDoubted });

test('a bed that was not understood is asked about, unless the evidence leaves no doubt', () => {
  const best = candidate({ scatter: 2, ratio: 60 });
  expect(verdict(evidence({ best, source: 45 }))).toBe('check');
  expect(verdict(evidence({ best, source: 55 }))).toBe('unpack');
  expect(verdict(evidence({ best, source: 55 }), undefined, true)).toBe('check');
  const fault = { fault: 'drift', probe: 0, ratio: 50, size: 0.1 } as const;
  expect(verdict(evidence({ best, fault, source: 55 }))).toBe('check');
});

test('a young source that explains clearly better than a fault is to be unpacked', () => {
  expect(verdict(evidence())).toBe('unpack');
});

test('one that a drift of its probe explains nearly as well is to be looked at', () => {
  const fault = { fault: 'drift', probe: 0, ratio: 28, size: 0.1 } as const;
  expect(verdict(evidence({ fault }))).toBe('check');
  expect(verdict(evidence({ fault, others: 6 }))).toBe('unpack');
});

test('one that a single probe has shown for long is a drift, unless others bear it out or no drift is like it', () => {
  const best = candidate({ age_days: 12 });
  const drift = (ratio: number): Evidence['fault'] => ({ fault: 'drift', probe: 0, ratio, size: 0.1 });
  expect(verdict(evidence({ best, fault: drift(23) }))).toBe('check');
  expect(verdict(evidence({ best, fault: drift(23), others: 6 }))).toBe('unpack');
  expect(verdict(evidence({ best, fault: drift(18) }))).toBe('unpack');
});

test('but for an echo of what several probes show beyond doubt, while it is young', () => {
  const echo = (change: Partial<Evidence>, age_days = 5) =>
    verdict(
      evidence({ best: candidate({ age_days, ratio: 62 }), source: 60, control: 62, others: 16, ...change }),
    );
  expect(echo({})).toBe('unpack');
  expect(echo({ control: 63 })).toBeNull();
  expect(echo({ others: 15 })).toBeNull();
  expect(echo({ source: 50, control: 52 })).toBeNull();
  expect(echo({ fault: { fault: 'drift', probe: 0, ratio: 50, size: 0.1 } })).toBeNull();
  expect(echo({}, 9)).toBeNull();
});

test('a probe that was not to be believed when it began does not tell it alone', () => {
  const seen: number[] = [];
  const isUnsound = (_: number, step: number): boolean => {
    seen.push(step);
    return true;
  };
  expect(verdict(evidence(), isUnsound)).toBe('check');
  expect(seen).toEqual([STEP - 12]);
  expect(verdict(evidence({ others: 6 }), isUnsound)).toBe('unpack');
});

test('in a bed that was not understood before it began nobody is told to unpack', () => {
  expect(verdict(evidence({ best: candidate({ scatter: 1.6 }), others: 50 }))).toBe('check');
});

test('where sand that cools would explain as well nothing is said', () => {
  expect(verdict(evidence({ control: ENOUGH - 2 }))).toBeNull();
  expect(verdict(evidence({ control: ENOUGH - 6 }))).toBe('unpack');
});

test('what is old and weak, or stronger than any rot, is none', () => {
  expect(verdict(evidence({ best: candidate({ age_days: 20, power: 1 }), others: 50 }))).toBeNull();
  expect(verdict(evidence({ best: candidate({ power: 12 }), others: 50 }))).toBeNull();
});

test('a probe is to be looked at where its fault explains clearly better than any source', () => {
  const fault = { fault: 'drift', probe: 0, ratio: 40, size: 0.1 } as const;
  expect(faultIn(evidence({ fault }))).toBe(fault);
  expect(faultIn(evidence({ fault, without: 6 }))).toBeUndefined();
  expect(faultIn(evidence())).toBeUndefined();
  // One that cools makes the others look warm: that they do bears nothing out.
  const cools = { fault: 'drift', probe: 1, ratio: 40, size: -0.1 } as const;
  expect(faultIn(evidence({ fault: cools, without: 30 }))).toBe(cools);
});

test('the longer one probe alone has shown it, the more a source must outweigh a drift', () => {
  const at = (age_days: number, over: number) => {
    const fault = { fault: 'drift', probe: 0, ratio: 30 - over, size: 0.1 } as const;
    return verdict(evidence({ best: candidate({ age_days }), fault }));
  };
  expect([at(4, 3), at(4, 2.9)]).toEqual(['unpack', 'check']);
  expect([at(6.5, 7), at(6.5, 6.9)]).toEqual(['unpack', 'check']);
  expect([at(9, 11), at(9, 10.9), at(15, 11)]).toEqual(['unpack', 'check', 'unpack']);
});

test('a probe that was taken for faulty is believed again where its fault is refuted', () => {
  const at = (over: number) => {
    const fault = { fault: 'drift', probe: 0, ratio: 30 - over, size: 0.1 } as const;
    const of = evidence({ best: candidate({ age_days: 15 }), fault });
    return [
      verdict(of, never, false, () => true),
      verdict(
        of,
        () => true,
        false,
        () => true,
      ),
    ];
  };
  expect(at(19.9)).toEqual(['check', 'check']);
  // One that jumped or was broken is not: what it shows may be its own doing.
  expect(at(20)).toEqual(['unpack', 'check']);
});
