import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { coverageDocument, coverageQuery, coverageQuerySchema, coverageSchema } from '../schemas/coverage.js';
import { problemResponses } from '../schemas/problem.js';

/** `GET /api/beds/{bed}/coverage`. */
export function addCoverage(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/beds/:bed/coverage',
    {
      schema: {
        operationId: 'getCoverage',
        summary: 'Where in a bed its probes would find a source of warmth, and where they are blind',
        tags: ['beds'],
        params: bedPathSchema,
        querystring: coverageQuerySchema,
        response: {
          200: jsonAnswer('What the probes that stand in the bed now would find', coverageSchema),
          ...problemResponses(400, 401, 404, 503),
        },
      },
    },
    async ({ params, query }) => {
      const asked = coverageQuery(query);
      return coverageDocument(await ports.coverage(params.bed, asked), asked);
    },
  );
}
