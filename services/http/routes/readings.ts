import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { readingsSpan, shadeQuery } from '../readings-span.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { problemResponses } from '../schemas/problem.js';
import { readingsAnswer, readingsQuerySchema, readingsSchema } from '../schemas/readings.js';

/** `GET /api/beds/{bed}/readings`. */
export function addReadings(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/beds/:bed/readings',
    {
      schema: {
        operationId: 'getReadings',
        summary: 'Series for a plot, by probe: corrected value, expected value and band',
        tags: ['beds'],
        params: bedPathSchema,
        querystring: readingsQuerySchema,
        response: {
          200: jsonAnswer('The series of each probe', readingsSchema),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    async ({ params, query }) => {
      const span = readingsSpan(query, ports.bed(params.bed), ports.health());
      const named = query.probes !== undefined || query.shade;
      const older = await ports.older(params.bed, query.shade ? { ...span, probes: undefined } : span);
      return readingsAnswer(params.bed, span, {
        probes: ports.series(params.bed, span, older),
        shade: named ? ports.shadeSeries(params.bed, shadeQuery(span, query), older) : [],
        note: older.note,
      });
    },
  );
}
