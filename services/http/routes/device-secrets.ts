import { z } from 'zod';
import { DEVICE_KINDS, type DeviceKind } from '../../core/model/device.js';
import type { HttpApp } from '../http-app.js';
import type { AccessPorts, HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import {
  deviceSecretAnswer,
  deviceSecretSchema,
  madeSecretAnswer,
  madeSecretSchema,
} from '../schemas/device-secret.js';
import { problemResponses } from '../schemas/problem.js';
import { entryPathSchema, sitePathSchema } from '../schemas/site.js';

const TAGS = ['access'];

/** Where each kind is, and what an operation and a summary call it. */
const PLACES = {
  probe: ['probes', 'Probe', 'a probe, which may publish and hear on its own topics alone'],
  lamp: ['lamps', 'Lamp', 'a lamp or buzzer, which hears alarms alone'],
} as const satisfies Record<DeviceKind, readonly [string, string, string]>;

/** What probes and lamps show at the broker. */
export function addDeviceSecrets(app: HttpApp, { access }: HttpPorts): void {
  app.get(
    '/api/sites/:site/secrets',
    {
      schema: {
        ...{ operationId: 'listDeviceSecrets', tags: TAGS, params: sitePathSchema },
        summary: 'Which probes and lamps have a secret of their own at the broker, and since when',
        response: {
          200: jsonAnswer('They', z.array(deviceSecretSchema)),
          ...problemResponses(400, 401, 403, 404),
        },
      },
    },
    ({ params }) => access.deviceSecrets(params.site).map(deviceSecretAnswer),
  );
  for (const kind of DEVICE_KINDS) addKind(app, access, kind);
}

function addKind(app: HttpApp, access: AccessPorts, kind: DeviceKind): void {
  const [folder, operation, called] = PLACES[kind];
  const url = `/api/sites/:site/${folder}/:id/secret`;
  app.post(
    url,
    {
      schema: {
        ...{ operationId: `make${operation}Secret`, tags: TAGS, params: entryPathSchema },
        summary: `A secret at the broker for ${called}; it is shown this once, and one of before holds no more`,
        response: {
          201: jsonAnswer('The secret', madeSecretSchema),
          ...problemResponses(400, 401, 403, 404),
        },
      },
    },
    ({ params: { site, id } }, reply) => {
      reply.code(201);
      return madeSecretAnswer(access.makeDeviceSecret({ kind, site, id }));
    },
  );
  app.post(
    `${url}/revoke`,
    {
      schema: {
        ...{ operationId: `revoke${operation}Secret`, tags: TAGS, params: entryPathSchema },
        summary: `The secret of a ${kind} holds no more, and its connection ends`,
        response: {
          204: z.undefined().describe('It is done'),
          ...problemResponses(400, 401, 403, 404),
        },
      },
    },
    ({ params: { site, id } }, reply) => {
      access.revokeDeviceSecret({ kind, site, id });
      reply.code(204).send();
    },
  );
}
