import { describe, expect, test } from 'vitest';
import { explainTopic, parseTopic } from '../../services/intake/topic.js';

test('readings and status of a probe', () => {
  const of = { site: 'ridge-station', probe: 'p01' };
  expect(parseTopic('sandlarder/v1/ridge-station/probes/p01/readings')).toEqual({ ...of, kind: 'readings' });
  expect(parseTopic('sandlarder/v1/ridge-station/probes/p01/status')).toEqual({ ...of, kind: 'status' });
});

test('ids of one and of 32 characters', () => {
  const longest = `a${'-'.repeat(31)}`;
  expect(parseTopic(`sandlarder/v1/0/probes/${longest}/status`)).toEqual({
    site: '0',
    probe: longest,
    kind: 'status',
  });
});

describe('what is no probe topic, and why', () => {
  test.each([
    ['', 'expected sandlarder/v1/{site}/probes/{probe}/readings or .../status, got ""'],
    ['Sandlarder/v1/s/probes/p/readings', 'level 1 of the topic: expected "sandlarder"'],
    ['sandlarder/v2/s/probes/p/readings', 'level 2 of the topic: expected "v1", got "v2"'],
    ['sandlarder/v1/S/probes/p/readings', 'level 3 of the topic: expected 1 to 32 of a-z, 0-9 and "-"'],
    ['sandlarder/v1//probes/p/readings', 'level 3 of the topic: expected 1 to 32'],
    ['sandlarder/v1/s/beds/p/alarm', 'level 4 of the topic: expected "probes", got "beds"'],
    ['sandlarder/v1/s/probes/-p/readings', 'level 5 of the topic'],
    [`sandlarder/v1/s/probes/${'p'.repeat(33)}/readings`, 'level 5 of the topic'],
    ['sandlarder/v1/s/probes/p\n/readings', 'level 5 of the topic'],
    ['sandlarder/v1/s/probes/p/reading', 'level 6 of the topic: expected "readings" or "status"'],
    [
      'sandlarder/v1/s/probes/p',
      'expected sandlarder/v1/{site}/probes/{probe}/readings or .../status, got "',
    ],
    ['a/v1/s/probes/p/readings', 'level 1 of the topic: expected "sandlarder", got "a" in "a/v1'],
    [
      'sandlarder/v1/s/probes/p/readings/',
      'expected sandlarder/v1/{site}/probes/{probe}/readings or .../status',
    ],
    ['sandlarder/v1/s/probes/p/readings\n', 'level 6 of the topic'],
    ['/sandlarder/v1/s/probes/p/readings', 'expected sandlarder/v1/{site}'],
    ['$SYS/broker/uptime', 'expected sandlarder/v1/{site}'],
  ])('%j', (topic, reason) => {
    expect(parseTopic(topic)).toBeUndefined();
    expect(explainTopic(topic)).toContain(reason);
  });
});
