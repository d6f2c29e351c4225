import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { SandlarderError } from '../../../services/core/errors.js';
import { firstWatch } from '../../../services/core/watch/first-watch.js';
import type { BedHour, WatchedBed } from '../../../services/core/watch/watch.js';
import { runOver } from './run.js';
import { bedFor, hoursOf, QUIET, randomFrom, type Season } from './season.js';

/** Everything at once: rot, damp, silence, an opening and a repacking. */
const EVENTFUL: Season = {
  ...QUIET,
  days: 80,
  probes: 4,
  rot: { probe: 1, fromDay: 20, days: 8, to_C: 5 },
  humidity: (probe, day) => (probe === 2 && day > 25 && day < 32 ? 98 : 86),
  silent: (probe, day) => (probe === 3 && day > 22 && day < 27) || (day > 35 && day < 36.2),
  shadeSilent: (day) => day > 38 && day < 42,
  inspections: [
    { day: 40, opened: true, repacked: false },
    { day: 50.5, opened: true, repacked: true },
  ],
};

function inParts(hours: readonly BedHour[], bed: WatchedBed, cuts: readonly number[]) {
  const changes = [];
  const judgements = [];
  let from = 0;
  let kept: string | undefined;
  for (const to of [...cuts, hours.length]) {
    const part = runOver(hours.slice(from, to), bed, firstWatch.open(bed, kept));
    changes.push(...part.changes);
    judgements.push(...part.judgements);
    kept = part.watch.checkpoint();
    from = to;
  }
  return { changes, judgements, kept };
}

describe('a checkpoint', () => {
  const hours = hoursOf(EVENTFUL);
  const bed = bedFor(EVENTFUL);
  const whole = runOver(hours, bed);

  test('the season has enough in it to tell a difference', () => {
    const told = new Set(whole.changes.map(({ type, kind }) => `${type} ${kind}`));
    expect([...told].sort()).toEqual(['clear damp', 'clear heating', 'raise damp', 'raise heating']);
  });

  test('any cuts give the same changes, judgements and state', () => {
    const cuts = fc
      .array(fc.integer({ min: 0, max: hours.length }), { minLength: 1, maxLength: 5 })
      .map((at) => at.sort((one, other) => one - other));
    fc.assert(
      fc.property(cuts, (at) => {
        const parts = inParts(hours, bed, at);
        expect(parts.changes).toEqual(whole.changes);
        expect(parts.judgements).toEqual(whole.judgements);
        expect(parts.kept).toBe(whole.watch.checkpoint());
      }),
      { seed: 20260504, numRuns: 25 },
    );
  });

  test('the order in which the probes of an hour are listed does not matter', () => {
    const random = randomFrom(7);
    const shuffled = hours.map((hour) => ({
      ...hour,
      probes: new Map([...hour.probes].sort(() => random() - 0.5)),
    }));
    expect(runOver(shuffled, bed).changes).toEqual(whole.changes);
  });

  test('a checkpoint is no more than 4 KiB a probe after a season', () => {
    const { watch } = runOver(hoursOf({ ...QUIET, days: 110 }), bedFor(QUIET));
    expect(watch.checkpoint().length / 6).toBeLessThan(4096);
  });

  test('a probe may be called like something that every object has', () => {
    const named = (id: string): string => (id === 'p01' ? 'constructor' : id);
    const strange: WatchedBed = {
      ...bed,
      placements: new Map([...bed.placements].map(([id, placements]) => [named(id), placements])),
    };
    const renamed = hours.map((hour) => ({
      ...hour,
      probes: new Map([...hour.probes].map(([id, measured]) => [named(id), measured])),
    }));
    const parts = inParts(renamed, strange, [700]);
    expect(parts.judgements.some((judgement) => judgement.has('constructor'))).toBe(true);
  });
});

describe('a damaged checkpoint is refused', () => {
  const bed = bedFor(QUIET);
  const good = runOver(hoursOf({ ...QUIET, days: 12 }), bed).watch.checkpoint();
  const changed = (change: (state: Record<string, unknown>) => void): string => {
    const state = JSON.parse(good) as Record<string, unknown>;
    change(state);
    return JSON.stringify(state);
  };

  test.each([
    ['empty', ''],
    ['cut off', good.slice(0, -20)],
    ['no object', '[]'],
    ['null', 'null'],
    ['of another version', changed((state) => Object.assign(state, { version: 'first-0' }))],
    ['of another bed', changed((state) => Object.assign(state, { bed: 'pit-b' }))],
    ['without its probes', changed((state) => delete state['probes'])],
    ['with a time that is no number', changed((state) => Object.assign(state, { hour: 'noon' }))],
    ['with NaN for what was learned', good.replace(/"sum_C":[^,]+/, '"sum_C":null')],
  ])('%s', (_, text) => {
    let refused: unknown;
    try {
      firstWatch.open(bed, text);
    } catch (error) {
      refused = error;
    }
    expect(refused).toBeInstanceOf(SandlarderError);
    expect(refused).toMatchObject({ code: 'STORE_UNAVAILABLE' });
  });

  test('any text at all is taken or refused with the one error class', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.json()), (text) => {
        expect(() => firstWatch.open(bed, text)).toThrow(SandlarderError);
      }),
      { seed: 1, numRuns: 200 },
    );
  });
});
