import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { formatTime } from '../../../services/core/model/time.js';
import type { Message } from '../../../services/intake/index.js';
import { RecordsIn } from '../../../services/joining/sharing/records-in.js';
import { RecordsOut } from '../../../services/joining/sharing/records-out.js';
import { temporaryDirectory } from '../../support/open.js';
import { makeSeason, SHORT_SEASON } from '../../support/season.js';
import { standStation } from '../../support/standing-station.js';
import { inBatches, NOW, openStation, type TestStation } from '../../support/station.js';

const SEASON = makeSeason({ ...SHORT_SEASON, days: 7, rotFromDay: 6, wetFromDay: 2 });
const SITE = 'test-ridge';
const LOOK = {
  ...{ id: '5a8c8f1e-5a4b-4c8d-9e0f-000000000001', bed: 'pit-t', by: 'keeper' },
  ...{ at: '2026-05-20T08:00:00Z', opened: true, repacked: false, found: ['rot'] },
};

/** A data directory after the season, made once and copied for each test. */
const seasonOver = mkdtempSync(join(tmpdir(), 'sandlarder-edge-'));
afterAll(() => rmSync(seasonOver, { recursive: true }));

function makeSeasonOver(): void {
  const station = standStation(seasonOver);
  station.load(SEASON.site);
  for (const batch of inBatches(SEASON.messages, 500)) station.commit(batch);
  station.settle();
  station.close();
}

/** An edge machine after the season, and all that it sends. */
function edge() {
  const directory = temporaryDirectory();
  if (readdirSync(seasonOver).length === 0) makeSeasonOver();
  cpSync(seasonOver, directory, { recursive: true });
  const station = openStation({ directory });
  station.station.refresh();
  const sent: Message[] = [];
  let isFailing = false;
  const out = new RecordsOut({
    ...{ registry: station.registry, connected: () => true, log: () => undefined, now: () => NOW },
    publish: async (message) => {
      if (isFailing) throw new Error('no connection');
      sent.push(message);
    },
  });
  const kinds = () => sent.splice(0).map(({ topic }) => topic.split('/').at(-1));
  const emptied = () => expect.poll(() => station.registry.records.count()).toBe(0);
  return { station, sent, out, kinds, emptied, fail: (fails: boolean) => (isFailing = fails) };
}

/** A partition of a centre. */
function centre() {
  const station = openStation();
  const records = new RecordsIn(station.station, () => NOW);
  const take = (kind: 'site' | 'inspection' | 'alarm', document: unknown, site = SITE): string | undefined =>
    station.station.inTransaction(() =>
      records.take(
        { site, kind },
        Buffer.from(typeof document === 'string' ? document : JSON.stringify(document)),
      ),
    );
  return { ...station, records, take };
}

const acknowledgeFirst = ({ registry }: TestStation): string => {
  const [first] = registry.alarms.open('pit-t');
  registry.alarms.acknowledge(first?.id ?? '', { by: 'keeper', note: 'going there', at: NOW });
  return first?.id ?? '';
};

describe('an edge', () => {
  test('sends nothing unless it is told to, and then all that is there, the site first and without its people', async () => {
    const { station, sent, out, kinds, emptied } = edge();
    out.send();
    await new Promise(setImmediate);
    expect([sent.length, station.registry.records.count()]).toEqual([0, 0]);
    station.registry.records.setActive(true);
    out.send();
    await emptied();
    const { people, beds } = JSON.parse(String(sent[0]?.payload));
    expect([people, beds[0].id, beds[0].keeper]).toEqual([undefined, 'pit-t', undefined]);
    const alarms = JSON.parse(station.alarmText()).length;
    expect(kinds()).toEqual(['site', ...Array(alarms).fill('alarm')]);
  });

  test('sends what is written later, and of what changed twice the newest once', async () => {
    const { station, sent, out, emptied } = edge();
    station.registry.records.setActive(true);
    out.send();
    await emptied();
    sent.length = 0;
    const id = acknowledgeFirst(station);
    station.registry.alarms.unacknowledge(id);
    acknowledgeFirst(station);
    out.send();
    await emptied();
    expect(sent.map(({ payload }) => JSON.parse(String(payload)))).toMatchObject([
      { id, state: 'acknowledged', acknowledged: { by: 'keeper', at: formatTime(NOW) }, withdrawn: false },
    ]);
  });

  test('keeps what the broker did not take, and sends it again', async () => {
    const { station, out, fail, kinds, emptied } = edge();
    station.registry.records.setActive(true);
    const waiting = station.registry.records.count();
    fail(true);
    out.send();
    await new Promise(setImmediate);
    expect(station.registry.records.count()).toBe(waiting);
    fail(false);
    out.send();
    await emptied();
    expect(kinds()).toHaveLength(waiting);
  });

  test('that tells a centre no more notes nothing more', () => {
    const { station } = edge();
    station.registry.records.setActive(true);
    station.registry.records.setActive(false);
    acknowledgeFirst(station);
    expect(station.registry.records.count()).toBe(0);
  });
});

