import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { unknownProbeAnswer, unknownProbeSchema } from '../schemas/probe.js';
import { problemResponses } from '../schemas/problem.js';

/** `GET /api/probes/unknown`. */
export function addProbes(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/probes/unknown',
    {
      schema: {
        operationId: 'listUnknownProbes',
        summary: 'Probes that no site description knows; their readings are kept until they are described',
        tags: ['service'],
        response: { 200: jsonAnswer('The probes', z.array(unknownProbeSchema)), ...problemResponses(401) },
      },
    },
    () => ports.unknownProbes().map(unknownProbeAnswer),
  );
}
