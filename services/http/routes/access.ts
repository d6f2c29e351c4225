import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { accessAnswer, accessSchema, waySchema } from '../schemas/access.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';

const TAGS = ['settings'];

/** Who may do what, and by which ways people can be told. */
export function addAccess(app: HttpApp, { sites, people }: HttpPorts): void {
  app.get(
    '/api/access',
    {
      schema: {
        operationId: 'getAccess',
        summary: 'Who may do what, as the service was started: what is enforced, and what is taken on trust',
        tags: TAGS,
        response: { 200: jsonAnswer('The parties', accessSchema), ...problemResponses(401) },
      },
    },
    () => accessAnswer(sites.access()),
  );
  app.get(
    '/api/ways',
    {
      schema: {
        operationId: 'listWays',
        summary: 'By which ways people can be told here',
        tags: TAGS,
        response: { 200: jsonAnswer('The ways', z.array(waySchema)), ...problemResponses(401) },
      },
    },
    () => people.ways().map((way) => ({ ...way })),
  );
}
