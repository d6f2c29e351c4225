import { describe, expect, test } from 'vitest';
import type { ToldRecord } from '../../services/core/alarms/duty/index.js';
import { openStores } from '../support/open.js';

const record = (message: string, part: Partial<ToldRecord> = {}): ToldRecord =>
  Object.freeze({
    ...{ message, alarm: 'a1', bed: 'pit-a', person: 'ana', event: 'raised', at: 10 },
    ...{ way: { via: 'sms', to: '+260970000001' }, step: 0, form: 'single', pace: 'at-once' },
    ...{ caution: false, closing: false, delivered: null, ...part },
  });

const put = (key: string) => ({
  key,
  via: 'sms',
  to: '+260970000001',
  body: '{}',
  alarm: 'a1',
  event: 'raised',
});

test('what was told comes back as it was', () => {
  const { told } = openStores().registry;
  const one = record('m1', { caution: true, closing: true, step: 2, form: 'summary', pace: 'by-day' });
  told.add('ridge', [one]);
  expect(told.since('ridge', 0)).toEqual([one]);
  expect(told.ofAlarm('a1')).toEqual([one]);
});

test('whether it arrived is what the outbox knows', () => {
  const { told, outbox } = openStores().registry;
  outbox.add(['m1', 'm2', 'm3'].map(put), 5);
  told.add('ridge', [record('m1'), record('m2'), record('m3'), record('m4')]);
  outbox.delivered('m1', 11);
  outbox.givenUp('m2', 11, 'refused');
  outbox.failed('m3', 11, 50, 'no connection');
  expect(told.since('ridge', 0).map(({ delivered }) => delivered)).toEqual([true, false, null, null]);
});

test('of an alarm: all, or what was told before a time; and whether a person was told of it', () => {
  const { told } = openStores().registry;
  told.add('ridge', [record('m1', { at: 9 }), record('m2', { at: 10, person: 'ben' })]);
  expect(told.ofAlarm('a1')).toHaveLength(2);
  expect(told.ofAlarm('a1', 10).map(({ message }) => message)).toEqual(['m1']);
  expect([told.wasTold('ben', 'a1'), told.wasTold('cy', 'a1'), told.wasTold('ben', 'a2')]).toEqual([
    true,
    false,
    false,
  ]);
});

test('a time is included, other sites are not', () => {
  const { told } = openStores().registry;
  told.add('ridge', [record('m1', { at: 9 }), record('m2', { at: 10 })]);
  told.add('valley', [record('m3', { at: 10 })]);
  expect(told.since('ridge', 10).map(({ message }) => message)).toEqual(['m2']);
});

test('cautions of a season are found, those before it are left where they are', () => {
  const { told } = openStores().registry;
  told.add('ridge', [
    record('m1', { at: 1, caution: true }),
    record('m2', { at: 5, caution: true }),
    record('m3'),
  ]);
  expect(told.cautions('ridge', 2).map(({ message }) => message)).toEqual(['m2']);
  expect(told.cautions('ridge', 0)).toHaveLength(2);
});

describe('a message', () => {
  const stores = () => {
    const { told } = openStores().registry;
    told.add('ridge', [
      record('m1'),
      record('m1', { alarm: 'a2', event: 'cleared' }),
      record('m2', { person: 'ben' }),
    ]);
    return told;
  };
  test('is to one person of one site', () => {
    const told = stores();
    expect(told.isTo('ana', 'ridge', 'm1')).toBe(true);
    expect(told.isTo('ben', 'ridge', 'm1')).toBe(false);
    expect(told.isTo('ana', 'valley', 'm1')).toBe(false);
    expect(told.isTo('ana', 'ridge', 'm')).toBe(false);
  });
  test('told of its alarms, in the order that is asked for', () => {
    expect(
      stores()
        .ofMessages(['m2', 'm1', 'none'])
        .map(({ message, alarm }) => message + alarm),
    ).toEqual(['m2a1', 'm1a1', 'm1a2']);
  });
  test('that is dropped told nothing', () => {
    const told = stores();
    told.drop(['m1', 'none']);
    expect(told.since('ridge', 0).map(({ message }) => message)).toEqual(['m2']);
  });
  test('tells one event of one alarm once: a second record is refused, not lost', () => {
    expect(() => stores().add('ridge', [record('m1')])).toThrow(/UNIQUE/);
  });
});
