import { describe, expect, test } from 'vitest';
import { OutboxRunner, RUNNER_LIMITS } from '../../services/senders/outbox-runner.js';
import { aRunner, from, HeldWay, HOUR_ms, NOW } from './a-runner.js';
import { settle } from './manual-timer.js';

describe('when the outbox cannot be used', () => {
  test('what was delivered is not sent again, and is recorded when it can be', async () => {
    const { outbox, timer, way, events, kick } = aRunner();
    await kick(from('a', 'a1'));
    outbox.broken = new Error('disk full');
    await way.succeed('a1');
    expect(outbox.states).toEqual({ a1: 'waiting' });
    outbox.broken = undefined;
    await timer.advance(RUNNER_LIMITS.outboxRetry_ms);
    expect(outbox.states).toEqual({ a1: 'delivered' });
    expect(way.sent).toEqual(['a1']);
    expect(events.at(0)).toEqual({ type: 'outbox-unavailable', error: 'disk full' });
    expect(events.at(-1)).toEqual({ type: 'delivered', key: 'a1', via: 'webhook' });
  });

  test('only its reading back works: still nothing is sent twice', async () => {
    const { outbox, timer, way, kick } = aRunner();
    outbox.delivered = () => {
      throw new Error('read only');
    };
    await kick(from('a', 'a1'));
    await way.succeed('a1');
    await timer.advance(HOUR_ms);
    expect(way.sent).toEqual(['a1']);
  });

  test('it is asked again after a while', async () => {
    const { outbox, timer, way, kick } = aRunner();
    outbox.broken = new Error('locked');
    await kick(from('a', 'a1'));
    expect(way.sent).toEqual([]);
    outbox.broken = undefined;
    await timer.advance(RUNNER_LIMITS.outboxRetry_ms);
    expect(way.sent).toEqual(['a1']);
  });

  test('what is unrecorded is recorded at closing', async () => {
    const { outbox, way, runner, kick } = aRunner();
    await kick(from('a', 'a1'));
    outbox.broken = new Error('disk full');
    await way.succeed('a1');
    outbox.broken = undefined;
    await runner.close();
    expect(outbox.states).toEqual({ a1: 'delivered' });
  });
});

describe('over time', () => {
  test('a new runner goes on where the last one left off', async () => {
    const { outbox, timer, way, runner, kick } = aRunner();
    await kick(from('a', 'a1'), from('b', 'b1'));
    await way.fail('a1');
    await way.succeed('b1');
    await runner.close();
    const next = new HeldWay();
    new OutboxRunner({ outbox, ways: [next], timer, random: () => 0 }).kick();
    await timer.advance(1000);
    expect(next.sent).toEqual(['a1']);
  });

  test('a clock that is set forward is noticed within a quarter of an hour', async () => {
    const { outbox, timer, way, kick } = aRunner();
    outbox.add({ ...from('a', 'a1'), createdAt: NOW + 48 * HOUR_ms });
    await kick();
    expect(timer.waits_ms).toEqual([15 * 60_000]);
    timer.set(NOW + 72 * HOUR_ms);
    await timer.advance(0);
    expect(way.sent).toEqual(['a1']);
  });

  test('with nothing waiting, no timer runs', async () => {
    const { timer, kick } = aRunner();
    await kick();
    expect(timer.waits_ms).toEqual([]);
  });
});

describe('closing', () => {
  test('waits for those in flight, records them and starts no more', async () => {
    const { outbox, timer, way, runner, kick } = aRunner();
    await kick(from('a', 'a1'), from('a', 'a2'));
    let closed = false;
    const closing = runner.close().then(() => {
      closed = true;
    });
    await settle();
    expect(closed).toBe(false);
    await way.succeed('a1');
    await closing;
    await kick(from('b', 'b1'));
    expect(way.sent).toEqual(['a1']);
    expect(outbox.states).toEqual({ a1: 'delivered', a2: 'waiting', b1: 'waiting' });
    expect(timer.waits_ms).toEqual([]);
  });

  test('does not wait for ever, and leaves the outbox alone afterwards', async () => {
    const { outbox, timer, way, runner, kick } = aRunner();
    await kick(from('a', 'a1'));
    const closing = runner.close();
    await timer.advance(RUNNER_LIMITS.close_ms);
    await closing;
    await way.succeed('a1');
    expect(outbox.states).toEqual({ a1: 'waiting' });
  });

  test('is no harm twice, nor with a look still to come', async () => {
    const { runner, way, outbox } = aRunner();
    outbox.add(from('a', 'a1'));
    runner.kick();
    await runner.close();
    await runner.close();
    expect(way.sent).toEqual([]);
  });
});
