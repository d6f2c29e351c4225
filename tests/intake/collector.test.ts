import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { Collector } from '../../services/intake/collector.js';
import type { CollectorLimits } from '../../services/intake/limits.js';
import type { Incoming } from '../../services/intake/ports.js';
import { HandTiming } from './hand-timing.js';

const message = (name: string, bytes = 1): Incoming => ({
  topic: name,
  payload: new Uint8Array(bytes),
  receivedAt: 0,
});

/** A collector over a store that can be broken. */
function bench(limits: Partial<CollectorLimits> = {}) {
  const timing = new HandTiming();
  const stored: string[][] = [];
  const acknowledged: string[] = [];
  const failures: unknown[] = [];
  const store = { broken: false };
  const collector = new Collector({
    commit: (group) => {
      if (store.broken) throw new Error('disk full');
      stored.push(group.map(({ topic }) => topic));
    },
    onFailure: (error) => failures.push(error),
    limits,
    timing,
  });
  const send = (name: string, bytes?: number) =>
    collector.accept(message(name, bytes), () => acknowledged.push(name));
  return { timing, stored, acknowledged, failures, store, collector, send };
}

describe('when a group is committed', () => {
  test('at once when its messages come to so many bytes, few as they are', () => {
    const { stored, acknowledged, send } = bench({ group_bytes: 10 });
    send('a', 9);
    expect(stored).toEqual([]);
    send('b', 1);
    expect(stored).toEqual([['a', 'b']]);
    expect(acknowledged).toEqual(['a', 'b']);
  });

  test('a single message after two idle turns, and then it is acknowledged', () => {
    const { timing, stored, acknowledged, send } = bench();
    expect(send('a')).toBe(true);
    timing.turn();
    expect(stored).toEqual([]);
    timing.turn();
    expect(stored).toEqual([['a']]);
    expect(acknowledged).toEqual(['a']);
    expect(timing.due).toEqual([]);
    expect(timing.waitingImmediates).toBe(0);
  });

  test('a stream is one group until the loop is idle', () => {
    const { timing, stored, send } = bench();
    for (const name of ['a', 'b', 'c']) {
      send(name);
      timing.turn();
    }
    expect(stored).toEqual([]);
    timing.turn();
    timing.turn();
    expect(stored).toEqual([['a', 'b', 'c']]);
  });

  test('at the longest wait though something new comes each turn', () => {
    const { timing, stored, send } = bench({ group_ms: 50 });
    for (let time = 0; time < 49; time += 1) {
      send(`m${time}`);
      timing.turn();
      timing.pass(1);
    }
    expect(stored).toEqual([]);
    timing.pass(1);
    expect(stored[0]).toHaveLength(49);
  });

  test('at once when it is full', () => {
    const { stored, acknowledged, send } = bench({ group_messages: 3 });
    for (const name of ['a', 'b', 'c', 'd']) send(name);
    expect(stored).toEqual([['a', 'b', 'c']]);
    expect(acknowledged).toEqual(['a', 'b', 'c']);
  });

  test('acknowledged in the order of arrival, only after the commit', () => {
    const order: string[] = [];
    const timing = new HandTiming();
    const collector = new Collector({ commit: () => order.push('commit'), timing });
    for (const name of ['a', 'b']) collector.accept(message(name), () => order.push(name));
    collector.flush();
    expect(order).toEqual(['commit', 'a', 'b']);
  });

  test('what comes during an acknowledgement is committed too', () => {
    const timing = new HandTiming();
    const stored: string[] = [];
    const collector = new Collector({
      commit: (group) => stored.push(...group.map(({ topic }) => topic)),
      timing,
    });
    collector.accept(message('a'), () => collector.accept(message('b'), () => {}));
    collector.flush();
    expect(stored).toEqual(['a', 'b']);
    expect(collector.counts.waiting).toBe(0);
  });
});

