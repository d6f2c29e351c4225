import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';
import { todayAnswer, todayQuerySchema, todaySchema } from '../schemas/today.js';

/** `GET /api/today`: what needs a person, in order and in words. */
export function addToday(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/today',
    {
      schema: {
        operationId: 'getToday',
        summary: 'What needs a person today, in order and in words, and who has it in hand',
        tags: ['alarms'],
        querystring: todayQuerySchema,
        response: { 200: jsonAnswer('What is to be done', todaySchema), ...problemResponses(400, 401) },
      },
    },
    ({ query }) => todayAnswer(ports.today(query.language)),
  );
}
