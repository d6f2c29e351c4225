import { describe, expect, test } from 'vitest';
import type { Episode } from '../../services/core/model/alarm.js';
import { openStores } from '../support/open.js';

const episode = (raisedAt: number, changes: Partial<Episode> = {}): Episode => ({
  bed: 'pit-a',
  kind: 'heating',
  priority: 'high',
  action: 'unpack',
  subject: '',
  raisedAt,
  clearedAt: null,
  evidence: { probe: 'p01', excess_C: 2.1 },
  place: { x: 10, y: 20, depth: 30, radius: 25 },
  ...changes,
});

function storeWith(...raised: number[]) {
  const { alarms } = openStores().registry;
  for (const time of raised) alarms.put(`a${time}`, 'site', episode(time), 'text');
  return alarms;
}

const ids = (rows: readonly { id: string }[]): string[] => rows.map(({ id }) => id);

test('alarms are listed newest first, page by page', () => {
  const alarms = storeWith(3, 1, 2);
  expect(ids(alarms.list({ limit: 2 }).rows)).toEqual(['a3', 'a2']);
  expect(alarms.list({ limit: 2 }).more).toBe(true);
  expect(ids(alarms.list({ limit: 2, after: 'a2' }).rows)).toEqual(['a1']);
});

test('a span holds its beginning and not its end', () => {
  expect(ids(storeWith(1, 2, 3).list({ from: 1, to: 3, limit: 9 }).rows)).toEqual(['a2', 'a1']);
});

describe('states of IEC 62682 as they are asked for', () => {
  const acknowledgement = { by: 'keeper', note: '', at: 9 };
  function oneOfEach() {
    const alarms = storeWith(1, 2);
    alarms.put('a3', 'site', episode(3, { clearedAt: 5 }), 'text');
    alarms.put('a4', 'site', episode(4, { clearedAt: 5 }), 'text');
    alarms.acknowledge('a2', acknowledgement);
    alarms.acknowledge('a4', acknowledgement);
    return alarms;
  }
  test.each([
    ['unacknowledged', 'a1'],
    ['acknowledged', 'a2'],
    ['returned-unacknowledged', 'a3'],
    ['normal', 'a4'],
  ] as const)('%s', (state, id) => {
    expect(ids(oneOfEach().list({ state, limit: 9 }).rows)).toEqual([id]);
  });
  test('shelved: none yet', () => {
    expect(oneOfEach().list({ state: 'shelved', limit: 9 }).rows).toEqual([]);
  });
});

test('writing an alarm again keeps its acknowledgement', () => {
  const alarms = storeWith(1);
  alarms.acknowledge('a1', { by: 'keeper', note: 'on my way', at: 2 });
  alarms.put('a1', 'site', episode(1, { clearedAt: 7 }), 'other text');
  expect(alarms.get('a1')).toMatchObject({
    clearedAt: 7,
    text: 'other text',
    acknowledgement: { note: 'on my way' },
  });
});

test('a second acknowledgement changes nothing', () => {
  const alarms = storeWith(1);
  alarms.acknowledge('a1', { by: 'first', note: '', at: 2 });
  alarms.acknowledge('a1', { by: 'second', note: '', at: 3 });
  expect(alarms.get('a1')?.acknowledgement).toEqual({ by: 'first', note: '', at: 2 });
});

test('a withdrawn alarm is not listed, and comes back when it is found again', () => {
  const alarms = storeWith(1);
  alarms.withdraw('a1');
  expect(alarms.list({ limit: 9 }).rows).toEqual([]);
  expect(alarms.open('pit-a')).toEqual([]);
  expect(alarms.get('a1')?.withdrawn).toBe(true);
  alarms.put('a1', 'site', episode(1), 'text');
  expect(alarms.list({ limit: 9 }).rows).toHaveLength(1);
});

test('only what can still change is touched since a time', () => {
  const alarms = storeWith(5);
  alarms.put('old', 'site', episode(1, { clearedAt: 2 }), 'text');
  alarms.put('lasting', 'site', episode(2), 'text');
  expect(ids(alarms.touchedSince('pit-a', 3))).toEqual(['lasting', 'a5']);
});

test('what an alarm is about comes back', () => {
  const { alarms } = openStores().registry;
  const fault = episode(1, { kind: 'probe-fault', action: 'service', subject: 'p03', place: null });
  alarms.put('f', 'site', fault, 'text');
  expect(alarms.get('f')).toMatchObject({ ...fault, told: { place: null, again: false } });
});

test('what people were told of where to dig stays when the alarm is written again', () => {
  const alarms = storeWith(1);
  const told = { place: { x: 1, y: 2, depth: 3, radius: 4 }, again: true };
  alarms.noteTold('a1', told);
  alarms.put('a1', 'site', episode(1, { place: null }), 'text');
  expect(alarms.get('a1')).toMatchObject({ place: null, told });
});
