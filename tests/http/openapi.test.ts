import { describe, expect, test } from 'vitest';
import { FLAG_REASONS } from '../../services/core/watch/flag.js';
import { keepUsedComponents } from '../../services/http/openapi-components.js';
import { appOver } from './answers.js';
import { CONTRACT } from './contract.js';
import { PortsInMemory } from './ports.js';

type Json = Readonly<Record<string, unknown>>;
interface Operation {
  readonly operationId: string;
  readonly summary: string;
  readonly parameters?: readonly { name: string; in: string; required?: boolean; schema: Json }[];
  readonly requestBody?: { content: Record<string, { schema: Json }> };
  readonly responses: Record<string, { description: string; content: Record<string, { schema: Json }> }>;
}
interface ApiDocument {
  readonly openapi: string;
  readonly info: { title: string; version: string };
  readonly paths: Record<string, Record<string, Operation>>;
  readonly components: { schemas: Record<string, Json>; securitySchemes?: Json };
  readonly security?: Json[];
}

const documentOf = async (options = {}): Promise<ApiDocument> =>
  (await (await appOver(new PortsInMemory(), options)).inject({ url: '/api/openapi.json', headers })).json();
const headers = { authorization: `Basic ${btoa('keeper:sand and roots')}` };

const operationsOf = ({ paths }: ApiDocument): [string, Operation][] =>
  Object.entries(paths).flatMap(([path, item]) =>
    Object.entries(item).map(([method, operation]): [string, Operation] => [
      `${method.toUpperCase()} ${path}`,
      operation,
    ]),
  );

/** Every value of a key, however deep. */
function valuesOf(key: string, part: unknown): unknown[] {
  if (part === null || typeof part !== 'object') return [];
  return Object.entries(part).flatMap(([name, value]) => [
    ...(name === key ? [value] : []),
    ...valuesOf(key, value),
  ]);
}

