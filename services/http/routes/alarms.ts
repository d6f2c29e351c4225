import { z } from 'zod';
import { ALARM_ID_LENGTH } from '../../core/alarms/alarm-id.js';
import { acknowledgeBodySchema, shelveBodySchema } from '../../core/model/alarm.js';
import { languageOf } from '../accept-language.js';
import type { HttpApp } from '../http-app.js';
import { nextPageLink } from '../next-page.js';
import type { HttpPorts } from '../ports.js';
import { alarmAnswer, alarmQuerySchema, alarmSchema } from '../schemas/alarm.js';
import { alarmStoryAnswer, alarmStorySchema } from '../schemas/alarm-story.js';
import { jsonAnswer } from '../schemas/answer.js';
import { languageQuerySchema } from '../schemas/language.js';
import { problemResponses } from '../schemas/problem.js';

const alarmPathSchema = z.strictObject({ id: z.string().min(1).max(ALARM_ID_LENGTH) });

/** `/api/alarms`: the list, one opened, and what people answer. */
export function addAlarms(app: HttpApp, ports: HttpPorts): void {
  addList(app, ports);
  addOne(app, ports);
  addAnswers(app, ports);
}

function addList(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/alarms',
    {
      schema: {
        operationId: 'listAlarms',
        summary: 'Alarms, newest first; a Link header with rel="next" leads to the next page',
        tags: ['alarms'],
        querystring: alarmQuerySchema,
        response: {
          200: jsonAnswer('One page of alarms', z.array(alarmSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    (request, reply) => {
      // A bed that is not known must not look like a bed without alarms.
      if (request.query.bed !== undefined) ports.bed(request.query.bed);
      const { alarms, more } = ports.alarms(request.query);
      const last = alarms.at(-1);
      if (more && last) reply.header('link', nextPageLink(request.url, last.id));
      const language = languageOf(request, reply);
      return alarms.map((alarm) => alarmAnswer(alarm, ports.alarmSaid(alarm, language)));
    },
  );
}

function addOne(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/alarms/:id',
    {
      schema: {
        operationId: 'getAlarm',
        summary: 'One alarm: why it was raised, what to do step by step, and what became of it',
        tags: ['alarms'],
        params: alarmPathSchema,
        querystring: languageQuerySchema,
        response: { 200: jsonAnswer('The alarm', alarmStorySchema), ...problemResponses(400, 401, 404) },
      },
    },
    (request, reply) => {
      const story = ports.alarm(request.params.id);
      const language = languageOf(request, reply);
      const [text, where] = [ports.alarmSaid(story.alarm, language), ports.placeSaid(story.alarm, language)];
      return alarmStoryAnswer(story, { text, where });
    },
  );
  app.get(
    '/api/alarms/:id/cap',
    {
      schema: {
        operationId: 'getAlarmAsCap',
        summary: 'The alarm as a message of the OASIS Common Alerting Protocol 1.2',
        tags: ['alarms'],
        params: alarmPathSchema,
        response: {
          200: { description: 'CAP 1.2', content: { 'application/cap+xml': { schema: z.string() } } },
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params }, reply) => {
      reply.type('application/cap+xml; charset=utf-8');
      return ports.cap(params.id);
    },
  );
}

function addAnswers(app: HttpApp, ports: HttpPorts): void {
  app.post(
    '/api/alarms/:id/acknowledge',
    {
      schema: {
        operationId: 'acknowledgeAlarm',
        summary: 'Say that someone has seen the alarm; a second time changes nothing',
        tags: ['alarms'],
        params: alarmPathSchema,
        body: acknowledgeBodySchema,
        response: {
          200: jsonAnswer('The alarm as it is now', alarmSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415),
        },
      },
    },
    ({ params, body }) => alarmAnswer(ports.acknowledge(params.id, body)),
  );
  app.post(
    '/api/alarms/:id/shelve',
    {
      schema: {
        operationId: 'shelveAlarm',
        summary: 'Silence for a time, at most three days; the condition goes on being watched',
        tags: ['alarms'],
        params: alarmPathSchema,
        body: shelveBodySchema,
        response: {
          200: jsonAnswer('The alarm as it is now', alarmSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415),
        },
      },
    },
    ({ params, body }) => alarmAnswer(ports.shelve(params.id, body)),
  );
}
