import { inspectionBodySchema } from '../../core/model/inspection.js';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { inspectionAnswer, inspectionSchema } from '../schemas/inspection.js';
import { problemResponses } from '../schemas/problem.js';

/** `POST /api/beds/{bed}/inspections`. */
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
          201: jsonAnswer('The inspection as it was written down', inspectionSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415),
        },
      },
    },
    ({ params, body }, reply) => {
      reply.code(201);
      return inspectionAnswer(ports.inspect(params.bed, body));
    },
  );
}
