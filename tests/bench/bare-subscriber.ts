/**
 * A process that subscribes with mqtt.js, as the service does, and only counts. It says `ready`; told a number of
 * messages, it answers with its count as soon as it has so many.
 */
import mqtt from 'mqtt';

const [url = ''] = process.argv.slice(2);
const client = mqtt.connect(url, {
  clientId: 'bare-subscriber',
  clean: false,
  protocolVersion: 5,
  properties: { receiveMaximum: 1000, sessionExpiryInterval: 3600 },
});
let count = 0;
let awaited = Number.POSITIVE_INFINITY;

function tell(): void {
  if (!(count >= awaited)) return;
  awaited = Number.POSITIVE_INFINITY;
  process.send?.(count);
}

client.on('message', () => {
  count += 1;
  tell();
});
await new Promise((resolve) => client.once('connect', resolve));
await client.subscribeAsync('sandlarder/v1/+/probes/+/+', { qos: 1 });
process.on('message', (messages: number) => {
  awaited = messages;
  tell();
});
process.once('disconnect', () => process.exit());
process.send?.('ready');
