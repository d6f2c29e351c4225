import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { outlookAnswer, outlookQuery, outlookQuerySchema, outlookSchema } from '../schemas/outlook.js';
import { problemResponses } from '../schemas/problem.js';

/** `GET /api/beds/{bed}/outlook`. */
export function addOutlook(app: HttpApp, { seasons }: HttpPorts): void {
  app.get(
    '/api/beds/:bed/outlook',
    {
      schema: {
        operationId: 'getOutlook',
        summary: 'What will be left of a bed, how long it feeds, and whether holding pays at your prices',
        tags: ['keeping'],
        params: bedPathSchema,
        querystring: outlookQuerySchema,
        response: { 200: jsonAnswer('The outlook', outlookSchema), ...problemResponses(400, 401, 404, 422) },
      },
    },
    ({ params, query }) => outlookAnswer(seasons.outlook(params.bed, outlookQuery(query))),
  );
}
