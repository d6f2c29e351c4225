import { describe, expect, test } from 'vitest';
import { describeSettings, readServeSettings } from '../services/settings.js';

const FLAGS = { data: './data', listen: '127.0.0.1:8080', mqttListen: '127.0.0.1:1883' };

test('defaults are read and frozen', () => {
  const settings = readServeSettings(FLAGS, {});
  expect(settings).toMatchObject({ data: './data', listen: { host: '127.0.0.1', port: 8080 }, webhooks: [] });
  expect(Object.isFrozen(settings)).toBe(true);
});

describe('what is refused, by name', () => {
  test.each([
    [{ listen: '8080' }, {}, /--listen: expected HOST:PORT/],
    [{ mqttListen: 'here' }, {}, /--mqtt-listen: expected HOST:PORT/],
    [{ broker: 'http://x' }, {}, /--broker: .*mqtt:\/\//],
    [{ broker: 'mqtt://user:secret@x' }, {}, /--broker: .*SANDLARDER_MQTT_USER/],
    [{ webhook: ['ftp://x'] }, {}, /--webhook: expected http or https/],
    [{}, { SANDLARDER_HTTP_USER: 'station' }, /SANDLARDER_HTTP_USER and SANDLARDER_HTTP_PASSWORD together/],
    [
      {},
      { SANDLARDER_MQTT_PASSWORD: 'secret' },
      /SANDLARDER_MQTT_USER and SANDLARDER_MQTT_PASSWORD together/,
    ],
    [
      {},
      { SANDLARDER_HTTP_USER: '', SANDLARDER_HTTP_PASSWORD: 'x' },
      /environment variable SANDLARDER_HTTP_USER/,
    ],
  ])('%j %j', (flags, environment, sentence) => {
    expect(() => readServeSettings({ ...FLAGS, ...flags }, environment)).toThrow(sentence);
  });
});

test('no message and no description shows a password', () => {
  const secrets = { SANDLARDER_HTTP_USER: 'station', SANDLARDER_HTTP_PASSWORD: 'tuberous-secret' };
  expect(describeSettings(readServeSettings(FLAGS, secrets))).not.toContain('tuberous-secret');
  expect(describeSettings(readServeSettings(FLAGS, secrets))).toContain('with password');
  let said = '';
  try {
    readServeSettings({ ...FLAGS, broker: 'mqtt://u:tuberous-secret@x' }, {});
  } catch (error) {
    said = String(error);
  }
  expect(said).not.toContain('tuberous-secret');
});
