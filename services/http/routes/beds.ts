import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedAnswer, bedPathSchema, bedSchema } from '../schemas/bed.js';
import { problemResponses } from '../schemas/problem.js';

/** `GET /api/beds` and `GET /api/beds/{bed}`. */
export function addBeds(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/beds',
    {
      schema: {
        operationId: 'listBeds',
        summary: 'All beds, their probes, their latest readings, and how they stand',
        tags: ['beds'],
        response: { 200: jsonAnswer('The beds', z.array(bedSchema)), ...problemResponses(401) },
      },
    },
    () => ports.beds().map(bedAnswer),
  );
  app.get(
    '/api/beds/:bed',
    {
      schema: {
        operationId: 'getBed',
        summary: 'One bed, its probes, their latest readings, and how it stands',
        tags: ['beds'],
        params: bedPathSchema,
        response: { 200: jsonAnswer('The bed', bedSchema), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }) => bedAnswer(ports.bed(params.bed)),
  );
}
