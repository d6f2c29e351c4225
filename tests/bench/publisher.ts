/**
 * A process that publishes a load at QoS 1 as fast as it is acknowledged, over one connection, as a gateway does, and tells how long
 * it took from the first message to the last acknowledgement.
 */
import mqtt from 'mqtt';
import { type Load, prepare } from './load.js';

/** Messages that may be under way: what the built-in broker takes of a client. */
const WINDOW = 1000;

const [url = '', text = '{}'] = process.argv.slice(2);
const messages = prepare(JSON.parse(text) as Load);
const client = await mqtt.connectAsync(url);

function publishAll(): Promise<void> {
  return new Promise((resolve, reject) => {
    let next = 0;
    let acknowledged = 0;
    const more = (): void => {
      while (next < messages.length && next - acknowledged < WINDOW) {
        const { topic, payload } = messages[next] as (typeof messages)[number];
        next += 1;
        client.publish(topic, payload, { qos: 1 }, (error) => {
          if (error) reject(error);
          acknowledged += 1;
          if (acknowledged === messages.length) resolve();
          else more();
        });
      }
    };
    more();
  });
}

process.send?.('ready');
await new Promise((resolve) => process.once('message', resolve));
const began = performance.now();
await publishAll();
process.send?.({ seconds: (performance.now() - began) / 1000 });
await client.endAsync();
process.disconnect();
