import { describe, expect, test } from 'vitest';
import { DIGGING_CAUTION, FOOD_CAUTION, UNSEEN_CAUTION } from '../../../../services/core/alarms/cautions.js';
import { stepsOf } from '../../../../services/core/alarms/story/index.js';
import { ACTIONS, ALARM_KINDS } from '../../../../services/core/model/alarm.js';
import { anAlarm, BOX, PIT } from '../an-alarm.js';

const pit = { ...PIT, steps: [...PIT.steps], kind: 'stepped-pit' } as const;
const box = { ...BOX, steps: [...BOX.steps], kind: 'box' } as const;
const cautionsOf = (steps: ReturnType<typeof stepsOf>): string[] => steps.flatMap(({ cautions }) => cautions);
const textOf = (steps: ReturnType<typeof stepsOf>): string => steps.map(({ text }) => text).join(' ');

const CASES = ALARM_KINDS.flatMap((kind) => ACTIONS.map((action) => ({ kind, action })));

test.each(CASES)('$kind to $action has steps, each a sentence, and no caution twice', (what) => {
  for (const bed of [pit, box]) {
    const steps = stepsOf(anAlarm(what), bed);
    expect(steps.length).toBeGreaterThan(what.action === 'none' ? 0 : 3);
    for (const { text } of steps) expect(text).toMatch(/^[A-Z].+[.?]$/);
    expect(new Set(cautionsOf(steps)).size).toBe(cautionsOf(steps).length);
  }
});

const WITH_ROOTS = CASES.filter(
  ({ kind, action }) => action === 'unpack' || (action === 'check' && !kind.startsWith('probe-')),
);

test.each(WITH_ROOTS)('$kind to $action says that unfit roots go whole, and that pits cave in', (what) => {
  const cautions = cautionsOf(stepsOf(anAlarm(what), pit));
  expect(cautions).toEqual(expect.arrayContaining([FOOD_CAUTION, DIGGING_CAUTION]));
  expect(cautionsOf(stepsOf(anAlarm(what), box))).not.toContain(DIGGING_CAUTION);
});

describe('by kind', () => {
  test('water is looked for before the bed is opened', () => {
    const steps = stepsOf(anAlarm({ kind: 'wetting' }), pit).map(({ text }) => text);
    const [water, opening] = ['Look where water', 'Take the cover off'].map((start) =>
      steps.findIndex((text) => text.startsWith(start)),
    );
    expect(water).toBeGreaterThan(0);
    expect(opening).toBeGreaterThan(water ?? 99);
  });

  test('a look that is due says what no probe sees', () => {
    const due = anAlarm({ kind: 'inspection-due', action: 'check', place: null });
    expect(cautionsOf(stepsOf(due, pit))).toContain(UNSEEN_CAUTION);
  });

  test('a bed that seems to have been handled asks who was there, and nobody to dig', () => {
    const evidence = { because: 'asked', since: '2026-05-24T15:00:00Z' };
    const asked = stepsOf(anAlarm({ kind: 'inspection-due', action: 'check', evidence, place: null }), pit);
    expect(asked[0]?.text).toMatch(/^Ask who was at Pit A/);
    expect(cautionsOf(asked)).toEqual([]);
  });

  test.each([
    ['stuck', 'cable'],
    ['clock', 'Set its clock'],
    ['drift', 'warm sand or a bad smell'],
    ['a fault of later days', 'battery, cable and seat'],
  ])('a probe with the fault %s: look at %s', (fault, look) => {
    const steps = stepsOf(
      anAlarm({ kind: 'probe-fault', action: 'service', subject: 'p01', place: null, evidence: { fault } }),
      pit,
    );
    expect(`${textOf(steps)} ${cautionsOf(steps).join(' ')}`).toContain(look);
    expect(textOf(steps)).not.toContain('It lies');
  });
});