/** What a local reference points at [RFC 6901]. */
function resolve(document: unknown, reference: string): unknown {
  let part = document;
  for (const step of reference.replace(/^#\//, '').split('/'))
    part = (part as Json | undefined)?.[step.replaceAll('~1', '/').replaceAll('~0', '~')];
  return part;
}

const TYPES = ['string', 'number', 'integer', 'boolean', 'object', 'array', 'null'];

// Structure after the OpenAPI Specification 3.1 [M: 4.8.1, 4.8.8 to 4.8.17].
describe('the document', () => {
  test('is OpenAPI 3.1 and names itself', async () => {
    const document = await documentOf();
    expect(document.openapi).toMatch(/^3\.1\.\d+$/);
    expect(document.info).toMatchObject({ title: 'Sandlarder', version: '0.1.0' });
  });

  test('has every address of the contract with its answers, and no other', async () => {
    const described = operationsOf(await documentOf()).map(([at, { responses }]) => [
      at,
      Object.keys(responses),
    ]);
    expect(Object.fromEntries(described)).toEqual(CONTRACT);
  });

  test('every reference resolves, and every named schema is used', async () => {
    const document = await documentOf();
    const references = valuesOf('$ref', document) as string[];
    expect(references.length).toBeGreaterThan(20);
    for (const reference of references) {
      expect(reference).toMatch(/^#\/components\/schemas\/\w+$/);
      expect(resolve(document, reference)).toBeTypeOf('object');
    }
    for (const name of Object.keys(document.components.schemas))
      expect(references).toContain(`#/components/schemas/${name}`);
  });

  test('names each operation once and says what it does', async () => {
    const operations = operationsOf(await documentOf()).map(([, operation]) => operation);
    const ids = operations.map(({ operationId }) => operationId);
    expect(new Set(ids).size).toBe(ids.length);
    for (const { operationId, summary } of operations) {
      expect(operationId).toMatch(/^[a-z][A-Za-z]+$/);
      expect(summary.length).toBeGreaterThan(10);
    }
  });

  test('describes every part of a path as required, and none that is not there', async () => {
    for (const [at, { parameters = [] }] of operationsOf(await documentOf())) {
      const inPath = parameters.filter((parameter) => parameter.in === 'path');
      expect(inPath.map(({ name }) => `{${name}}`)).toEqual(at.match(/\{\w+\}/g) ?? []);
      for (const parameter of inPath) expect(parameter.required).toBe(true);
    }
  });

  test('answers every error as problem details, with a description', async () => {
    for (const [at, { responses }] of operationsOf(await documentOf()))
      for (const [status, { description, content }] of Object.entries(responses)) {
        expect(description, `${at} ${status}`).not.toMatch(/^(Default Response)?$/);
        if (Number(status) >= 400 && at !== 'GET /api/health')
          expect(content).toEqual({
            'application/problem+json': { schema: { $ref: '#/components/schemas/Problem' } },
          });
      }
  });

  test('is free of what OpenAPI 3.0 said otherwise and of types that JSON Schema does not have', async () => {
    const document = await documentOf();
    expect(valuesOf('nullable', document)).toEqual([]);
    const schemas = operationsOf(document).flatMap(([, operation]) => valuesOf('schema', operation));
    for (const type of [...schemas, ...Object.values(document.components.schemas)].flatMap(typesOf))
      expect(TYPES).toContain(type);
  });

  test('says the bounds that are really checked', async () => {
    const { paths } = await documentOf();
    const parameters = paths['/api/beds/{bed}/readings']?.['get']?.parameters ?? [];
    const named = Object.fromEntries(parameters.map((parameter) => [parameter.name, parameter]));
    expect(named['bed']?.schema).toMatchObject({ type: 'string', pattern: '^[a-z0-9][a-z0-9-]{0,31}$' });
    expect(named['from']).toMatchObject({ required: false, schema: { type: 'string', format: 'date-time' } });
    expect(named['points']).toMatchObject({
      required: false,
      schema: { type: 'integer', minimum: 10, maximum: 5000 },
    });
    expect(paths['/api/alarms']?.['get']?.parameters).toContainEqual(
      expect.objectContaining({
        name: 'limit',
        schema: { type: 'integer', minimum: 1, maximum: 1000, default: 100 },
      }),
    );
    expect(JSON.stringify(await documentOf())).not.toContain(String(Number.MAX_SAFE_INTEGER));
  });

  test('describes the lag of each bed, and the reasons for which a reading is not used', async () => {
    const { schemas } = (await documentOf()).components;
    expect(resolve(schemas, 'Health/properties/watchLag/properties/byBed/items')).toMatchObject({
      properties: { bed: { type: 'string' }, hours: { type: 'number' } },
    });
    expect(resolve(schemas, 'Series/properties/flagged/items')).toMatchObject({
      properties: { quantity: { enum: ['temperature', 'humidity'] }, reason: { enum: [...FLAG_REASONS] } },
    });
  });

  test('asks for nothing that nobody may send: no part of a body is read only', async () => {
    const document = await documentOf();
    const bodies = operationsOf(document).map(([, { requestBody }]) => requestBody);
    expect(bodies.filter((body) => body !== undefined).length).toBeGreaterThan(5);
    expect(valuesOf('readOnly', document)).toEqual([]);
  });

  test('closes bodies to unknown keys and leaves answers open to later ones', async () => {
    const { paths, components } = await documentOf();
    const body = paths['/api/beds/{bed}/inspections']?.['post']?.requestBody?.content['application/json'];
    expect(body?.schema).toMatchObject({ type: 'object', additionalProperties: false });
    expect(components.schemas['Bed']).not.toHaveProperty('additionalProperties');
  });

  test('describes certificates in the types in which they come', async () => {
    const { paths } = await documentOf();
    const typesAt = (path: string): string[] =>
      Object.keys(paths[`/api/calibrations/{id}/${path}`]?.['get']?.responses['200']?.content ?? {});
    expect(typesAt('certificate')).toEqual(['text/html']);
    expect(typesAt('certificate.pdf')).toEqual(['application/pdf']);
  });

  test('takes times of calibrations as text, as it gives them', async () => {
    const { paths, components } = await documentOf();
    const body = paths['/api/calibrations']?.['post']?.requestBody?.content['application/json']?.schema;
    expect(body).toMatchObject({
      ...{ type: 'object', additionalProperties: false },
      properties: { doneAt: { type: 'string' }, from: { type: 'string' } },
    });
    expect(resolve(components.schemas, 'Calibration/properties/doneAt')).toMatchObject({ type: 'string' });
  });

  test('says what may be shown, and asks nothing of whoever looks at the health or signs in', async () => {
    const { security, components, paths } = await documentOf();
    expect(security?.flatMap(Object.keys)).toEqual(Object.keys(components.securitySchemes ?? {}));
    for (const [path, method] of [
      ['/api/health', 'get'],
      ['/api/sign-in', 'post'],
    ] as const)
      expect(paths[path]?.[method]).toMatchObject({ security: [] });
  });
});

/** The values of `type` where a schema stands, not where a property is called so. */
function typesOf(schema: unknown): unknown[] {
  if (schema === null || typeof schema !== 'object') return [];
  const { type = [], properties = {}, items, anyOf = [], additionalProperties } = schema as Json;
  const below = [...Object.values(properties as Json), items, ...(anyOf as unknown[]), additionalProperties];
  return [...[type].flat(), ...below.flatMap(typesOf)];
}

test('components that only unused components refer to are left out too', () => {
  const reference = (name: string) => ({ $ref: `#/components/schemas/${name}` });
  const schemas = { A: { items: reference('B') }, B: {}, C: { items: reference('D') }, D: reference('C') };
  const document = { openapi: '3.1.1', paths: { '/a': reference('A') }, components: { schemas } };
  expect(keepUsedComponents(document as never)).toMatchObject({
    components: { schemas: { A: schemas.A, B: {} } },
  });
  expect(JSON.stringify(keepUsedComponents(document as never))).not.toMatch(/"[CD]"/);
});