describe('a store that fails', () => {
  test('nothing is acknowledged, and the same messages are tried again, later and later', () => {
    const { timing, stored, acknowledged, failures, store, collector, send } = bench();
    store.broken = true;
    send('a');
    timing.turn();
    timing.turn();
    expect(collector.failing).toBe(true);
    const pauses: number[] = [];
    for (let attempt = 0; attempt < 8; attempt += 1) {
      pauses.push(...timing.due);
      timing.pass(timing.due[0] ?? 0);
    }
    expect(pauses).toEqual([100, 200, 400, 800, 1600, 3200, 5000, 5000]);
    expect(failures).toHaveLength(9);
    expect(acknowledged).toEqual([]);
    store.broken = false;
    send('b');
    timing.pass(5000);
    expect(stored).toEqual([['a', 'b']]);
    expect(acknowledged).toEqual(['a', 'b']);
    expect(collector.failing).toBe(false);
  });

  test('new messages wait for the next try and do not hasten it', () => {
    const { timing, failures, store, send } = bench({ group_messages: 2 });
    store.broken = true;
    for (const name of ['a', 'b', 'c', 'd', 'e']) send(name);
    timing.turn();
    timing.turn();
    expect(failures).toHaveLength(1);
    expect(timing.due).toEqual([100]);
  });

  test('after a success the pauses begin anew', () => {
    const { timing, store, send } = bench();
    for (const name of ['a', 'b']) {
      store.broken = true;
      send(name);
      timing.turn();
      timing.turn();
      expect(timing.due).toEqual([100]);
      store.broken = false;
      timing.pass(100);
    }
  });

  test('once it is back all that waits is committed, in groups', () => {
    const { timing, stored, store, send } = bench({ group_messages: 2 });
    store.broken = true;
    for (const name of ['a', 'b', 'c', 'd', 'e']) send(name);
    store.broken = false;
    timing.pass(100);
    expect(stored).toEqual([['a', 'b'], ['c', 'd'], ['e']]);
  });

  test('an acknowledgement that throws harms no other', () => {
    const { acknowledged, failures, collector, send } = bench();
    collector.accept(message('bad'), () => {
      throw new Error('connection gone');
    });
    send('good');
    collector.flush();
    expect(acknowledged).toEqual(['good']);
    expect(failures).toHaveLength(1);
  });
});

describe('what may wait', () => {
  test('messages beyond the limit are dropped, counted and never acknowledged', () => {
    const { timing, acknowledged, store, collector, send } = bench({
      group_messages: 2,
      waiting_messages: 3,
    });
    store.broken = true;
    expect(['a', 'b', 'c', 'd'].map((name) => send(name))).toEqual([true, true, true, false]);
    expect(collector.counts).toMatchObject({ accepted: 3, dropped: 1, waiting: 3 });
    store.broken = false;
    timing.pass(100);
    expect(acknowledged).toEqual(['a', 'b', 'c']);
    expect(send('d')).toBe(true);
  });

  test('bytes beyond the limit too, and room comes back with a commit', () => {
    const { collector, send } = bench({ waiting_bytes: 10 });
    expect([send('a', 6), send('b', 5), send('c', 4)]).toEqual([true, false, true]);
    expect(collector.counts.waiting_bytes).toBe(10);
    collector.flush();
    expect(collector.counts.waiting_bytes).toBe(0);
    expect(send('b', 10)).toBe(true);
  });
});

describe('closing', () => {
  test('commits what waits and takes nothing more', () => {
    const { timing, stored, acknowledged, collector, send } = bench();
    send('a');
    collector.close();
    expect(stored).toEqual([['a']]);
    expect(acknowledged).toEqual(['a']);
    expect(send('b')).toBe(false);
    expect(timing.due).toEqual([]);
    timing.turn();
    expect(stored).toEqual([['a']]);
  });

  test('with a broken store acknowledges nothing and tries no more', () => {
    const { timing, acknowledged, store, collector, send } = bench();
    store.broken = true;
    send('a');
    collector.close();
    expect(timing.due).toEqual([]);
    expect(acknowledged).toEqual([]);
  });
});

test('whatever happens, each message is stored and acknowledged once, in order, or not accepted', () => {
  const step = fc.oneof(
    { weight: 5, arbitrary: fc.constant('send' as const) },
    { weight: 4, arbitrary: fc.constant('turn' as const) },
    fc.constantFrom('pass', 'break', 'mend', 'flush'),
  );
  fc.assert(
    fc.property(fc.array(step, { maxLength: 80 }), (steps) => {
      const { timing, stored, acknowledged, store, collector, send } = bench({
        group_messages: 4,
        waiting_messages: 9,
      });
      const accepted: string[] = [];
      steps.forEach((what, index) => {
        if (what === 'send' && send(`m${index}`)) accepted.push(`m${index}`);
        if (what === 'turn') timing.turn();
        if (what === 'pass') timing.pass(60);
        if (what === 'break' || what === 'mend') store.broken = what === 'break';
        if (what === 'flush') collector.flush();
        expect(acknowledged).toEqual(stored.flat());
        expect(Math.max(0, ...stored.map((group) => group.length))).toBeLessThanOrEqual(4);
      });
      store.broken = false;
      collector.close();
      expect(acknowledged).toEqual(accepted);
    }),
    { seed: 1000, numRuns: 500 },
  );
});
