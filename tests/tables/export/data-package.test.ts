/**
 * The Data Package and Table Schema against the rules of the Data Package Standard (datapackage.org, 2.0, and the
 * profiles of 1.0 where they are stricter): required keys, patterns of names, paths and hashes, kinds of fields.
 */
import Papa from 'papaparse';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { ASKED, openExport } from './an-export.js';

/** [Table Schema, "Field types"]. */
const TYPES = [
  ...[
    'string',
    'number',
    'integer',
    'boolean',
    'object',
    'array',
    'list',
    'datetime',
    'date',
    'time',
    'year',
  ],
  ...['yearmonth', 'duration', 'geopoint', 'geojson', 'any'],
] as const;

const fieldSchema = z.looseObject({
  name: z.string().min(1),
  type: z.enum(TYPES),
  title: z.string(),
  description: z.string(),
  constraints: z
    .strictObject({ required: z.boolean().optional(), enum: z.array(z.string()).min(1).optional() })
    .optional(),
});

const tableSchema = z
  .strictObject({
    $schema: z.literal('https://datapackage.org/profiles/2.0/tableschema.json'),
    fields: z.array(fieldSchema).min(1),
    missingValues: z.array(z.string()),
    primaryKey: z.array(z.string()).min(1),
  })
  .refine(({ fields, primaryKey }) => primaryKey.every((key) => fields.some(({ name }) => name === key)))
  .refine(({ fields }) => new Set(fields.map(({ name }) => name)).size === fields.length);

/** A relative path that stays within the package [Data Resource, "path"]. */
const pathSchema = z.string().regex(/^(?=^[^./~])(^((?!\.{2}).)*$).*$/);
const nameSchema = z.string().regex(/^[-a-z0-9._/]+$/);

const resourceSchema = z
  .looseObject({
    name: nameSchema,
    path: pathSchema,
    type: z.literal('table').optional(),
    format: z.string().optional(),
    mediatype: z
      .string()
      .regex(/^(.+)\/(.+)$/)
      .optional(),
    encoding: z.string().optional(),
    bytes: z.int().nonnegative().optional(),
    hash: z
      .string()
      .regex(/^([^:]+:[a-fA-F0-9]+|[a-fA-F0-9]{32}|)$/)
      .optional(),
    schema: tableSchema.optional(),
  })
  .refine(({ type, schema }) => type !== 'table' || schema !== undefined);

const packageSchema = z.looseObject({
  $schema: z.literal('https://datapackage.org/profiles/2.0/datapackage.json'),
  name: nameSchema,
  title: z.string(),
  description: z.string(),
  resources: z.array(resourceSchema).min(1),
  created: z.undefined().optional(),
  licenses: z.undefined().optional(),
});

const written = { bytes: 10, digest: 'ab'.repeat(32) };

describe.each(['csv', 'parquet'] as const)('a package of %s', (format) => {
  test('is one by the standard, and names its files', () => {
    const { exports } = openExport();
    const described = packageSchema.parse(JSON.parse(exports.document(ASKED, 'package', format, written)));
    expect(described.resources.map(({ path }) => path)).toEqual([
      ...[`readings.${format}`, 'calibrations.json', 'citation.txt'],
    ]);
    expect(described.resources[0]).toMatchObject({ bytes: 10, hash: `sha256:${written.digest}` });
    packageSchema.parse(JSON.parse(exports.document(ASKED, 'package', format)));
  });
});

test('every cell is of the type that the schema says, and no two rows have one key', async () => {
  const { exports, bytes } = openExport();
  const schema = tableSchema.parse(JSON.parse(exports.document(ASKED, 'schema', 'csv')));
  const all = { shade: true, quantities: ['temperature', 'humidity', 'battery'] as const };
  const { data, meta } = Papa.parse<Record<string, string>>((await bytes(all)).toString(), {
    header: true,
    skipEmptyLines: true,
  });
  expect(meta.fields).toEqual(schema.fields.map(({ name }) => name));
  const fits: Record<string, RegExp> = {
    datetime: /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?Z$/,
    ...{ number: /^-?\d+(\.\d+)?(e[+-]?\d+)?$/, integer: /^\d+$/, string: /^/ },
  };
  const wrong = data.flatMap((row) =>
    schema.fields.filter(({ name, type, constraints }) => {
      const cell = row[name] ?? '';
      if (cell === '') return constraints?.required === true;
      return !fits[type]?.test(cell) || constraints?.enum?.includes(cell) === false;
    }),
  );
  expect(wrong).toEqual([]);
  const keys = data.map((row) => schema.primaryKey.map((name) => row[name]).join('|'));
  expect(new Set(keys).size).toBe(keys.length);
});
