import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';
import { quarantineAnswer, quarantineEntrySchema, quarantineQuerySchema } from '../schemas/quarantine.js';

/** `GET /api/quarantine`. */
export function addQuarantine(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/quarantine',
    {
      schema: {
        operationId: 'listQuarantine',
        summary: 'What was set aside instead of kept, and why',
        tags: ['service'],
        querystring: quarantineQuerySchema,
        response: {
          200: jsonAnswer('The latest entries', z.array(quarantineEntrySchema)),
          ...problemResponses(400, 401),
        },
      },
    },
    ({ query }) => ports.quarantine(query.limit).map(quarantineAnswer),
  );
}
