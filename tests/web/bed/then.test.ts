import { describe, expect, test } from 'vitest';
import type { ProbeColumns, Readings } from '../../../services/web/api/types/readings.js';
import { thenOf } from '../../../services/web/bed/section/then.js';

const at = (clock: string): string => `2026-05-04T${clock}:00Z`;
const NONE = [null, null];

const columns = (over: Partial<ProbeColumns> = {}): ProbeColumns => ({
  ...{ probe: 'p01', x: 10, y: 20, depth: 30, time: [at('10:00'), at('10:40')] },
  ...{ temperature_C: [20, 21], temperatureUncertainty_C: NONE, temperatureDoubt: NONE },
  ...{ humidity_RH: NONE, humidityUncertainty_RH: NONE, humidityDoubt: NONE },
  ...{ expected_C: NONE, band_C: NONE, flagged: [], thinned: false },
  hours: { time: [at('10:00')], expected_C: [19.5], band_C: [0.1], excess_C: [0.7] },
  ...over,
});

const then = (clock: string, ...probes: ProbeColumns[]) =>
  thenOf({ bed: 'b', from: '', to: '', probes, shade: [] } satisfies Readings, Date.parse(at(clock)));

describe('what a probe said at a time', () => {
  test('is the reading nearest to it, as it was measured, not one in between', () => {
    expect(then('10:15', columns())[0]?.latest).toEqual({ at: at('10:00'), temperature_C: 20 });
    expect(then('10:25', columns())[0]?.latest).toEqual({ at: at('10:40'), temperature_C: 21 });
  });

  test('is nothing where no reading is within an hour, and a whole hour still is', () => {
    expect(then('11:40', columns())[0]?.latest?.at).toBe(at('10:40'));
    expect(then('11:41', columns())[0]?.latest).toBeNull();
    expect(then('08:59', columns())[0]?.latest).toBeNull();
  });

  test('has the excess of the hour that was judged nearest, and none of one that was not', () => {
    expect(then('10:59', columns())[0]?.excess_C).toBe(0.7);
    expect(then('11:31', columns())[0]?.excess_C).toBeNull();
    const unjudged = columns({
      hours: { time: [at('10:00')], expected_C: [null], band_C: [null], excess_C: [null] },
    });
    expect(then('10:30', unjudged)[0]?.excess_C).toBeNull();
  });

  test('stands at the place where it was measured, where the probe has been moved', () => {
    const moved = columns({ x: 90, time: [at('10:50')], temperature_C: [22] });
    expect(then('10:48', columns(), moved)).toMatchObject([{ id: 'p01', x: 90 }]);
    expect(then('10:05', columns(), moved)).toMatchObject([{ id: 'p01', x: 10 }]);
  });

  test('names each reason once why values near it are not used', () => {
    const flag = { quantity: 'temperature', reason: 'spike', value: 60 } as const;
    const flagged = ['09:30', '10:10', '12:00'].map((clock) => ({ ...flag, at: at(clock) }));
    expect(then('10:10', columns({ flagged }))[0]?.flagged).toEqual(['spike']);
    expect(then('13:30', columns({ flagged }))[0]?.flagged).toEqual([]);
  });
});
