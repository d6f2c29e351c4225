import { describe, expect, onTestFinished, test } from 'vitest';
import { BATCH_readings, Forwarder } from '../../../services/archive/influx/forwarder.js';
import { waitAfter_ms } from '../../../services/archive/influx/waits.js';
import { HandTimer } from '../../support/hand-timer.js';
import { openStores } from '../../support/open.js';
import { type Answer, aServer, refusing, says, yes } from './a-server.js';

const T = Date.UTC(2026, 5, 1);

async function forwarding(first: Answer = yes) {
  const { database, archive } = openStores();
  archive.spool.setActive(true);
  const key = archive.keys.keyOf('ridge-station', 'p01');
  const server = await aServer(first);
  const connection = server.connect();
  const timer = new HandTimer();
  const log: string[] = [];
  const aside: unknown[][] = [];
  let told: (() => void) | undefined;
  const open = () =>
    new Forwarder({
      spool: archive.spool,
      nameOf: (key) => archive.keys.nameOf(key),
      write: (lines) => connection.write(lines),
      inTransaction: (work) => database.transaction(work).immediate(),
      setAside: ({ reading, reason }) => aside.push([reading[2], reason]),
      log: (line) => log.push(line),
      after: (delay_ms, call) => {
        const cancel = timer.after(delay_ms, call);
        told?.();
        return cancel;
      },
      now: () => T,
      random: () => 1,
    });
  const put = (count: number, from = 0) => {
    database.transaction(() => {
      for (let at = from; at < from + count; at += 1)
        archive.readings.put(key, T + at * 1000, { temperature: 20 + at / 1000 });
    })();
  };
  return {
    ...{ database, archive, key, server, timer, log, aside, put },
    start: () => {
      const forwarder = open();
      onTestFinished(async () => {
        connection.close();
        await forwarder.close();
      });
      return forwarder;
    },
    /** Until it waits for its timer. */
    resting: () =>
      new Promise<void>((resolve) => {
        if (timer.waiting > 0) return resolve();
        told = () => {
          told = undefined;
          resolve();
        };
      }),
  };
}

test('all that waits is forwarded in whole batches, and later what comes later', async () => {
  const { put, start, resting, server, archive, timer } = await forwarding();
  put(BATCH_readings + 10);
  start();
  await resting();
  expect(archive.spool.backlog().waiting).toBe(0);
  expect(server.asked.map(({ lines }) => lines.split('\n').length)).toEqual([BATCH_readings, 10]);
  put(1, BATCH_readings + 10);
  timer.pass(1000);
  await resting();
  expect(new Set(server.kept).size).toBe(BATCH_readings + 11);
  expect(server.kept[1]).toBe(`reading,probe=p01,site=ridge-station temperature_C=20.001 ${T + 1000}`);
});

test('a reading is one line with what was measured, and a value that came later brings the rest again', async () => {
  const { archive, key, start, resting, server } = await forwarding();
  archive.readings.put(key, T, { temperature: -0.5, charge: 80 });
  archive.readings.put(key, T, { humidity: 91.25, battery: 3 });
  start();
  await resting();
  const line = `reading,probe=p01,site=ridge-station temperature_C=-0.5,humidity_RH=91.25,battery_V=3,charge_EL=80 ${T}`;
  expect(server.kept).toEqual([line, line]);
});