describe('a centre', () => {
  test('takes in a site, readings and a look as the edge did, and finds the same alarms', () => {
    const at = centre();
    expect(at.take('site', SEASON.site)).toBeUndefined();
    for (const batch of inBatches(SEASON.messages, 500)) at.commit(batch);
    at.settle();
    expect(at.take('inspection', LOOK)).toBeUndefined();
    at.settle();
    const { station } = edge();
    new RecordsIn(station.station, () => NOW).take(
      { site: SITE, kind: 'inspection' },
      Buffer.from(JSON.stringify(LOOK)),
    );
    station.settle();
    expect(at.alarmText()).toBe(station.alarmText());
  });

  test('the same again is no second version, and no second look', () => {
    const at = centre();
    at.take('site', SEASON.site);
    const revision = at.registry.sites.revision();
    expect([at.take('site', SEASON.site), at.registry.sites.revision()]).toEqual([undefined, revision]);
    expect([at.take('inspection', LOOK), at.take('inspection', LOOK)]).toEqual([undefined, undefined]);
    expect(at.registry.inspections.between('pit-t', 0, NOW)).toHaveLength(1);
  });

  test('takes over who answered an alarm at the edge, also where the alarm is found after the answer came', () => {
    const at = centre();
    at.take('site', SEASON.site);
    const { station } = edge();
    const id = acknowledgeFirst(station);
    const answered = {
      id,
      site: SITE,
      bed: 'pit-t',
      acknowledged: { by: 'keeper', note: '', at: formatTime(NOW) },
    };
    expect(at.take('alarm', answered)).toBeUndefined();
    at.records.takeOver();
    for (const batch of inBatches(SEASON.messages, 500)) at.commit(batch);
    at.settle();
    expect(at.registry.alarms.get(id)?.acknowledgement).toBeNull();
    at.records.takeOver();
    expect(at.registry.alarms.get(id)?.acknowledgement).toMatchObject({ by: 'keeper', at: NOW });
    expect(at.registry.edgeAlarms.count()).toBe(1);
  });

  const OTHER = { ...(SEASON.site as object), site: { id: 'other', name: 'Other', timezone: 'UTC' } };

  test.each<[string, 'site' | 'inspection' | 'alarm', unknown, RegExp]>([
    ['no JSON', 'alarm', '{', /expected JSON/],
    ['no object', 'alarm', 'null', /expected object/],
    ['a site without its key', 'site', { version: 1 }, /site: expected/],
    [
      'a site that is another than the topic says',
      'site',
      OTHER,
      /site\.id: expected what is of site "test-ridge"/,
    ],
    [
      'an alarm of another site',
      'alarm',
      { id: 'x', site: 'other', bed: 'b', acknowledged: null },
      /site: expected what is of/,
    ],
    ['an alarm without its answer', 'alarm', { id: 'x', site: SITE, bed: 'b' }, /acknowledged: expected/],
    ['a look without an id', 'inspection', { ...LOOK, id: undefined }, /id: expected/],
    ['a look at a bed that nobody knows', 'inspection', { ...LOOK, bed: 'pit-x' }, /pit-x/],
    [
      'a look that found nothing and rot',
      'inspection',
      { ...LOOK, found: ['nothing', 'rot'] },
      /"nothing" alone/,
    ],
    [
      'another look under the same id',
      'inspection',
      { ...LOOK, found: ['damp'] },
      /expected the content that is there/,
    ],
  ])('sets aside %s', (_, kind, document, problem) => {
    const at = centre();
    at.take('site', SEASON.site);
    at.take('inspection', LOOK);
    expect(at.take(kind, document)).toMatch(problem);
  });

  test('sets aside a bed whose id another site has', () => {
    const at = centre();
    at.take('site', SEASON.site);
    expect(at.take('site', OTHER, 'other')).toMatch(/beds\[0\]\.id: expected an id that no other site uses/);
  });

  test('sets aside a look at a bed of another site', () => {
    const at = centre();
    at.take('site', SEASON.site);
    expect(at.take('inspection', LOOK, 'other')).toMatch(/bed: expected what is of site "other"/);
  });
});
