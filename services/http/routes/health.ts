import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { healthAnswer, healthForStrangers, healthSchema } from '../schemas/health.js';

/** `GET /api/health`: 200 while readings are being accepted, 503 with the same body while they are not. */
export function addHealth(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/health',
    {
      schema: {
        operationId: 'getHealth',
        summary: 'Whether readings are being accepted, and what is wrong',
        tags: ['service'],
        security: [],
        response: {
          200: jsonAnswer('Readings are being accepted', healthSchema),
          503: jsonAnswer('Readings are not being accepted', healthSchema),
        },
      },
    },
    ({ asker }, reply) => {
      const health = ports.health();
      const shown = asker ? health : healthForStrangers(health);
      reply.code(health.accepting ? 200 : 503).send(healthAnswer(shown, ports.access.standing()));
    },
  );
}
