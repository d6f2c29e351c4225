import { readdirSync, readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { MESSAGE_LIMITS, readMessage } from '../../services/intake/index.js';

const NOTES = new URL('../../firmware-notes/', import.meta.url);

const examples = readdirSync(NOTES)
  .filter((name) => name.endsWith('.md'))
  .flatMap((name) =>
    [...readFileSync(new URL(name, NOTES), 'utf8').matchAll(/```json\n([\s\S]*?)```/g)].map(
      (match, index) => ({
        name: `${name}, example ${index + 1}`,
        payload: match[1] ?? '',
      }),
    ),
  );

test('the notes have examples', () => {
  expect(examples.length).toBeGreaterThanOrEqual(4);
});

test.each(examples)('$name is taken in whole', ({ payload }) => {
  const incoming = {
    topic: 'sandlarder/v1/ridge-station/probes/p01/readings',
    payload: Buffer.from(payload),
    receivedAt: 1_780_002_000_000,
  };
  const { measured, setAside } = readMessage(incoming);
  expect(setAside).toEqual([]);
  expect(measured).toHaveLength((JSON.parse(payload) as unknown[]).length);
});

test('the limits that the notes name are those of the intake', () => {
  const text = readFileSync(new URL('README.md', NOTES), 'utf8');
  expect(text).toContain(
    `at most ${MESSAGE_LIMITS.payload_bytes / 1024} KiB and ${MESSAGE_LIMITS.records.toLocaleString('en')} records`,
  );
});
