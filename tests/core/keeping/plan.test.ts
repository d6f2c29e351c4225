import { describe, expect, test } from 'vitest';
import {
  PLAN_FIGURES,
  type Plan,
  type PlanQuestion,
  type PlanStep,
  planBed,
} from '../../../services/core/keeping/index.js';

const PIT: readonly PlanStep[] = Object.freeze(
  [150, 100, 50].map((length) => Object.freeze({ length, width: 60, height: 25 })),
);
/** Without probes a plan costs nothing. */
const plan = (question: Partial<PlanQuestion>): Plan =>
  planBed(Object.freeze({ kind: 'stepped-pit', probes: 0, ...question }));
const asSteps = ({ steps }: Pick<Plan, 'steps'>): PlanStep[] =>
  steps.map(({ length_cm, width_cm, height_cm }) => ({
    length: length_cm,
    width: width_cm,
    height: height_cm,
  }));

describe('a bed for roots', () => {
  test.each<[Partial<PlanQuestion>]>([
    [{ roots: 1 }],
    [{ roots: 400 }],
    [{ roots_kg: 110 }],
    [{ roots: 60, root_kg: 0.8 }],
    [{ kind: 'box', roots: 250 }],
    [{ kind: 'box', roots: 2000 }],
  ])('%j is proposed, takes them all, and is the smallest of its kind that does', (question) => {
    const found = plan(question);
    expect(found).toMatchObject({ proposed: true, fits: true });
    expect(found.all_beds.roots).toBe(found.asked_roots);
    expect(found.beds * found.most_roots).toBeGreaterThanOrEqual(found.asked_roots ?? 0);
    // The same bed, asked for by its steps, says the same.
    const again = plan({ ...question, roots: found.roots, roots_kg: undefined, steps: asSteps(found) });
    expect(again.sand_L).toBe(found.sand_L);
  });

  test('no more room than needed: with one more than a bed takes, the next is larger', () => {
    const first = plan({ roots: 400 });
    const next = plan({ roots: first.most_roots + 1 });
    expect(next.volume_L.total).toBeGreaterThan(first.volume_L.total);
    expect(plan({ roots: first.most_roots }).steps).toEqual(first.steps);
  });

  test('so many that no usual bed takes them are given several', () => {
    const many = plan({ roots: 5000 });
    expect(many.beds).toBeGreaterThan(1);
    expect(many.all_beds).toMatchObject({ roots: 5000, buckets: many.beds * many.buckets });
  });

  test('a mass is counted in roots of their mean mass, rounded up', () => {
    expect(plan({ roots_kg: 110 }).asked_roots).toBe(367);
    expect(plan({ roots_kg: 30, root_kg: 0.3 }).asked_roots).toBe(100);
  });

  test.each<[Partial<PlanQuestion>, RegExp]>([
    [{}, /expected roots to keep, or the steps of a bed, got neither/],
    [{ roots: 10, roots_kg: 10 }, /got both/],
    [{ roots: 0 }, /roots must be in \[1, 1000000\], got 0/],
    [{ roots: Number.NaN }, /got NaN/],
    [{ roots: 2.5 }, /whole number, got 2.5/],
    [{ roots_kg: 0.1 }, /mass of the roots/],
    [{ roots: 100, root_kg: 9 }, /mass of a root/],
    [{ roots: 100, bucket_L: 0 }, /bucket, L/],
    [{ roots: 100, ground_C: 60 }, /ground, °C/],
    [{ roots: 100, probes: 21 }, /probes must be in \[0, 20\], got 21/],
  ])('%j is refused', (question, message) => {
    expect(() => plan(question)).toThrow(message);
  });
});

