/** What a filling, and an inspection that comes late, do to what the watch has said. */
import { describe, expect, test } from 'vitest';
import type { Alarm } from '../../services/core/model/alarm.js';
import { DAY_ms, HOUR_ms } from '../../services/core/model/time.js';
import { uuid } from '../support/ledger.js';
import { type Message, makeSeason, SHORT_SEASON, siteOf } from '../support/season.js';
import { openStation, type TestStation } from '../support/station.js';

const OPTIONS = { ...SHORT_SEASON, days: 30 };
const season = makeSeason(OPTIONS);
const dayAt = (days: number): number => OPTIONS.startAt + days * DAY_ms;

const timeOf = ({ payload }: Message): number => 1000 * (JSON.parse(payload) as [{ bt: number }])[0].bt;
const upTo = (time: number): Message[] => season.messages.filter((message) => timeOf(message) < time);
const since = (time: number): Message[] => season.messages.filter((message) => timeOf(message) >= time);

function opened(messages: readonly Message[]): TestStation {
  const station = openStation();
  station.load(siteOf(OPTIONS));
  station.commit(messages);
  return station;
}

const alarmsOf = ({ views }: TestStation): readonly Alarm[] =>
  views.alarms({ bed: 'pit-t', limit: 1000 }).alarms;

/** Whoever was told late acknowledges late: that is no part of what was found. */
const foundOf = (station: TestStation): unknown[] =>
  alarmsOf(station).map(({ acknowledgement: _, state: __, ...found }) => found);

describe('an inspection that comes late', () => {
  const at = dayAt(18) + 2 * HOUR_ms;
  const look = { id: uuid(1), at, by: 'Wanja', opened: true, repacked: true, found: ['rot' as const] };

  test('has the bed judged again from there: the alarms are those of one that came in time', () => {
    const inTime = opened(upTo(at));
    expect(inTime.views.inspect('pit-t', look)).toMatchObject({
      judged: true,
      ended: expect.arrayContaining([expect.stringMatching(/heating\.unpack/)]),
    });
    inTime.commit(since(at));
    inTime.settle();

    const late = opened(season.messages);
    expect(foundOf(late)).not.toEqual(foundOf(inTime));
    const view = late.views.inspect('pit-t', look);
    expect(view.judged).toBe(false);
    expect(view.notes).toEqual([expect.stringMatching(/judged again/)]);
    expect(late.station.dirty()).toHaveLength(1);
    late.settle();
    expect(foundOf(late)).toEqual(foundOf(inTime));
    expect(late.views.inspect('pit-t', look)).toMatchObject({ isNew: false, judged: true });
    expect(late.station.dirty()).toEqual([]);
  });
});

describe('a bed that is filled anew', () => {
  const at = dayAt(20) + HOUR_ms / 2;
  const filling = {
    ...{ id: uuid(2), at, by: 'Wanja', courses: [{ roots: 90 }] },
    probes: [
      { probe: 'p01', x: 75, y: 40, depth: 30 },
      { probe: 'p02', x: 30, y: 50, depth: 30 },
      { probe: 'p03', x: 120, y: 50, depth: 35 },
    ],
  };
  const fill = ({ views }: TestStation) =>
    views.ledger.records('pit-t', { fillings: [filling], inspections: [], stock: [] });

  test('keeps what was told of the season before, over with the filling, and is learned anew', () => {
    const station = opened(upTo(at));
    const before = alarmsOf(station);
    expect(before.some(({ kind, clearedAt }) => kind === 'heating' && clearedAt === null)).toBe(true);
    fill(station);
    station.settle();
    const after = alarmsOf(station);
    expect(after.map(({ id }) => id)).toEqual(before.map(({ id }) => id));
    expect(after.map(({ clearedAt }) => clearedAt)).toEqual(before.map(({ clearedAt }) => clearedAt ?? at));
    station.commit(since(at));
    station.settle();
    expect(station.views.bed('pit-t')).toMatchObject({ bed: { filled: at } });
    const kinds = alarmsOf(station)
      .filter(({ raisedAt }) => raisedAt > at)
      .map(({ kind }) => kind);
    expect(kinds).toContain('wetting');
  });

  test('and whose filling comes late, or is followed by old readings, stands the same after a restart', () => {
    const inTime = opened(upTo(at));
    fill(inTime);
    inTime.settle();
    inTime.commit(since(at));
    inTime.settle();
    const early = upTo(dayAt(3));
    const late = opened(season.messages.filter((message) => !early.includes(message)));
    late.settle();
    fill(late);
    late.settle();
    late.commit(early);
    late.settle();
    const newer = (station: TestStation) => alarmsOf(station).filter(({ raisedAt }) => raisedAt > at);
    expect(newer(late).map(({ id }) => id)).toEqual(newer(inTime).map(({ id }) => id));
    expect(alarmsOf(late).filter(({ raisedAt }) => raisedAt <= at).length).toBeGreaterThan(0);
    const told = late.alarmText();
    late.close();
    const again = openStation({ directory: late.directory });
    again.station.inTransaction(() => undefined);
    expect(again.alarmText()).toBe(told);
  });
});

