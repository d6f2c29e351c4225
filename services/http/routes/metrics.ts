import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { problemResponses } from '../schemas/problem.js';

/** `GET /metrics`. */
export function addMetrics(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/metrics',
    {
      schema: {
        operationId: 'getMetrics',
        summary: 'Counters and gauges of the service, OpenMetrics text',
        tags: ['service'],
        response: {
          200: {
            description: 'OpenMetrics 1.0',
            content: { 'application/openmetrics-text': { schema: z.string() } },
          },
          ...problemResponses(401),
        },
      },
    },
    async (_request, reply) => {
      const { text, contentType } = await ports.metrics();
      return reply.type(contentType).send(text);
    },
  );
}
