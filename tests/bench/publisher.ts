/**
 * A process that publishes a load at QoS 1 as fast as it is acknowledged: first what is not timed, then what is.
 * It says `ready`, and answers `warm-up` and `timed` with the seconds from the first message to the last
 * acknowledgement.
 */
import mqtt from 'mqtt';
import { type Load, readingAt } from './load.js';

const [url = '', text = ''] = process.argv.slice(2);
const load: Load = JSON.parse(text);
const readings = Array.from({ length: load.warmUp + load.timed }, (_, index) =>
  readingAt(load, (load.begins ?? 0) + index),
);
const clients = await Promise.all(
  Array.from({ length: load.connections }, () => mqtt.connectAsync(url, { reconnectPeriod: 0 })),
);
for (const client of clients) client.on('error', giveUp).on('close', giveUp);

function giveUp(error?: Error): void {
  process.stderr.write(
    `publisher: expected its connections to last, got ${error?.message ?? 'a closed one'}\n`,
  );
  process.exit(1);
}

/** Publishes [from, to): no message is sent while one that is `window` before it is not acknowledged. */
function publish(from: number, to: number): Promise<void> {
  return new Promise((resolve) => {
    let next = from;
    let oldest = from;
    const acknowledged = new Uint8Array(to - from);
    const more = (): void => {
      while (next < to && next - oldest < load.window) {
        const index = next;
        const reading = readings[index];
        next += 1;
        if (!reading) continue;
        clients[reading.connection]?.publish(reading.topic, reading.payload, { qos: 1 }, (error) => {
          if (error) giveUp(error);
          acknowledged[index - from] = 1;
          while (acknowledged[oldest - from] === 1) oldest += 1;
          if (oldest === to) resolve();
          else more();
        });
      }
    };
    more();
  });
}

const PARTS: Readonly<Record<string, readonly [number, number]>> = {
  'warm-up': [0, load.warmUp],
  timed: [load.warmUp, load.warmUp + load.timed],
};

process.on('message', async (word: string) => {
  const [from, to] = PARTS[word] ?? [0, 0];
  const began = performance.now();
  await publish(from, to);
  process.send?.({ seconds: (performance.now() - began) / 1000 });
});
process.once('disconnect', () => process.exit());
process.send?.('ready');
