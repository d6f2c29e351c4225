/** A process that subscribes with mqtt.js and only counts. */
import mqtt from 'mqtt';

const [url = '', expected = '0'] = process.argv.slice(2);
const client = mqtt.connect(url, {
  clientId: 'bare-subscriber',
  clean: false,
  protocolVersion: 5,
  properties: { receiveMaximum: 1000, sessionExpiryInterval: 3600 },
});
let count = 0;
client.on('message', () => {
  count += 1;
  if (count === Number(expected)) process.send?.('all');
});
await new Promise((resolve) => client.once('connect', resolve));
await client.subscribeAsync('sandlarder/v1/+/probes/+/+', { qos: 1 });
process.send?.('ready');
process.once('disconnect', () => process.exit());