describe('a server in trouble is waited for, and nothing leaves the spool', () => {
  test.each([
    [500, '{"error":"engine is closed"}', false],
    [401, '{"error":"authorization failed"}', true],
    [404, '{"error":"database not found: sand"}', true],
    [200, '<html>Pay for the network</html>', false],
  ])('%d', async (status, body, standing) => {
    const { put, start, resting, server, archive, timer, aside, log } = await forwarding(says(status, body));
    put(3);
    const forwarder = start();
    await resting();
    expect(forwarder.state()).toMatchObject({ waiting: 3, refused: 0, trouble: { standing } });
    expect(log.at(-1)).toMatch(/takes no readings, 3 wait: /);
    server.answers(yes);
    timer.pass(1000);
    await resting();
    expect(archive.spool.backlog().waiting).toBe(0);
    expect(forwarder.state()).toMatchObject({ trouble: null, lastError: { at: T } });
    expect(aside).toEqual([]);
  });

  test('later and later, up to five minutes, and at once again after a success', async () => {
    const { put, start, resting, server, timer } = await forwarding(says(503, ''));
    put(1);
    start();
    for (const [attempt, wait_ms] of [1000, 2000, 4000, 8000].entries()) {
      await resting();
      timer.pass(wait_ms - 1);
      expect(server.asked).toHaveLength(attempt + 1);
      timer.pass(1);
    }
    expect([1, 2, 9, 10, 1e9].map((failed) => waitAfter_ms(failed, 0))).toEqual([
      500, 1000, 128_000, 150_000, 150_000,
    ]);
    expect(waitAfter_ms(9, 0.999999)).toBeLessThanOrEqual(300_000);
  });

  test('a batch half of which was taken is sent again whole', async () => {
    const { put, start, resting, server, archive, timer } = await forwarding();
    let requests = 0;
    server.answers((lines, response) => {
      requests += 1;
      (requests === 2 ? says(500, '') : yes)(lines, response);
    });
    put(BATCH_readings * 2);
    start();
    await resting();
    expect(archive.spool.backlog().waiting).toBe(BATCH_readings);
    timer.pass(1000);
    await resting();
    expect(archive.spool.backlog().waiting).toBe(0);
    expect(new Set(server.kept).size).toBe(BATCH_readings * 2);
  });
});

describe('a reading that is refused is set aside with the reason, and the rest goes on', () => {
  test.each([[0], [1], [617], [999]])('at %d of a thousand', async (at) => {
    const { put, start, resting, server, archive, aside, log } = await forwarding(
      refusing(`${T + at * 1000}`),
    );
    put(1000);
    const forwarder = start();
    await resting();
    expect(aside).toEqual([[T + at * 1000, 'partial write: field type conflict: dropped=1']]);
    expect(new Set(server.kept).size).toBe(999);
    expect(archive.spool.backlog().waiting).toBe(0);
    expect(forwarder.state()).toMatchObject({ refused: 1, refusedAt: T, trouble: null });
    expect(log).toEqual([expect.stringMatching(/refused 1 readings: .*quarantine/)]);
    // By halves, not one by one.
    expect(server.asked.length).toBeLessThan(25);
  });

  test('the server in trouble meanwhile: none is set aside until all is known', async () => {
    const { put, start, resting, server, archive, aside, timer } = await forwarding();
    let requests = 0;
    server.answers((lines, response) => {
      requests += 1;
      (requests === 9 ? says(503, '') : refusing(`${T}`))(lines, response);
    });
    put(100);
    start();
    await resting();
    expect([aside, archive.spool.backlog().waiting]).toEqual([[], 100]);
    timer.pass(1000);
    await resting();
    expect([aside.length, archive.spool.backlog().waiting]).toEqual([1, 0]);
  });

  test('a request that is too large goes in parts, and nothing is set aside', async () => {
    const { put, start, resting, server, aside } = await forwarding();
    server.answers((lines, response) =>
      (lines.length > 5000 ? says(413, { error: 'too large' }) : yes)(lines, response),
    );
    put(500);
    start();
    await resting();
    expect([aside, new Set(server.kept).size]).toEqual([[], 500]);
  });

  test('where setting aside fails, the batch stays', async () => {
    const { database, put, start, resting, archive } = await forwarding(refusing(`${T}`));
    put(2);
    database.exec("CREATE TRIGGER full BEFORE DELETE ON spool BEGIN SELECT RAISE(ABORT, 'disk full'); END");
    const forwarder = start();
    await resting();
    expect(archive.spool.backlog().waiting).toBe(2);
    expect(forwarder.state()).toMatchObject({ refused: 0, lastError: { reason: 'disk full' } });
  });
});
