import { describe, expect, test } from 'vitest';
import {
  type Readiness,
  type ReadinessInputs,
  readinessOf,
} from '../../../services/core/keeping/readiness.js';
import { readinessLimits } from '../../../services/core/keeping/readiness-limits.js';
import { sandLimits } from '../../../services/core/keeping/sand-limits.js';
import { type HandAnswers, ITEM_IDS, type ItemId } from '../../../services/core/model/readiness.js';
import { READINESS_LIMITS } from '../../../services/core/model/readiness-thresholds.js';
import { thresholdsInForce } from '../../../services/core/model/threshold.js';
import { DAY_ms } from '../../../services/core/model/time.js';
import { ANSWERS, AT, answering, inPit, inSand, LIMITS, PIT } from './a-bed-to-fill.js';
import { codeOf, sievingOf } from './some-sand.js';

const judge = (inputs: ReadinessInputs): Readiness => readinessOf(inputs, LIMITS);
const itemOf = (inputs: ReadinessInputs, id: ItemId) => judge(inputs).items.find((item) => item.id === id);

describe('a pit in order', () => {
  const ready = judge(PIT);

  test('is ready', () => {
    expect([ready.verdict, ready.notMet, ready.unknown, ready.overrides]).toEqual(['ready', [], [], []]);
    expect(ready.sentence).toBe('Ready: all 21 points are met.');
  });

  test('is asked everything, in order', () => {
    expect(ready.items.map(({ id }) => id)).toEqual([...ITEM_IDS]);
  });

  test('each item has question, measure, limit, reason, and a source that says what it is', () => {
    for (const item of ready.items) {
      expect(item.question).toMatch(/\?$/);
      for (const text of [item.measure, item.limit, item.reason]) expect(text).not.toBe('');
      expect(item.source).toMatch(/judgement|from memory|published|common practice, no source/);
      for (const { name, value, unit } of item.limits)
        expect([typeof name, Number.isFinite(value), unit === '']).toEqual(['string', true, false]);
    }
  });

  test('probes answer what probes can, a hand the rest', () => {
    const byProbe = ready.items.filter(({ answeredBy }) => answeredBy === 'probe').map(({ id }) => id);
    expect(byProbe).toEqual([
      'pit-dry',
      'pit-steady',
      'sand-temperature',
      'sand-cooled',
      'sand-steady',
      'sand-humidity',
      'sand-swing',
      'probes-speaking',
      'probes-calibrated',
    ]);
  });

  test('comes with the cautions of a pit; a box with those of a box', () => {
    expect(ready.cautions.join(' ')).toMatch(/cave in.*mask.*lift/s);
    expect(judge({ ...PIT, kind: 'box' }).cautions.join(' ')).not.toContain('cave in');
  });
});

describe('what is asked', () => {
  const ids = (inputs: ReadinessInputs): readonly ItemId[] => judge(inputs).items.map(({ id }) => id);

  test('of a box: nothing of pits', () => {
    const asked = ids({ ...PIT, kind: 'box', probes: [inSand()] });
    for (const id of ['ditch', 'poles', 'pit-open', 'pit-dry', 'pit-steady'] as const)
      expect(asked).not.toContain(id);
    expect(asked).toContain('roof');
  });

  test('of a pit with sand in it already: nothing of its air', () => {
    expect(ids({ ...PIT, probes: [inSand()] })).not.toContain('pit-dry');
  });

  test('of a pit without sand in it: a thermometer in the heap', () => {
    const inputs = { ...answering({ sandTemperature_C: 23.4 }), probes: [inPit()] };
    const asked = ids(inputs);
    for (const id of ['sand-steady', 'sand-humidity', 'sand-swing'] as const) expect(asked).not.toContain(id);
    expect(itemOf(inputs, 'sand-temperature')).toMatchObject({ answeredBy: 'hand', state: 'met' });
    expect(itemOf(inputs, 'sand-cooled')).toMatchObject({ answeredBy: 'hand', measure: '1.4 °C (by hand)' });
    expect(judge(inputs).verdict).toBe('ready');
    expect(itemOf({ ...PIT, probes: [inPit()] }, 'sand-temperature')?.state).toBe('unknown');
  });
});

