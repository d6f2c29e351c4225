import { z } from 'zod';
import { overrideSchema, readinessBodySchema } from '../../core/model/readiness.js';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { problemResponses } from '../schemas/problem.js';
import {
  readinessAnswer,
  readinessListQuerySchema,
  readinessPathSchema,
  readinessRecordAnswer,
  readinessRecordSchema,
  readinessSchema,
} from '../schemas/readiness.js';

const TAGS = ['keeping'];

/** `/api/beds/{bed}/readiness`. */
export function addReadiness(app: HttpApp, { readiness }: HttpPorts): void {
  app.get(
    '/api/beds/:bed/readiness',
    {
      schema: {
        operationId: 'getReadiness',
        summary: 'Whether a bed may be filled, as its probes answer now, with what was answered by hand',
        tags: TAGS,
        params: bedPathSchema,
        response: { 200: jsonAnswer('The list', readinessSchema), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params: { bed } }) => readinessAnswer(bed, readiness.now(bed)),
  );
  app.post(
    '/api/beds/:bed/readiness',
    {
      schema: {
        operationId: 'addReadiness',
        summary: 'Answer by hand, and keep the list as it stands with these answers',
        tags: TAGS,
        params: bedPathSchema,
        body: readinessBodySchema,
        response: {
          201: jsonAnswer('The record', readinessRecordSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415, 422),
        },
      },
    },
    ({ params, body }, reply) => {
      reply.code(201);
      return readinessRecordAnswer(readiness.keep(params.bed, body));
    },
  );
  addRecords(app, readiness);
}

function addRecords(app: HttpApp, readiness: HttpPorts['readiness']): void {
  app.get(
    '/api/beds/:bed/readiness/records',
    {
      schema: {
        operationId: 'listReadiness',
        summary: 'Who found a bed ready or not, and who had it filled all the same; the newest first',
        tags: TAGS,
        params: bedPathSchema,
        querystring: readinessListQuerySchema,
        response: {
          200: jsonAnswer('Records', z.array(readinessRecordSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params, query }) => readiness.list(params.bed, query.limit).map(readinessRecordAnswer),
  );
  app.post(
    '/api/beds/:bed/readiness/:id/override',
    {
      schema: {
        operationId: 'overrideReadiness',
        summary: 'Have a bed filled that was not found ready; who and why stays beside the record',
        tags: TAGS,
        params: readinessPathSchema,
        body: overrideSchema,
        response: {
          201: jsonAnswer('The record with the override', readinessRecordSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415, 422),
        },
      },
    },
    ({ params: { bed, id }, body }, reply) => {
      reply.code(201);
      return readinessRecordAnswer(readiness.override(bed, id, body));
    },
  );
}
