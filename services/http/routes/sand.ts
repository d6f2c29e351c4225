import { z } from 'zod';
import { sandBodySchema } from '../../core/model/sand.js';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { problemResponses } from '../schemas/problem.js';
import { sandAnswer, sandListQuerySchema, sandQuerySchema, sandSchema } from '../schemas/sand.js';

const TAGS = ['keeping'];

/** `POST /api/sand`, and what is kept of it for a bed. */
export function addSand(app: HttpApp, ports: HttpPorts): void {
  addJudging(app, ports);
  addRecords(app, ports);
}

function addJudging(app: HttpApp, { sand }: HttpPorts): void {
  app.post(
    '/api/sand',
    {
      schema: {
        operationId: 'judgeSand',
        summary: 'Whether a sand is fit to keep roots in, by its grains, its water and its warmth',
        tags: TAGS,
        querystring: sandQuerySchema,
        body: sandBodySchema,
        response: {
          200: jsonAnswer('The verdict; nothing is kept', sandSchema),
          201: jsonAnswer('The verdict, kept as a record of the bed', sandSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415, 422),
        },
      },
    },
    ({ query: { bed }, body }, reply) => {
      if (bed === undefined) return sandAnswer(sand.judge(body));
      const { report, record } = sand.keep(bed, body);
      reply.code(201);
      return sandAnswer(report, record);
    },
  );
}

function addRecords(app: HttpApp, { sand }: HttpPorts): void {
  app.post(
    '/api/beds/:bed/sand',
    {
      schema: {
        operationId: 'addSand',
        summary: 'Judge the sand of a bed, and keep what was measured',
        tags: TAGS,
        params: bedPathSchema,
        body: sandBodySchema,
        response: {
          201: jsonAnswer('The verdict, kept as a record of the bed', sandSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415, 422),
        },
      },
    },
    ({ params, body }, reply) => {
      const { report, record } = sand.keep(params.bed, body);
      reply.code(201);
      return sandAnswer(report, record);
    },
  );
  app.get(
    '/api/beds/:bed/sand',
    {
      schema: {
        operationId: 'listSand',
        summary: 'What was measured of the sand of a bed, the newest first',
        tags: TAGS,
        params: bedPathSchema,
        querystring: sandListQuerySchema,
        response: { 200: jsonAnswer('Records', z.array(sandSchema)), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params, query }) =>
      sand.list(params.bed, query.limit).map(({ report, record }) => sandAnswer(report, record)),
  );
}
