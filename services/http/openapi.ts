/** The OpenAPI 3.1 document, generated from the same schemas that the routes validate with. */
import swagger from '@fastify/swagger';
import { createJsonSchemaTransform, createJsonSchemaTransformObject } from 'fastify-type-provider-zod';
import type { HttpApp } from './http-app.js';
import { keepUsedComponents } from './openapi-components.js';

type SchemaOptions = NonNullable<Parameters<typeof createJsonSchemaTransform>[0]['zodToJsonConfig']>;

/**
 * A later version may say more in its answers: only what is strict about requests stays closed to other keys.
 * The bounds of exact integers are no bounds of ours. What our code may not change is not what nobody may send.
 */
const zodToJsonConfig: SchemaOptions = {
  override: ({ zodSchema, jsonSchema }) => {
    const { def } = zodSchema._zod;
    if (def.type === 'object' && def.catchall === undefined) delete jsonSchema.additionalProperties;
    if (def.type === 'undefined') jsonSchema.not = {};
    delete jsonSchema.readOnly;
    if (jsonSchema.minimum === Number.MIN_SAFE_INTEGER) delete jsonSchema.minimum;
    if (jsonSchema.maximum === Number.MAX_SAFE_INTEGER) delete jsonSchema.maximum;
  },
};

const DESCRIPTION =
  'Beds of stored roots, what their probes measure, and the alarms that follow. All times are event times: when it was measured, not when it arrived.';

/** What may be shown, where the service asks who it is. */
const SCHEMES = {
  session: {
    type: 'apiKey',
    in: 'cookie',
    name: 'sandlarder',
    description: 'Of `signIn`; `__Host-sandlarder` by TLS',
  },
  token: { type: 'http', scheme: 'bearer', description: 'Of a machine' },
  basic: {
    type: 'http',
    scheme: 'basic',
    description: 'User and password of the environment, or "token" and a token',
  },
} as const;

/** Call before the routes are added: the document describes those that come after. */
export async function addOpenApi(app: HttpApp, version: string): Promise<void> {
  const withComponents = createJsonSchemaTransformObject({ zodToJsonConfig });
  await app.register(swagger, {
    openapi: {
      openapi: '3.1.1',
      info: { title: 'Sandlarder', version, description: DESCRIPTION, license: { name: 'Apache-2.0' } },
      servers: [{ url: '/' }],
      tags: [
        { name: 'beds', description: 'Beds, their probes and readings' },
        { name: 'keeping', description: 'What is written down at a bed: fillings, looks, stock' },
        { name: 'alarms', description: 'Conditions that someone must act on' },
        { name: 'settings', description: 'Sites, beds, probes, people and thresholds: read and changed' },
        { name: 'access', description: 'Signing in, who may do what, and what was changed' },
        { name: 'service', description: 'The service itself' },
      ],
      security: [{ session: [] }, { token: [] }, { basic: [] }],
      components: { securitySchemes: SCHEMES },
    },
    convertConstToEnum: false,
    transform: createJsonSchemaTransform({ zodToJsonConfig }),
    transformObject: (document) => keepUsedComponents(withComponents(document)),
  });
  app.get('/api/openapi.json', { schema: { hide: true } }, () => app.swagger());
}
