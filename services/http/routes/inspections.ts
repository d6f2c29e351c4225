import { z } from 'zod';
import { inspectionBodySchema } from '../../core/model/inspection.js';
import type { HttpApp } from '../http-app.js';
import { nextPageLink } from '../next-page.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import {
  inspectedAnswer,
  inspectedSchema,
  inspectionAnswer,
  inspectionQuerySchema,
  inspectionSchema,
} from '../schemas/inspection.js';
import { problemResponses } from '../schemas/problem.js';

/** `POST` and `GET /api/beds/{bed}/inspections`. */
export function addInspections(app: HttpApp, ports: HttpPorts): void {
  app.post(
    '/api/beds/:bed/inspections',
    {
      schema: {
        operationId: 'addInspection',
        summary: 'Write down what was found in a bed',
        tags: ['beds'],
        params: bedPathSchema,
        body: inspectionBodySchema,
        response: {
          200: jsonAnswer('It was there already', inspectedSchema),
          201: jsonAnswer('The inspection as it was written down, and what follows from it', inspectedSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415),
        },
      },
    },
    ({ params, body }, reply) => {
      const view = ports.inspect(params.bed, body);
      reply.code(view.isNew ? 201 : 200);
      return inspectedAnswer(view);
    },
  );
  app.get(
    '/api/beds/:bed/inspections',
    {
      schema: {
        operationId: 'listInspections',
        summary: 'Inspections, newest first; a Link header with rel="next" leads to the next page',
        tags: ['beds'],
        params: bedPathSchema,
        querystring: inspectionQuerySchema,
        response: {
          200: jsonAnswer('One page of inspections', z.array(inspectionSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    (request, reply) => {
      const { inspections, more } = ports.ledger.inspections(request.params.bed, request.query);
      const last = inspections.at(-1);
      if (more && last) reply.header('link', nextPageLink(request.url, last.id));
      return inspections.map(inspectionAnswer);
    },
  );
}
