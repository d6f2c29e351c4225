import { describe, expect, test } from 'vitest';
import { type PlanQuestion, planBed } from '../../../services/core/keeping/index.js';

const PIT = [150, 100].map((length) => ({ length, width: 60, height: 25 }));

const workOf = (question: Partial<PlanQuestion>): readonly string[] =>
  planBed({ kind: 'stepped-pit', probes: 0, ...question }).work;

describe('the work of a planned bed', () => {
  test('goes from the place to the first look, each course in its turn', () => {
    const plan = planBed({ kind: 'stepped-pit', probes: 0, steps: PIT });
    const { work } = plan;
    expect(work[0]).toMatch(/^Choose a place/);
    expect(work[1]).toBe('Mark the opening: 150 cm (2 strides) by 60 cm (3 spans).');
    expect(work[2]).toMatch(/^Dig it 25 cm \(2½ hands\) deep, .* a stride from the edge/);
    expect(work[3]).toMatch(
      /^In the middle of that floor dig 100 cm .* by 60 cm .* deeper: a ledge stays at both ends\.$/,
    );
    expect(work.filter((step) => step.startsWith('Course '))).toHaveLength(plan.courses.length);
    const order = ['ditch', 'roof on', 'stand open', `${plan.buckets} buckets`, 'list before', 'Course 1: '];
    const at = order.map((words) => work.findIndex((step) => step.includes(words)));
    expect(at).not.toContain(-1);
    expect(at).toEqual(at.toSorted((one, other) => one - other));
    expect(work.at(-1)).toMatch(/by hand every two weeks/);
  });

  test('of a box has no digging, no ditch and no roof of its own', () => {
    const work = workOf({ kind: 'box', steps: [{ length: 100, width: 50, height: 75 }] }).join(' ');
    expect(work).toMatch(/^Stand the box under a roof/);
    expect(work).not.toMatch(/Dig|ditch|Put up the roof|stand open/);
  });

  test('says where probes come in only where there are some', () => {
    expect(workOf({ steps: PIT }).join(' ')).not.toContain('probes as');
    const two = workOf({ steps: PIT, probes: 2 });
    expect(two.join(' ')).toContain('Bury the 2 probes as the sand comes up to them, and hang one more');
  });

  test("is told in the user's own measures", () => {
    const measures = { hand_cm: 12.5, span_cm: 25, forearm_cm: 40, stride_cm: 50 };
    expect(workOf({ steps: PIT, measures })[1]).toBe(
      'Mark the opening: 150 cm (3 strides) by 60 cm (about 2½ spans).',
    );
  });

  test('counts one of a thing as one', () => {
    const work = workOf({ kind: 'box', steps: [{ length: 60, width: 40, height: 50 }], roots: 1 });
    expect(work.join(' ')).toContain('Course 1: 1 root on step 1');
  });
});