describe('a given bed', () => {
  test.each<[PlanQuestion['kind'], PlanStep[], RegExp]>([
    ['stepped-pit', [], /number of steps of a stepped-pit/],
    ['box', [...PIT], /number of steps of a box must be in \[1, 1\], got 3/],
    [
      'stepped-pit',
      [{ length: 0, width: 60, height: 25 }],
      /step 1: length, cm, must be in \[20, 1000\], got 0/,
    ],
    ['stepped-pit', [{ length: 100, width: Number.NaN, height: 25 }], /step 1: width, .*got NaN/],
    ['stepped-pit', [{ length: 100, width: 60, height: -25 }], /step 1: height/],
    [
      'stepped-pit',
      [
        { length: 100, width: 60, height: 25 },
        { length: 110, width: 60, height: 25 },
      ],
      /^step 2: expected a length of at most 100 cm, that of the step above, got 110 cm$/,
    ],
    [
      'stepped-pit',
      [
        { length: 100, width: 60, height: 25 },
        { length: 100, width: 61, height: 25 },
      ],
      /step 2: expected a width of at most 60 cm/,
    ],
    [
      'stepped-pit',
      Array.from({ length: 3 }, () => ({ length: 50, width: 50, height: 90 })),
      /depth of the bed/,
    ],
    ['box', [{ length: 1000, width: 1000, height: 100 }], /at most 10000 L, got 100000 L; plan several/],
    ['box', [{ length: 100, width: 60, height: 10 }], /depth of at least 17 cm/],
  ])('%s of %j is refused', (kind, steps, message) => {
    expect(() => plan({ kind, steps })).toThrow(message);
  });

  test('without roots asked for is filled', () => {
    const full = plan({ steps: PIT });
    expect(full.roots).toBe(full.most_roots);
    expect(full).not.toHaveProperty('asked_roots');
  });

  test('with fewer roots than it takes has more sand and says what it could take', () => {
    const few = plan({ steps: PIT, roots: 100 });
    expect(few).toMatchObject({ fits: true, roots: 100, most_roots: 316 });
    expect(few.sand_L).toBeGreaterThan(plan({ steps: PIT }).sand_L);
    expect(few.courses.reduce((sum, { roots }) => sum + roots, 0)).toBe(100);
  });

  test('too small says how many fit and the nearest that takes all: longer', () => {
    const short = plan({ steps: PIT, roots: 400 });
    expect(short).toMatchObject({ fits: false, asked_roots: 400, roots: 316, most_roots: 316 });
    if (short.fits) return;
    const { beds, steps, most_roots } = short.nearest;
    expect([beds, steps[0]?.length_cm, steps[2]?.length_cm]).toEqual([1, 180, 80]);
    expect(plan({ steps: asSteps({ steps }), roots: 400 })).toMatchObject({ fits: true, most_roots });
  });

  test('far too small: several, and all of them together take what was asked for', () => {
    const short = plan({ kind: 'box', steps: [{ length: 100, width: 60, height: 60 }], roots: 500 });
    if (short.fits) throw new Error('it fits');
    expect(short.nearest.beds).toBe(2);
    expect(short.nearest.beds * short.nearest.most_roots).toBeGreaterThanOrEqual(500);
    expect(short.all_beds.roots).toBe(212);
  });
});

