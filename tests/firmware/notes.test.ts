/** The notes for whoever builds a probe: every example goes through the service's own intake. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { QUANTITIES, STORABLE, UNIT_RULES } from '../../services/core/model/quantity.js';
import { MINUTE_ms } from '../../services/core/model/time.js';
import { BROKER_LIMITS, MESSAGE_LIMITS } from '../../services/intake/limits.js';
import { REASONS } from '../../services/intake/ports.js';
import { readMessage } from '../../services/intake/read-message.js';

const NOTES = new URL('../../firmware-notes/', import.meta.url);
const read = (name: string): string => readFileSync(new URL(name, NOTES), 'utf8');

/** When the notes say that their examples arrive: 2026-06-01T12:00:00Z, ms. */
const ARRIVED_AT = Date.UTC(2026, 5, 1, 12);

/** A fenced block, its mark, and the line of text above it. */
const BLOCK = /^(.*)\n\n?```(\w*)\n([\s\S]*?)\n```$/gm;
const TOPIC_LINE = /^Topic `([^`]*)`(?:, taken (\d+), set aside (`[a-z-]+`(?:(?:, | and )`[a-z-]+`)*))?:$/;

interface Example {
  readonly name: string;
  readonly above: string;
  readonly payload: string;
}

const pages = readdirSync(NOTES, { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.md'),
);

const examples = pages.flatMap((page) =>
  [...read(page).matchAll(BLOCK)]
    .map(([, above = '', mark = '', payload = ''], n) => ({
      name: `${page}, block ${n + 1}`,
      above,
      mark,
      payload,
    }))
    .filter(({ above, mark }) => mark === 'json' || (mark === 'text' && above.startsWith('Topic '))),
);

const arrive = (topic: string, payload: string) =>
  readMessage({ topic, payload: Buffer.from(payload), receivedAt: ARRIVED_AT });

function expectWhole(topic: string, payload: string): void {
  const { kind, measured, online, setAside } = arrive(topic, payload);
  expect(setAside).toEqual([]);
  if (kind === 'status') expect(online).toBe(payload === 'online');
  else expect(measured).toHaveLength((JSON.parse(payload) as unknown[]).length);
}

test.each(examples)('$name becomes what the line above it says', ({ above, payload }: Example) => {
  expect(
    above,
    'the line above an example: see "Examples in these notes" in firmware-notes/README.md',
  ).toMatch(TOPIC_LINE);
  const [, topic = '', taken, reasons] = TOPIC_LINE.exec(above) ?? [];
  if (reasons === undefined) return expectWhole(topic, payload);
  const { measured, setAside } = arrive(topic, payload);
  expect(setAside.map(({ reason }) => `\`${reason}\``)).toEqual(reasons.split(/, | and /));
  expect(measured).toHaveLength(Number(taken));
});

test('there are examples, and blocks are not missed', () => {
  const marked = pages.flatMap((page) => [...read(page).matchAll(/^```json$/gm)]).length;
  expect(examples.filter(({ mark }) => mark === 'json')).toHaveLength(marked);
  expect(examples.length).toBeGreaterThanOrEqual(15);
});

describe('speaking.md says what the intake does', () => {
  const speaking = read('speaking.md');

  test('every reason for which something is set aside, and no other', () => {
    const [, table = ''] = /\n\| reason \|.*\n\| --- .*\n((?:\|.*\n)+)/.exec(speaking) ?? [];
    const named = table.split('\n').flatMap((row) => [...(row.split('|')[1] ?? '').matchAll(/`([a-z-]+)`/g)]);
    expect(named.map(([, reason]) => reason).sort()).toEqual([...REASONS].sort());
  });

  test.each(Object.entries(UNIT_RULES))('units and range of %s', (name, units) => {
    const [row = ''] = speaking.match(new RegExp(`^\\| \`${name}\` \\|.*$`, 'm')) ?? [];
    for (const [unit, { quantity }] of Object.entries(units)) {
      expect(row).toContain(`\`${unit}\``);
      expect(row).toContain(STORABLE[quantity].join(' to '));
    }
    expect(QUANTITIES).toContain(name);
  });

  test('its limits', () => {
    const { payload_bytes, records, futureAllowance_ms, earliest_ms } = MESSAGE_LIMITS;
    expect(speaking).toContain(
      `at most ${payload_bytes / 1024} KiB and ${records.toLocaleString('en')} records`,
    );
    expect([futureAllowance_ms, earliest_ms]).toEqual([10 * MINUTE_ms, Date.UTC(2000, 0, 1)]);
    expect(speaking).toContain(
      'Times before 2000, or more than ten minutes after the arrival, are set aside.',
    );
    expect(BROKER_LIMITS.packet_bytes).toBeGreaterThan(payload_bytes);
  });
});

describe('what the notes point to', () => {
  test.each(pages)('links and drawings of %s are there', (page) => {
    const folder = new URL(page, NOTES);
    for (const [, target = ''] of read(page).matchAll(/\]\((?!https?:)([^)#]+)(?:#[^)]*)?\)/g))
      expect(() => readFileSync(new URL(target, folder)), target).not.toThrow();
  });

  test('every page stands in the index', () => {
    for (const page of pages.filter((name) => name !== 'README.md'))
      expect(read('README.md')).toContain(`](${page})`);
  });

  test('every drawing has a title and a description, and can be printed in black', () => {
    const drawings = readdirSync(NOTES, { recursive: true, encoding: 'utf8' }).filter((name) =>
      name.endsWith('.svg'),
    );
    for (const drawing of drawings) {
      const svg = read(drawing);
      expect(svg, drawing).toMatch(/<title\b[^>]*>[^<]+<\/title>[\s\S]*<desc\b[^>]*>[^<]+<\/desc>/);
      const colours = [...svg.matchAll(/\b(?:fill|stroke)="([^"]*)"/g)].map(([, colour]) => colour);
      expect(colours.filter((colour) => !['black', 'white', 'none'].includes(colour ?? ''))).toEqual([]);
    }
  });
});
