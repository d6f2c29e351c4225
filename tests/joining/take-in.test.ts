import { describe, expect, test } from 'vitest';
import { makeSeason, SHORT_SEASON, siteOf } from '../support/season.js';
import { openStation } from '../support/station.js';

const START = SHORT_SEASON.startAt;
const TOPIC = 'sandlarder/v1/test-ridge/probes/p01/readings';

const pack = (time: number, temperature: number) => ({
  topic: TOPIC,
  payload: JSON.stringify([{ n: 'temperature', u: 'Cel', bt: time / 1000, v: temperature }]),
});

function openWithSite() {
  const station = openStation();
  station.load(siteOf(SHORT_SEASON));
  return station;
}

describe('what a commit keeps', () => {
  test('a reading of a known probe', () => {
    const station = openWithSite();
    expect(station.commit([pack(START + 1000, 20)])).toMatchObject({ messages: 1, kept: 1, duplicates: 0 });
  });

  test('a repeat within the commit and in a later one is stored once', () => {
    const station = openWithSite();
    expect(station.commit([pack(START, 20), pack(START, 20)])).toMatchObject({ kept: 1, duplicates: 1 });
    expect(station.commit([pack(START, 20)])).toMatchObject({ kept: 0, duplicates: 1 });
  });

  test('another value for the same time is set aside with both values named', () => {
    const station = openWithSite();
    station.commit([pack(START, 20), pack(START, 25)]);
    expect(station.archive.quarantine.list(1)[0]).toMatchObject({
      reason: 'value-conflict',
      detail: 'expected temperature 20, kept before for 2026-05-04T08:00:00Z, got 25',
    });
  });

  test('a reading from before the first placement is set aside', () => {
    const station = openWithSite();
    expect(station.commit([pack(START - 1, 20)]).setAside.get('before-placement')).toBe(1);
  });

  test('a good record beside a bad one is kept', () => {
    const station = openWithSite();
    const payload = JSON.stringify([
      { bt: START / 1000, n: 'temperature', u: 'Cel', v: 20 },
      { n: 'humidity', u: 'furlong', v: 3 },
    ]);
    const taken = station.commit([{ topic: TOPIC, payload }]);
    expect(taken.kept).toBe(1);
    expect(taken.setAside.get('unit-unknown')).toBe(1);
  });

  test('rubbish on our topics and others is set aside and nothing else happens', () => {
    const station = openWithSite();
    const rubbish = ['', '{', '[]', '"x"', '[{"n":"temperature"}]', '\u0000', '[{"bver":99,"n":"a","v":1}]'];
    const taken = station.commit(
      rubbish.flatMap((payload) => [
        { topic: TOPIC, payload },
        { topic: 'a/b', payload },
      ]),
    );
    expect(taken.kept).toBe(0);
    expect(station.archive.quarantine.totals().length).toBeGreaterThan(2);
  });
});

describe('a probe that nobody knows', () => {
  test('its readings are kept apart and listed', () => {
    const station = openStation();
    expect(station.commit([pack(START, 20), pack(START + 60_000, 21)])).toMatchObject({ kept: 0, apart: 2 });
    expect(station.views.unknownProbes()).toEqual([
      { site: 'test-ridge', probe: 'p01', readings: 2, firstAt: START, lastAt: START + 60_000 },
    ]);
  });

  test('they are taken in when a description knows it', () => {
    const station = openStation();
    station.commit([pack(START - 60_000, 19), pack(START, 20), pack(START + 60_000, 21)]);
    station.load(siteOf(SHORT_SEASON));
    station.settle();
    expect(station.views.unknownProbes()).toEqual([]);
    const [series] = station.views.series('pit-t', { from: START - 1e6, to: START + 1e6, points: 100 });
    expect(series?.temperature_C).toEqual([20, 21]);
    expect(station.archive.quarantine.totals()).toEqual([{ reason: 'before-placement', count: 1 }]);
  });
});

describe('a commit that fails', () => {
  test('leaves nothing behind, and the next one works', () => {
    const station = openWithSite();
    const { messages } = makeSeason({ ...SHORT_SEASON, days: 3 });
    station.commit(messages.slice(0, 100));
    const put = station.archive.quarantine.add;
    station.archive.quarantine.add = () => {
      throw Object.assign(new Error('disk full'), { code: 'SQLITE_FULL' });
    };
    const bad = { topic: 'a/b', payload: 'x' };
    expect(() => station.commit([...messages.slice(100, 200), bad])).toThrow('disk full');
    station.archive.quarantine.add = put;
    expect(station.database.prepare('SELECT count(*) FROM reading').pluck().get()).toBe(100);
    expect(station.commit([...messages.slice(100, 200), bad]).kept).toBe(200);
  });

  test('a watch that throws keeps no reading out, and says which bed stands still', () => {
    const station = openStation({
      watch: {
        version: 'broken',
        open: () => ({
          step: () => {
            throw new Error('cannot judge');
          },
          standing: () => ({ basis: 'nothing', learning: true }),
          checkpoint: () => '{}',
        }),
      },
    });
    station.load(siteOf(SHORT_SEASON));
    const { messages } = makeSeason({ ...SHORT_SEASON, days: 1 });
    expect(station.commit(messages).kept).toBe(messages.length * 2);
    expect(station.station.failures.get('pit-t')).toBe('cannot judge');
  });
});