describe('roof, warmth, cautions, figures', () => {
  test('a pit has a roof beyond its opening on all sides, with no pole in the pit; a box has none', () => {
    const { roof } = plan({ steps: PIT });
    expect(roof).toMatchObject({ length_cm: 250, width_cm: 160, side_poles: 6, ridge_poles: 2 });
    // 45 degrees: half of 160 above eaves of 90; both slopes are longer than what they cover by the root of two.
    expect(roof?.ridge_cm).toBeCloseTo(170, 9);
    expect(roof?.thatch_m2).toBeCloseTo(4 * Math.SQRT2, 9);
    expect(plan({ kind: 'box', roots: 100 }).roof).toBeNull();
  });

  test('is warmer on warmer ground and with more roots', () => {
    const mid = (question: Partial<PlanQuestion>): number => plan(question).warmth_above_ground_C?.mid ?? 0;
    expect(mid({ steps: PIT, ground_C: 28 })).toBeGreaterThan(1.4 * mid({ steps: PIT, ground_C: 20 }));
    expect(mid({ steps: PIT })).toBeGreaterThan(2 * mid({ steps: PIT, roots: 100 }));
  });

  test('a bed so thick that its roots might warm each other without end is said to find no rest', () => {
    const thick = plan({ kind: 'box', steps: [{ length: 220, width: 220, height: 200 }], ground_C: 30 });
    expect(thick.warmth_above_ground_C).toBeNull();
    expect(thick.cautions.join(' ')).toContain('would warm itself without end');
  });

  test('cautions follow the bed', () => {
    const cautions = (question: Partial<PlanQuestion>): string => plan(question).cautions.join(' ');
    expect(cautions({ steps: PIT })).toMatch(
      /cave in.*16 kg.*baits.*rotten root, the whole root.*What no probe sees/s,
    );
    expect(cautions({ steps: PIT })).not.toContain('never work in it alone');
    const deep = [...PIT, { length: 50, width: 60, height: 30 }];
    expect(cautions({ steps: deep })).toMatch(/never work in it alone, and shore or slope.*local rules/);
    expect(cautions({ kind: 'box', roots: 100 })).not.toContain('cave in');
    expect(cautions({ roots: 100, bucket_L: 20 })).toContain(
      '32 kg, more than one person should lift (23 kg)',
    );
    expect(cautions({ steps: [{ length: 200, width: 150, height: 50 }] })).toContain('not reached by hand');
    expect(cautions({ roots: 1 })).toContain('do not eat it and do not feed it to animals');
  });

  test('every figure says where it comes from, and what the user set is not called published', () => {
    for (const { source } of Object.values(PLAN_FIGURES))
      expect(source).toMatch(/^(published: |common practice, no source|from memory|judgement)/);
    const { assumptions } = plan({ steps: PIT, root_kg: 0.25, bucket_L: 12 });
    expect(Object.keys(assumptions)).toEqual(Object.keys(PLAN_FIGURES));
    expect(assumptions['root_kg']).toMatchObject({ value: 0.25, source: 'as asked for' });
    expect(assumptions['bucket']).toMatchObject({ value: 12, source: 'as asked for' });
    expect(assumptions['ground']).toMatchObject({ value: 20, source: expect.stringContaining('judgement') });
  });

  test('the list to take along has the plan’s own amounts', () => {
    const { take_along, buckets } = plan({ steps: PIT });
    expect(take_along.find(({ item }) => item.startsWith('sand'))?.amount).toBe(buckets);
    expect(take_along.find(({ item }) => item.startsWith('thatch'))?.amount).toBe(5.7);
    expect(take_along.some(({ item }) => item.startsWith('probes'))).toBe(false);
    const box = plan({ kind: 'box', roots: 100 })
      .take_along.map(({ item }) => item)
      .join(' ');
    expect(box).not.toMatch(/spade|pole/);
  });
});

describe('probes', () => {
  test('are as many as asked for, in the sand, named, with the share that they find', () => {
    const found = plan({ kind: 'box', steps: [{ length: 40, width: 30, height: 30 }], probes: 2 });
    expect(found.probes.map(({ id }) => id)).toEqual(['p1', 'p2']);
    for (const { x, y, depth } of found.probes) {
      expect(x > 0 && x < 40 && y > 0 && y < 30 && depth > 0 && depth < 30).toBe(true);
    }
    expect(found.coverage_share).toBeGreaterThan(0);
    expect(found.coverage_share_by_count).toHaveLength(2);
    expect(found.take_along.find(({ item }) => item.startsWith('probes'))?.amount).toBe(3);
  });

  test('where no number is given are no more than find three quarters', () => {
    const { probes, coverage_share_by_count: shares } = plan({
      kind: 'box',
      steps: [{ length: 40, width: 30, height: 30 }],
      probes: undefined,
    });
    expect(probes.length).toBeLessThanOrEqual(6);
    const enough = shares.findIndex((share) => share >= 0.75);
    expect(probes).toHaveLength(enough === -1 ? shares.length : enough + 1);
  });
});
