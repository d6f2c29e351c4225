/** What is told, while somebody listens, of what was taken in, written down and described otherwise. */
import { describe, expect, test } from 'vitest';
import { createMetrics } from '../../services/http/index.js';
import { Changes } from '../../services/joining/changes.js';
import { LiveNews } from '../../services/joining/live-news.js';
import { siteWithShelf } from '../support/bench-work.js';
import { openDuty } from '../support/duty.js';
import { HandTimer } from '../support/hand-timer.js';
import { entry, ledgerApp, ledgerSite, look } from '../support/ledger.js';
import { pointingWatch } from '../support/pointing-watch.js';
import { type Message, SHORT_SEASON, siteOf } from '../support/season.js';
import { openStation } from '../support/station.js';

const HOUR_ms = 3_600_000;
const WEIGHING = { wet_g: 803.6, dry_g: 800, container_g: 300, resolution_g: 0.1, way: 'oven' };

const at = (hour: number, temperature: number, probe = 'p01'): Message => ({
  topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
  payload: JSON.stringify([
    { n: 'temperature', u: 'Cel', v: temperature, bt: (SHORT_SEASON.startAt + hour * HOUR_ms) / 1000 },
  ]),
});

function listening(changes: Changes, problems: () => readonly string[] = () => []) {
  const timer = new HandTimer();
  const metrics = createMetrics('0.1.0');
  const news = new LiveNews({ changes, problems, metrics, clock: timer.clock, after: timer.after });
  const told: (readonly [string, object])[] = [];
  const leave = news.listen((events) =>
    told.push(...events.map(({ event, data }) => [event, data] as const)),
  );
  /** What was told after some time, and since this was asked last. */
  const heard = (time_ms: number) => {
    timer.pass(time_ms);
    return told.splice(0);
  };
  return { news, timer, metrics, leave, heard };
}

function atStation({ watch = pointingWatch } = {}) {
  const station = openStation({ watch });
  station.load(siteOf(SHORT_SEASON));
  station.station.refresh();
  const live = listening(station.station.changes);
  live.heard(2_000);
  return { ...station, ...live };
}

describe('of readings', () => {
  test('one telling a second, with each bed once, however many come', () => {
    const { commit, heard } = atStation();
    commit([at(0, 20)]);
    expect(heard(0)).toEqual([['readings', { beds: ['pit-t'] }]]);
    for (let count = 1; count <= 30; count += 1) commit([at(count / 60, 20 + count / 100)]);
    expect(heard(999)).toEqual([]);
    expect(heard(1)).toEqual([['readings', { beds: ['pit-t'] }]]);
    expect(heard(60_000)).toEqual([]);
  });

  test('the shade is told of each bed that it matters to', () => {
    const { commit, heard } = atStation();
    commit([at(0, 25, 'p09')]);
    expect(heard(0)).toEqual([['readings', { beds: ['pit-t'] }]]);
  });

  test('what is there already is nothing new', () => {
    const { commit, heard } = atStation();
    commit([at(0, 20)]);
    heard(1_000);
    commit([at(0, 20), { topic: 'sandlarder/v1/test-ridge/probes/p01/readings', payload: '{' }]);
    expect(heard(1_000)).toEqual([]);
  });

  test('an unknown probe is told of once, not with each reading', () => {
    const { commit, heard } = atStation();
    commit([at(0, 20, 'p77')]);
    expect(heard(1_000)).toEqual([['probes', {}]]);
    commit([at(1, 20, 'p77')]);
    expect(heard(1_000)).toEqual([]);
  });

  test('what was rolled back is at the most asked for in vain, and later news follow', () => {
    const { station, commit, heard } = atStation();
    expect(() =>
      station.inTransaction(() => {
        station.changes.bed('pit-t');
        throw new Error('full');
      }),
    ).toThrow('full');
    heard(1_000);
    commit([at(0, 20)]);
    expect(heard(1_000)).toContainEqual(['readings', { beds: ['pit-t'] }]);
  });
});