describe('how deep buried probes lie', () => {
  const at = dayAt(0);
  const hours = Array.from({ length: 50 }, (_, hour) => at + hour * HOUR_ms);
  const wave = (time: number, amplitude: number, lag_h: number): number =>
    22 + amplitude * Math.cos((2 * Math.PI * (time / HOUR_ms - 14 - lag_h)) / 24);
  const send = (probe: string, amplitude: number, lag_h: number): Message[] =>
    hours.map((time) => ({
      topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
      payload: JSON.stringify([
        { n: 'temperature', u: 'Cel', v: wave(time, amplitude, lag_h), bt: time / 1000 },
      ]),
    }));

  test('is judged from their first two days, and said in words', () => {
    const station = openStation();
    station.load(siteOf(OPTIONS));
    station.station.refresh();
    const probes = [
      { probe: 'p01', x: 75, y: 40, depth: 10 },
      { probe: 'p02', x: 30, y: 50, depth: 40 },
      { probe: 'p03', x: 120, y: 50, depth: 35 },
    ];
    const filling = { id: uuid(3), at, by: 'Wanja', courses: [{ roots: 90 }], probes };
    const { fillings } = station.views.ledger.records('pit-t', {
      fillings: [filling],
      inspections: [],
      stock: [],
    });
    const [first] = fillings[0]?.probes ?? [];
    const { share, lag_h } = first?.expected ?? { share: { likely: 0 }, lag_h: { likely: 0 } };
    station.commit([
      ...send('p09', 8, 0),
      ...send('p01', 8 * share.likely, lag_h.likely),
      ...send('p02', 6, 1),
      ...send('p03', 0, 0).slice(0, 8),
    ]);
    const depths = station.views.ledger.depths('pit-t', uuid(3));
    expect(depths.map(({ judgement }) => judgement.verdict)).toEqual([
      'as planned',
      'shallower',
      'cannot tell',
    ]);
    expect(depths[0]?.text).toMatch(/^p01 lies as deep as said, about 10 cm by the day's swing \(from \d/);
    expect(depths[1]?.text).toMatch(
      /^p02 lies shallower than said, about \d cm .*: look whether sand is missing/,
    );
    expect(depths[2]?.text).toMatch(
      /^p03 cannot be told: of the first 48 hours 7 have readings of the probe and 48 of the shade/,
    );
    expect([depths[0]?.judgedFrom, depths[0]?.judgedTo]).toEqual([at + HOUR_ms, at + 49 * HOUR_ms]);
    expect(station.views.ledger.depthsNow('pit-t')).toEqual(depths);
    const moved = { ...filling, id: uuid(6), at: at + 24 * HOUR_ms, supersedes: uuid(3) };
    station.views.ledger.records('pit-t', { fillings: [moved], inspections: [], stock: [] });
    const [now] = station.views.ledger.depthsNow('pit-t');
    expect([now?.judgedFrom, now?.judgement.verdict]).toEqual([at + 25 * HOUR_ms, 'as planned']);
    const look = { id: uuid(7), at: at + 40 * HOUR_ms, by: 'Wanja', opened: true, repacked: true };
    station.views.ledger.records('pit-t', {
      fillings: [],
      inspections: [{ ...look, found: ['nothing'] }],
      stock: [],
    });
    const [repacked] = station.views.ledger.depthsNow('pit-t');
    expect(repacked?.judgedFrom).toBe(at + 41 * HOUR_ms);
    expect(repacked?.text).toMatch(/^p01 cannot be told yet: of the first 48 hours 9 have readings/);
    expect(() => station.views.ledger.depths('pit-t', uuid(4))).toThrow(/no filling of bed "pit-t"/);
  });

  test('of a bed without a shade probe cannot be told, and filling says so', () => {
    const station = openStation();
    const site = siteOf(OPTIONS) as { probes: { id: string }[] };
    station.load({ ...site, probes: site.probes.filter(({ id }) => id !== 'p09') });
    station.station.refresh();
    const probes = [{ probe: 'p01', x: 75, y: 40, depth: 10 }];
    const filling = { id: uuid(5), at: at + 60_000, by: 'Wanja', courses: [{ roots: 9 }], probes };
    const { fillings } = station.views.ledger.records('pit-t', {
      fillings: [filling],
      inspections: [],
      stock: [],
    });
    expect(fillings[0]?.notes).toEqual([expect.stringMatching(/no probe stands in the shade/)]);
    const [depth] = station.views.ledger.depths('pit-t', uuid(5));
    expect(depth?.judgement.verdict).toBe('cannot tell');
    expect(depth?.text).toMatch(/no probe stands in the shade outside, so that nobody knows/);
  });

  test('of a bed that is not filled cannot be told yet; of a strange bed nothing is', () => {
    const station = openStation();
    const { beds, ...site } = siteOf(OPTIONS) as { beds: object[] };
    station.load({ ...site, beds: beds.map((bed) => ({ ...bed, filled: undefined })) });
    station.station.refresh();
    const [depth] = station.views.ledger.depthsNow('pit-t');
    expect(depth?.text).toMatch(/^p01 cannot be told yet: the bed is not filled; /);
    expect(() => station.views.ledger.depthsNow('pit-z')).toThrow(/pit-z/);
  });
});