describe('one answer is enough to be', () => {
  const sample = { ...ANSWERS.weighing, wet_g: 810 } as NonNullable<HandAnswers['weighing']>;

  test.each<[ItemId, Partial<HandAnswers>]>([
    ['curing', { curing: { days: 3.9 } }],
    ['curing', { curing: { days: 10.1 } }],
    ['curing', { curing: { days: 5, temperature_C: 20 } }],
    ['curing', { curing: { days: 5, temperature_C: 36 } }],
    ['curing', { curing: { days: 5, humidity_RH: 60 } }],
    ['curing', { curing: { days: 5, humidity_RH: 100 } }],
    ['wounds-healed', { woundsHealed: false }],
    ['roots-sorted', { rootsSorted: ['cut', 'rotten', 'frozen'] }],
    ['roots-sorted', { rootsSorted: [] }],
    ['roots-cooled', { rootsCooled: false }],
    ['roof', { roofOver: false }],
    ['ditch', { ditchDug: false }],
    ['poles', { polesFirm: false }],
    ['pit-open', { pitOpen_days: 2 }],
    [
      'sand-grains',
      {
        sieving: sievingOf(
          [
            [4.75, 0],
            [0.25, 90],
            [0.075, 5],
          ],
          5,
        ),
      },
    ],
    ['sand-moisture', { weighing: sample }],
    ['rodents', { rodentsKeptOut: false }],
    ['next-look', { nextLook: { by: 'nobody yet', at: AT + 15 * DAY_ms } }],
    ['next-look', { nextLook: { by: 'too late', at: AT } }],
  ])('not ready: %s', (id, part) => {
    const found = judge(answering(part));
    expect([found.verdict, found.notMet, found.unknown]).toEqual(['not ready', [id], []]);
    expect(found.sentence).toMatch(/^Not ready: 1 of 21 points is not met \([a-z ]+\)\.$/);
  });

  test('a next look in the past is said to be over', () => {
    const measureOf = (at: number) =>
      judge(answering({ nextLook: { by: 'Wanja', at } })).items.find(({ id }) => id === 'next-look')?.measure;
    expect(measureOf(AT)).toMatch(/, which is over$/);
    expect(measureOf(AT + DAY_ms)).not.toMatch(/over/);
  });

  test.each<[ItemId, { readonly [Key in keyof HandAnswers]?: undefined }]>([
    ['curing', { curing: undefined }],
    ['wounds-healed', { woundsHealed: undefined }],
    ['roots-sorted', { rootsSorted: undefined }],
    ['roots-cooled', { rootsCooled: undefined }],
    ['roof', { roofOver: undefined }],
    ['ditch', { ditchDug: undefined }],
    ['poles', { polesFirm: undefined }],
    ['pit-open', { pitOpen_days: undefined }],
    ['sand-grains', { sieving: undefined }],
    ['sand-moisture', { weighing: undefined }],
    ['rodents', { rodentsKeptOut: undefined }],
    ['next-look', { nextLook: undefined }],
  ])('unknown: %s left out', (id, part) => {
    const found = judge(answering(part));
    expect([found.verdict, found.notMet, found.unknown]).toEqual(['unknown', [], [id]]);
    expect(found.sentence).toMatch(/^Not known to be ready: 1 of 21 points is not known \(/);
  });

  test('both: not ready, and what is not known is told beside it', () => {
    const found = judge(answering({ roofOver: false, ditchDug: false, weighing: undefined }));
    expect(found.verdict).toBe('not ready');
    expect(found.sentence).toBe(
      'Not ready: 2 of 21 points are not met (roof, ditch). Not known: water in the sand.',
    );
  });

  test('nothing answered, nothing measured: unknown but for the probes that are not there', () => {
    const found = judge({ at: AT, kind: 'stepped-pit', answers: {}, probes: [], shade: undefined });
    expect(found.notMet).toEqual(['probes-speaking', 'probes-calibrated']);
    expect(found.items.filter(({ state }) => state === 'met')).toEqual([]);
  });
});

describe('each limit itself is met', () => {
  test.each<[ItemId, Partial<HandAnswers>]>([
    ['curing', { curing: { days: 4, temperature_C: 26.7, humidity_RH: 80 } }],
    ['curing', { curing: { days: 10, temperature_C: 35, humidity_RH: 97 } }],
    ['pit-open', { pitOpen_days: 3 }],
    ['next-look', { nextLook: { by: 'keeper of the pit', at: AT + 14 * DAY_ms } }],
  ])('%s', (id, part) => {
    expect(itemOf(answering(part), id)?.state).toBe('met');
  });
});

describe('samples', () => {
  test('curing whose air was not measured goes by its days, and says so', () => {
    expect(itemOf(answering({ curing: { days: 5 } }), 'curing')).toMatchObject({
      state: 'met',
      measure: '5 days, temperature not measured, humidity not measured',
    });
  });

  test('a sieving goes before what was answered', () => {
    const dirty = sievingOf(
      [
        [4.75, 0],
        [0.25, 90],
        [0.075, 5],
      ],
      5,
    );
    expect(itemOf(answering({ sieving: dirty, sandSieved: true }), 'sand-grains')?.state).toBe('not met');
    expect(itemOf(answering({ sieving: undefined, sandSieved: true }), 'sand-grains')?.state).toBe('met');
    expect(itemOf(answering({ sieving: undefined, sandSieved: false }), 'sand-grains')?.state).toBe(
      'not met',
    );
  });

  test('a sieving that does not say enough is unknown', () => {
    const coarse = sievingOf(
      [
        [4.75, 0],
        [0.5, 40],
        [0.15, 55],
      ],
      5,
    );
    expect(itemOf(answering({ sieving: coarse }), 'sand-grains')?.state).toBe('unknown');
  });

  test('a weighing that cannot tell is unknown', () => {
    const weighing = { wet_g: 802, dry_g: 800, container_g: 300, resolution_g: 1, way: 'pan' } as const;
    expect(itemOf(answering({ weighing }), 'sand-moisture')?.state).toBe('unknown');
  });

  test('one pan is no proof of dry sand, nor one that still loses water; an oven is, and a second look', () => {
    const once = { wet_g: 801, dry_g: 800, container_g: 300, resolution_g: 0.1, way: 'pan' as const };
    const stateOf = (weighing: HandAnswers['weighing']) =>
      itemOf(answering({ weighing }), 'sand-moisture')?.state;
    expect(stateOf(once)).toBe('unknown');
    expect(stateOf({ ...once, driedBefore_g: [800.9] })).toBe('unknown');
    expect(stateOf({ ...once, driedBefore_g: [800] })).toBe('met');
    expect(stateOf({ ...once, way: 'oven' })).toBe('met');
  });

  test('one that cannot be is refused, not passed over', () => {
    const weighing = { wet_g: 700, dry_g: 800, container_g: 300, resolution_g: 1, way: 'pan' } as const;
    expect(codeOf(() => judge(answering({ weighing })))).toBe('OUT_OF_DOMAIN');
    expect(
      codeOf(() =>
        judge(
          answering({
            sieving: sievingOf(
              [
                [1, 2],
                [2, 3],
              ],
              1,
            ),
          }),
        ),
      ),
    ).toBe('OUT_OF_DOMAIN');
  });

  test.each([Number.NaN, 0, 1e14])('judged at %d is refused', (at) => {
    expect(codeOf(() => judge({ ...PIT, at }))).toBe('OUT_OF_DOMAIN');
  });
});

describe('limits', () => {
  test('each default is within its range and has a source that says what it is', () => {
    for (const { default: usual, low, high, source } of Object.values(READINESS_LIMITS)) {
      expect(usual >= low && usual <= high).toBe(true);
      expect(source).toMatch(/^(judgement|from memory|published|common practice, no source)/);
    }
  });

  test('that were set are gone by: of the list, of the sand, of the watch', () => {
    const limits = readinessLimits(
      thresholdsInForce({ inspect_every_days: 7 }),
      { curing_least_days: 6 },
      sandLimits({ sand_dry_enough_percent: 0.15 }),
    );
    const found = readinessOf(PIT, limits);
    expect(found.notMet).toEqual(['curing', 'sand-moisture', 'next-look']);
    expect(found.items[0]?.source).toContain('curing_least_days: set here; the default is 4');
  });

  test.each([
    { curing_least_days: 12 },
    { curing_least_C: 34, curing_most_C: 30 },
    { sand_least_C: 21 },
    { sand_most_C: Number.NaN },
  ])('%o is refused', (own) => {
    expect(codeOf(() => readinessLimits(thresholdsInForce(), own))).toBe('OUT_OF_DOMAIN');
  });
});