describe('of alarms', () => {
  test('raised, moved and over: each with its id, and nothing while it only lasts', () => {
    const { commit, settle, heard, registry } = atStation();
    const feed = (hour: number, warm_C: number, x: number) => {
      commit([at(hour + 0.2, x, 'p02'), at(hour + 0.2, 15, 'p03'), at(hour + 0.2, warm_C)]);
      settle();
      return heard(1_000).filter(([event]) => event === 'alarms');
    };
    const named = (ids: readonly string[]) => [['alarms', { beds: ['pit-t'], ids, more: false }]];
    feed(0, 20, 10);
    feed(1, 31, 20);
    const raised = feed(2, 31, 20);
    const [row] = registry.alarms.open('pit-t');
    expect(raised).toEqual(named([row?.id ?? '']));
    expect(feed(3, 31, 60)).toEqual([]);
    expect(feed(4, 20, 60)).toEqual(named([row?.id ?? '']));
    expect(feed(5, 20, 60)).toEqual(named([row?.id ?? '']));
  });

  test('seen, put off and found, by whatever way', () => {
    const duty = openDuty();
    const { heard } = listening(duty.station.changes);
    const told = () => heard(1_000).filter(([event]) => event === 'alarms');
    const a = duty.raise('pit-a');
    const b = duty.raise('pit-b');
    const named = (bed: string, id: string) => [['alarms', { beds: [bed], ids: [id], more: false }]];
    expect(told()).toEqual([['alarms', { beds: ['pit-a', 'pit-b'], ids: [a, b], more: false }]]);
    duty.views.acknowledge(a, { by: 'Ana', note: '' });
    expect(told()).toEqual(named('pit-a', a));
    duty.views.shelve(b, { by: 'Ana', hours: 6 });
    expect(told()).toEqual(named('pit-b', b));
    const found = { at: duty.now(), by: 'Ana', opened: true, repacked: false, found: ['rot' as const] };
    duty.views.inspect('pit-b', found);
    expect(told()).toEqual(named('pit-b', b));
    expect(() => duty.views.acknowledge('no-such', { by: 'Ana', note: '' })).toThrow('no alarm');
    expect(told()).toEqual([]);
  });

  test('of more than can be named it is said so, and what is named is bounded', () => {
    const changes = new Changes();
    const { heard } = listening(changes);
    changes.alarms('pit-a', [...Array(200).keys()].map(String));
    changes.alarms('pit-a', ['7']);
    expect(heard(0)[0]?.[1]).toMatchObject({ more: false });
    changes.alarms('pit-a', [...Array(201).keys()].map(String));
    const [, data] = heard(1_000)[0] ?? [];
    expect(data).toMatchObject({ more: true });
    expect((data as { ids: string[] }).ids).toHaveLength(200);
    changes.alarms('pit-a', ['1']);
    expect(heard(1_000)[0]?.[1]).toMatchObject({ more: false, ids: ['1'] });
  });
});

describe('of what people do', () => {
  test('what is written down at a bed is told of that bed', async () => {
    const app = await ledgerApp({ site: ledgerSite({ filled: '2026-05-04T08:00:00Z' }) });
    const { heard } = listening(app.station.changes);
    app.goTo(10);
    const told = async (where: string, body: object): Promise<(readonly [string, object])[]> => {
      expect((await app.post(`/api/beds/pit-t/${where}`, body)).statusCode).toBe(201);
      return heard(1_000).filter(([event]) => event === 'beds');
    };
    const bed = [['beds', { beds: ['pit-t'] }]];
    expect(await told('inspections', look(1))).toEqual(bed);
    expect(await told('stock', { ...entry(2), kind: 'in', reason: 'added' })).toEqual(bed);
    const readiness = { at: '2026-05-06T08:00:00Z', by: 'Wanja', answers: {} };
    expect(await told('readiness', readiness)).toEqual(bed);
    expect(await told('sand', { by: 'Wanja', weighing: WEIGHING })).toEqual(bed);
    expect((await app.post('/api/beds/pit-t/stock', { kind: 'in' })).statusCode).toBe(400);
    expect(heard(1_000)).toEqual([]);
  });

  test('a description that another process loaded is told of with all its beds', () => {
    const { load, station, heard } = atStation();
    load(siteWithShelf());
    station.inTransaction(() => undefined);
    const events = heard(1_000).map(([event]) => event);
    expect(events).toEqual(['site', 'beds', 'probes']);
  });
});

describe('of the service itself', () => {
  test('a change of what is wrong is told, and not what stays', () => {
    let problems: string[] = [];
    const { heard } = listening(new Changes(), () => problems);
    expect(heard(60_000)).toEqual([]);
    problems = ['no connection to the broker'];
    expect(heard(60_000)).toEqual([['health', { status: 'degraded' }]]);
    problems = [];
    expect(heard(10_000)).toEqual([['health', { status: 'ok' }]]);
  });
});

test('who leaves hears nothing more, and a stop leaves nothing waiting', () => {
  const changes = new Changes();
  const { news, leave, timer, heard } = listening(changes);
  changes.bed('pit-a');
  leave();
  expect(heard(1_000)).toEqual([]);
  changes.bed('pit-a');
  news.close();
  changes.bed('pit-b');
  expect(timer.waiting).toBe(0);
});

test('streams are counted, with why they ended', async () => {
  const { news, metrics } = listening(new Changes());
  news.opened();
  news.opened();
  news.ended('slow');
  news.refused();
  const { text } = await metrics.text();
  for (const line of [
    'sandlarder_streams_open 1',
    'sandlarder_streams_opened_total 2',
    'sandlarder_streams_refused_total 1',
    'sandlarder_streams_ended_total{why="slow"} 1',
  ])
    expect(text).toContain(`\n${line}\n`);
});
