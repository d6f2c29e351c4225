/** Leaves out of an OpenAPI document the component schemas that nothing in it refers to. */
import type { SwaggerTransformObject } from '@fastify/swagger';

type ApiDocument = ReturnType<SwaggerTransformObject>;

const SCHEMA_REFERENCE = /"\$ref":"#\/components\/schemas\/([^"]+)"/g;

/** The library writes each named schema twice, as asked and as answered; most are only one of them. */
export function keepUsedComponents(document: ApiDocument): ApiDocument {
  const { components = {} } = document as { components?: { schemas?: object } };
  const all = new Map<string, unknown>(Object.entries(components.schemas ?? {}));
  const used = new Set<string>();
  const waiting = referencesIn({ ...document, components: undefined });
  for (let name = waiting.pop(); name !== undefined; name = waiting.pop()) {
    if (used.has(name)) continue;
    used.add(name);
    waiting.push(...referencesIn(all.get(name)));
  }
  const schemas = Object.fromEntries([...all].filter(([name]) => used.has(name)));
  return { ...document, components: { ...components, schemas } } as ApiDocument;
}

function referencesIn(part: unknown): string[] {
  return [...(JSON.stringify(part) ?? '').matchAll(SCHEMA_REFERENCE)].flatMap((match) => match[1] ?? []);
}
