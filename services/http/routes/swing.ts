import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { swingSpan } from '../readings-span.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { problemResponses } from '../schemas/problem.js';
import { swingAnswer, swingQuerySchema, swingSchema } from '../schemas/swing.js';

/** `GET /api/beds/{bed}/swing`. */
export function addSwing(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/beds/:bed/swing',
    {
      schema: {
        operationId: 'getSwing',
        summary: 'How much of the daily swing outside arrives at each probe, day by day',
        tags: ['beds'],
        params: bedPathSchema,
        querystring: swingQuerySchema,
        response: {
          200: jsonAnswer('Shares of the swing, with what dry, damp and wet sand let through', swingSchema),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    async ({ params: { bed }, query }) => {
      const span = swingSpan(query, ports.bed(bed), ports.health());
      return swingAnswer(bed, span, await ports.swing(bed, span));
    },
  );
}
