import { describe, expect, test } from 'vitest';
import type { ServeFlags } from '../services/settings.js';
import { readShareSettings, type ShareFlags } from '../services/share-settings.js';

const read = (over: Partial<ServeFlags & ShareFlags>) =>
  readShareSettings({
    ...{ data: './centre', listen: '127.0.0.1:8080', mqttListen: '127.0.0.1:1883' },
    ...over,
  });
const shared = { share: 'north', broker: 'mqtt://127.0.0.1:1884' };

test('a service that is whole in itself shares nothing', () => {
  expect(read({})).toBeUndefined();
});

test('a worker has its group, and the usual places where none are said', () => {
  expect(read(shared)).toEqual({
    ...{ group: 'north', partitions: undefined },
    firstAt: { host: '127.0.0.1', port: 8101 },
  });
  expect(read({ ...shared, partitions: '6', partitionsAt: '127.0.0.1:9000' })).toMatchObject({
    ...{ partitions: 6, firstAt: { port: 9000 } },
  });
});

describe('what does not go together is refused in one line', () => {
  test.each<[Partial<ServeFlags & ShareFlags>, RegExp]>([
    [{ partitions: '6' }, /--partitions: expected --share with it/],
    [{ partitionsAt: '127.0.0.1:9000' }, /--partitions-at: expected --share with it/],
    [{ share: 'north' }, /--share: expected --broker with it.*, got the built-in broker/],
    [{ ...shared, share: 'North!' }, /--share: expected a name of 1 to 32 .*, got "North!"/],
    [{ ...shared, share: '' }, /--share: expected a name/],
    [{ ...shared, partitions: '0' }, /--partitions: expected a whole number from 1 to 1000, got "0"/],
    [{ ...shared, partitions: '1001' }, /got "1001"/],
    [{ ...shared, partitions: '6.5' }, /got "6.5"/],
    [{ ...shared, partitions: 'many' }, /got "many"/],
    [{ ...shared, partitionsAt: '9000' }, /--partitions-at: expected HOST:PORT/],
    [{ ...shared, partitionsAt: '127.0.0.1:65530' }, /--partitions-at: expected a port with room/],
    [{ ...shared, modem: '/dev/ttyUSB0' }, /--share: expected no --modem with it/],
    [{ ...shared, smsGateway: 'gateway.json' }, /--share: expected no --sms-gateway with it/],
    [{ ...shared, publicUrl: 'https://store.example' }, /--share: expected no --public-url with it/],
    [{ ...shared, mqttsListen: '127.0.0.1:8883' }, /--share: expected no --mqtts-listen with it/],
  ])('%o', (flags, problem) => {
    expect(() => read(flags)).toThrow(problem);
  });
});
