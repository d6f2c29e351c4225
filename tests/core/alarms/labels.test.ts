import { describe, expect, test } from 'vitest';
import { historyLines } from '../../../services/commands/evaluation/history-lines.js';
import { historyTotals } from '../../../services/commands/evaluation/history-totals.js';
import { type JudgedAlarm, labelOf, lookTells, unwarnedOf } from '../../../services/core/alarms/labels.js';
import type { Finding, Inspection } from '../../../services/core/model/inspection.js';
import { DAY_ms } from '../../../services/core/model/time.js';

const alarm = (day: number, changes: Partial<JudgedAlarm> = {}): JudgedAlarm => ({
  ...{ id: `alarm-${day}`, bed: 'pit-a', kind: 'heating', action: 'unpack' },
  ...{ raisedAt: day * DAY_ms, clearedAt: null, acknowledgement: null, ...changes },
});

const look = (day: number, found: Finding[], changes: Partial<Inspection> = {}): Inspection => ({
  ...{
    id: `look-${day}`,
    bed: 'pit-a',
    at: day * DAY_ms,
    by: 'keeper',
    opened: true,
    repacked: false,
    found,
  },
  ...changes,
});

describe('what inspections say of an alarm', () => {
  test.each([
    ['what it warned of was found', [look(22, ['rot'])], 'right'],
    ['at the end of the week', [look(27, ['rot'])], 'right'],
    ['at the second look', [look(21, ['nothing']), look(25, ['rot', 'damp'])], 'right'],
    ['nothing was found', [look(22, ['nothing'])], 'wrong'],
    ['something else was found', [look(22, ['damp'])], 'other'],
    ['nobody came', [], 'unseen'],
    ['somebody came too late', [look(27.1, ['rot'])], 'unseen'],
    ['somebody had come before', [look(19.9, ['nothing'])], 'unseen'],
    ['another bed was looked at', [look(22, ['rot'], { bed: 'pit-b' })], 'unseen'],
    ['the bed stayed closed', [look(22, ['nothing'], { opened: false })], 'unseen'],
    ['it smelled, closed', [look(22, ['rot'], { opened: false })], 'right'],
  ] as const)('%s', (_, looks, verdict) => {
    expect(labelOf(alarm(20), looks).verdict).toBe(verdict);
  });

  test.each([
    ['damp', 'damp'],
    ['wetting', 'damp'],
    ['condensation', 'damp'],
    ['sprouting', 'sprouts'],
    ['weevil', 'weevils'],
  ] as const)('%s is right where %s was found, and not by rot', (kind, found) => {
    expect(labelOf(alarm(20, { kind }), [look(21, [found])]).verdict).toBe('right');
    expect(labelOf(alarm(20, { kind }), [look(21, ['rot'])]).verdict).toBe('other');
  });

  test.each(['probe-fault', 'probe-silent', 'inspection-due'] as const)('of %s nothing', (kind) => {
    expect(labelOf(alarm(20, { kind }), [look(21, ['nothing'])])).toMatchObject({
      ...{ verdict: 'untold', lookedAt: 21 * DAY_ms },
    });
    expect(labelOf(alarm(20, { kind }), [])).toMatchObject({ verdict: 'unseen', lookedAt: null });
    expect(lookTells(kind)).toBe(false);
  });
});

describe('what was found without an alarm', () => {
  const unwarned = (looks: Inspection[], alarms: JudgedAlarm[]) =>
    unwarnedOf(looks, alarms).map(({ found }) => found);

  test('is what no open or recent alarm of its kind had warned of', () => {
    expect(unwarned([look(40, ['rot', 'damp'])], [])).toEqual(['rot', 'damp']);
    expect(unwarned([look(40, ['rot', 'damp'])], [alarm(20)])).toEqual(['damp']);
    expect(unwarned([look(40, ['rot'])], [alarm(34, { clearedAt: 35 * DAY_ms })])).toEqual([]);
    expect(unwarned([look(40, ['rot'])], [alarm(20, { clearedAt: 35 * DAY_ms })])).toEqual(['rot']);
    expect(unwarned([look(40, ['rot'])], [alarm(41)])).toEqual(['rot']);
    expect(unwarned([look(40, ['rot'])], [alarm(39, { bed: 'pit-b' })])).toEqual(['rot']);
    expect(unwarned([look(40, ['nothing'])], [])).toEqual([]);
  });
});

describe('what a history comes to', () => {
  const looks = [look(22, ['rot']), look(52, ['nothing']), look(70, ['weevils'])];
  const acknowledgement = { by: 'keeper', note: '', at: 21 * DAY_ms };
  const alarms = [
    alarm(20, { acknowledgement }),
    alarm(50),
    alarm(90),
    alarm(91, { kind: 'probe-fault', action: 'service' }),
  ];
  const labels = alarms.map((one) => labelOf(one, looks));
  const missed = unwarnedOf(looks, alarms);

  test('the share that was right is of those that somebody looked into', () => {
    expect(historyTotals(labels, missed)).toMatchObject({
      ...{ alarms: 4, acknowledged: 1, rightShare: 0.5, unwarned: 1 },
      verdicts: { right: 1, wrong: 1, other: 0, unseen: 1, untold: 1 },
      kinds: [
        { kind: 'heating', action: 'unpack', alarms: 3 },
        { kind: 'probe-fault', action: 'service', alarms: 1 },
      ],
    });
  });

  test('in lines for people, at most a hundred characters wide', () => {
    const lines = historyLines(labels, missed, looks.length);
    expect(lines).toContain('Right: 1 of the 2 alarms that somebody looked into (50 %).');
    expect(lines).toContain('Nobody looked within 7 days: 1.');
    expect(lines.at(-1)).toContain('pit-a: weevils');
    for (const line of lines) expect(line).toMatch(/^[ -~]{0,100}$/);
  });

  test('of nothing: no share', () => {
    expect(historyTotals([], []).rightShare).toBeNull();
    expect(historyLines([], [], 0)).toEqual([
      '0 alarms, 0 inspections.',
      'No alarm, nothing to hold against inspections.',
      'Found without an alarm: nothing.',
    ]);
  });
});
