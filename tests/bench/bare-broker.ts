/** A process with a bare aedes that only counts in its publish hook. It sends its port, and answers with its count. */
import { type AddressInfo, createServer } from 'node:net';
import { Aedes } from 'aedes';

const aedes = await Aedes.createBroker();
let count = 0;
aedes.authorizePublish = (_client, _packet, done) => {
  count += 1;
  done(null);
};
const server = createServer((socket) => aedes.handle(socket));
server.listen(0, '127.0.0.1', () => process.send?.((server.address() as AddressInfo).port));
process.on('message', () => process.send?.(count));
process.once('disconnect', () => process.exit());
