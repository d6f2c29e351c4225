import { describe, expect, test } from 'vitest';
import { SandlarderError } from '../../../services/core/errors.js';
import { HOUR_ms } from '../../../services/core/model/time.js';
import { sandWatch } from '../../../services/core/watch/sand-watch.js';
import type { Sample } from '../../../services/core/watch/watch.js';
import { SHORT_SEASON } from '../../support/season.js';
import { bedSeason, type DayChange, runSeason } from './sand-season.js';

const DAY_ms = 24 * HOUR_ms;
const isUnpack = ({ type, kind, action }: DayChange): boolean =>
  type === 'raise' && kind === 'heating' && action === 'unpack';
const NO_ROT = { ...SHORT_SEASON, rotFromDay: 900, wetFromDay: 900 };

describe('a source of heat 12 cm from a probe', () => {
  const changes = runSeason(bedSeason());
  const raised = changes.find(isUnpack);

  test('asks to unpack, once, within three days of its beginning', () => {
    expect(changes.filter(isUnpack)).toHaveLength(1);
    expect(raised?.day).toBeGreaterThan(SHORT_SEASON.rotFromDay);
    expect(raised?.day).toBeLessThan(SHORT_SEASON.rotFromDay + 3);
  });

  test('is placed where it is, within its radius', () => {
    if (raised?.type !== 'raise' || !raised.place) throw new Error('expected a place');
    const { x, y, depth, radius } = raised.place;
    expect(Math.hypot(x - 83, y - 47, depth - 32)).toBeLessThan(radius);
    expect(radius).toBeLessThan(45);
  });

  test('water that comes in later is told as wetting', () => {
    const wetting = changes.find(({ kind, type }) => kind === 'wetting' && type === 'raise');
    expect(wetting?.day).toBeGreaterThan(SHORT_SEASON.wetFromDay);
  });

  test('the two-weekly look falls due whatever else', () => {
    const due = changes.find(({ kind, type }) => kind === 'inspection-due' && type === 'raise');
    expect(due?.day).toBeLessThanOrEqual(14);
  });
});

describe('whoever looks into an alarm', () => {
  const endsWith = (found: 'rot' | 'nothing') => {
    const season = bedSeason({ ...SHORT_SEASON, wetFromDay: 900 });
    const raisedOn = runSeason(season).find(isUnpack)?.day ?? 0;
    const at = season.startAt + Math.ceil(raisedOn) * DAY_ms;
    const look = { id: 'look', bed: season.watched.bed.id, at, by: 'keeper', opened: true, repacked: false };
    const hours = season.hours.map((hour) =>
      hour.hour === at ? { ...hour, inspections: [{ ...look, found: [found] }] } : hour,
    );
    const changes = runSeason({ ...season, hours: hours.slice(0, (Math.ceil(raisedOn) + 3) * 24) });
    return changes.filter(
      ({ kind, action, type }) => kind === 'heating' && action === 'unpack' && type === 'clear',
    );
  };

  test('and finds nothing ends it', () => {
    expect(endsWith('nothing')).toHaveLength(1);
  });

  test('and leaves the rot that they find does not: it is still to be unpacked', () => {
    expect(endsWith('rot')).toEqual([]);
  });
});

describe('nothing in the bed', () => {
  test('nobody is told to unpack, or to look for warmth', () => {
    expect(runSeason(bedSeason(NO_ROT)).filter(({ kind }) => kind === 'heating')).toEqual([]);
  });

  test('a probe that drifts is never told as rot, and is to be looked at', () => {
    const drift = (probe: string, sample: Sample): Sample => {
      const days = Math.max(0, (sample.at - NO_ROT.startAt) / DAY_ms - 12);
      return probe === 'p02' ? { ...sample, temperature: (sample.temperature ?? 0) + 0.12 * days } : sample;
    };
    const changes = runSeason(bedSeason(NO_ROT, drift));
    expect(changes.filter(isUnpack)).toEqual([]);
    const told = changes.find(({ kind, subject }) => kind === 'probe-fault' && subject === 'p02');
    expect(told?.day).toBeLessThan(33);
  });

  test('a probe that sends its disconnect value is told as broken, not as cold or warm', () => {
    const gone = (probe: string, sample: Sample): Sample =>
      probe === 'p01' && sample.at > NO_ROT.startAt + 20 * DAY_ms ? { ...sample, temperature: -127 } : sample;
    const changes = runSeason(bedSeason(NO_ROT, gone));
    expect(changes.filter(({ kind }) => kind === 'heating')).toEqual([]);
    const told = changes.find(({ kind, subject }) => kind === 'probe-fault' && subject === 'p01');
    expect(told?.day).toBeGreaterThan(20);
    expect(told?.day).toBeLessThan(21.5);
  });
});

describe('a state that is kept', () => {
  const season = bedSeason();

  test.each([3 * 24 + 5, 15 * 24 + 2, 15 * 24 + 12, 30 * 24])(
    'after %i hours goes on as if nothing had been',
    (at) => {
      const through = sandWatch.open(season.watched);
      const answers = season.hours.map((hour) => {
        const { changes, judgements, flags } = through.step(hour);
        return JSON.stringify([changes, [...judgements], [...flags]]);
      });
      const before = sandWatch.open(season.watched);
      for (const hour of season.hours.slice(0, at)) before.step(hour);
      const after = sandWatch.open(season.watched, before.checkpoint());
      const rest = season.hours.slice(at).map((hour) => {
        const { changes, judgements, flags } = after.step(hour);
        return JSON.stringify([changes, [...judgements], [...flags]]);
      });
      expect(rest).toEqual(answers.slice(at));
      expect(after.checkpoint()).toBe(through.checkpoint());
    },
  );

  test('is refused where it is of another version or bed, or is none', () => {
    const { watched } = season;
    const kept = sandWatch.open(watched).checkpoint();
    const other = { ...watched, bed: { ...watched.bed, id: 'pit-z' } };
    expect(() => sandWatch.open(other, kept)).toThrow(SandlarderError);
    expect(() => sandWatch.open(watched, kept.replace(sandWatch.version, 'sand-0'))).toThrow(SandlarderError);
    expect(() => sandWatch.open(watched, 'not a state')).toThrow(SandlarderError);
  });
});

test('hours that do not follow are refused', () => {
  const { watched, hours } = bedSeason();
  const watch = sandWatch.open(watched);
  const [first, second, third] = hours;
  if (!first || !second || !third) throw new Error('the season has hours');
  watch.step(first);
  expect(() => watch.step(first)).toThrow(SandlarderError);
  expect(() => watch.step(third)).toThrow(SandlarderError);
  expect(() => watch.step(second)).not.toThrow();
});
