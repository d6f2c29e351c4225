import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import { nextPageLink } from '../next-page.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { eventAnswer, eventQuerySchema, eventSchema } from '../schemas/event.js';
import { problemResponses } from '../schemas/problem.js';

/** `GET /api/beds/{bed}/events`. */
export function addEvents(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/beds/:bed/events',
    {
      schema: {
        operationId: 'listEvents',
        summary: 'What happened to a bed, newest first; a Link header with rel="next" leads to the next page',
        tags: ['beds'],
        params: bedPathSchema,
        querystring: eventQuerySchema,
        response: {
          200: jsonAnswer('One page of events', z.array(eventSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    (request, reply) => {
      const { events, more } = ports.events(request.params.bed, request.query);
      const last = events.at(-1);
      if (more && last) reply.header('link', nextPageLink(request.url, last.id));
      return events.map(eventAnswer);
    },
  );
}
