/** Values for a JSON Schema, as it asks for them or otherwise, by chance. */
import type { Chance } from './chance.js';

export type Schema = Readonly<Record<string, unknown>>;

/** Of a hundred values so many are not what the schema asks for. */
const OTHERWISE_of_100 = 8;
/** Deeper than this nothing is made. */
const DEEPEST = 6;

const ANYTHING: readonly unknown[] = [
  null,
  true,
  0,
  -1,
  1e308,
  '',
  'x'.repeat(3000),
  '\u0000',
  '\ud800',
  "'; --",
  '../../etc',
  '2026-02-30T25:61:00Z',
  [],
  {},
  [[[]]],
  { toString: 1 },
];
const TEXTS = [
  'p01',
  'pit-t',
  'test-ridge',
  'Wanja',
  '2026-05-04T08:00:00Z',
  '2026-05-04',
  'temperature',
  'en',
  'rot',
  '1',
];

/** @param whole the document that references point into [RFC 6901] */
export function someValue(chance: Chance, schema: Schema, whole: unknown, depth = 0): unknown {
  if (chance.below(100) < OTHERWISE_of_100 || depth > DEEPEST) return chance.of(ANYTHING);
  const reference = schema['$ref'];
  if (typeof reference === 'string') return someValue(chance, pointed(whole, reference), whole, depth + 1);
  for (const key of ['anyOf', 'oneOf'] as const) {
    const some = schema[key];
    if (Array.isArray(some)) return someValue(chance, chance.of(some as Schema[]), whole, depth + 1);
  }
  if ('const' in schema) return schema['const'];
  if (Array.isArray(schema['enum'])) return chance.of(schema['enum']);
  switch (schema['type']) {
    case 'object':
      return objectOf(chance, schema, whole, depth);
    case 'array':
      return listOf(chance, schema, whole, depth);
    case 'integer':
    case 'number':
      return numberOf(chance, schema);
    case 'boolean':
      return chance.below(2) === 0;
    case 'string':
      return textOf(chance, schema);
    default:
      return chance.of(ANYTHING);
  }
}

function objectOf(chance: Chance, schema: Schema, whole: unknown, depth: number): Record<string, unknown> {
  const properties = (schema['properties'] ?? {}) as Readonly<Record<string, Schema>>;
  const required = (schema['required'] ?? []) as readonly string[];
  const chosen = Object.entries(properties).filter(([name]) =>
    required.includes(name) ? chance.below(40) > 0 : chance.below(3) === 0,
  );
  const made = chosen.map(([name, of]) => [name, someValue(chance, of, whole, depth + 1)] as const);
  return Object.fromEntries(chance.below(30) === 0 ? [...made, ['unheardOf', 1]] : made);
}

function listOf(chance: Chance, schema: Schema, whole: unknown, depth: number): unknown[] {
  const items = (schema['items'] ?? {}) as Schema;
  return Array.from({ length: chance.below(4) }, () => someValue(chance, items, whole, depth + 1));
}

function numberOf(chance: Chance, { minimum = -50, maximum = 200, type }: Schema): number {
  const [low, high] = [Number(minimum), Number(maximum)];
  const number = chance.of([low, high, low - 1, high + 1, low + chance.next() * (high - low)]);
  return type === 'integer' ? Math.round(number) : number;
}

function textOf(chance: Chance, { format, examples }: Schema): string {
  if (format === 'date-time')
    return new Date(Date.UTC(2026, 4, 1) + chance.below(200) * 3_600_000).toISOString();
  if (format === 'uuid') return `00000000-0000-4000-8000-${String(chance.below(1e9)).padStart(12, '0')}`;
  const named = Array.isArray(examples) ? examples.map(String) : [];
  return chance.of([...TEXTS, ...named]);
}

export function pointed(document: unknown, reference: string): Schema {
  let part = document;
  for (const step of reference.replace(/^#\//, '').split('/'))
    part = (part as Schema | undefined)?.[step.replaceAll('~1', '/').replaceAll('~0', '~')];
  return (part ?? {}) as Schema;
}
