import type { IncomingHttpHeaders } from 'node:http';
import { z } from 'zod';
import { SandlarderError } from '../../core/errors.js';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import {
  answerAnswer,
  answerSchema,
  answersQuerySchema,
  drillAnswer,
  drillBodySchema,
  drillSchema,
  figuresQuerySchema,
  figuresSchema,
} from '../schemas/people.js';
import { problemResponses } from '../schemas/problem.js';

const TAGS = ['people'];
const drillPathSchema = z.strictObject({ id: z.string().min(1).max(64) });

/** Drills, answers, figures, and what gateways hand over. */
export function addPeople(app: HttpApp, ports: HttpPorts): void {
  addDrills(app, ports);
  addHeard(app, ports);
  addReceiving(app, ports);
}

function addDrills(app: HttpApp, { people }: HttpPorts): void {
  app.post(
    '/api/drills',
    {
      schema: {
        operationId: 'startDrill',
        summary: 'A marked test to everybody who would be told of a bed, by every way that they have',
        tags: TAGS,
        body: drillBodySchema,
        response: { 201: jsonAnswer('The drill', drillSchema), ...problemResponses(400, 401, 404, 413, 415) },
      },
    },
    ({ body }, reply) => {
      reply.code(201);
      return drillAnswer(people.drill(body.bed, body.by));
    },
  );
  app.get(
    '/api/drills/:id',
    {
      schema: {
        operationId: 'getDrill',
        summary: 'Who got it by now, and how long it took',
        tags: TAGS,
        params: drillPathSchema,
        response: { 200: jsonAnswer('The drill', drillSchema), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }) => drillAnswer(people.drillOf(params.id)),
  );
}

/** What people sent back, and how much they are told. */
function addHeard(app: HttpApp, { people }: HttpPorts): void {
  app.get(
    '/api/answers',
    {
      schema: {
        operationId: 'listAnswers',
        summary: 'What people sent back, the newest first; unknown senders too',
        tags: TAGS,
        querystring: answersQuerySchema,
        response: { 200: jsonAnswer('Answers', z.array(answerSchema)), ...problemResponses(400, 401) },
      },
    },
    ({ query }) => people.answers(query.limit).map(answerAnswer),
  );
  app.get(
    '/api/telling',
    {
      schema: {
        operationId: 'getTelling',
        summary: 'How much people are told and how soon they answer, over the last days',
        tags: TAGS,
        querystring: figuresQuerySchema,
        response: { 200: jsonAnswer('By site', z.array(figuresSchema)), ...problemResponses(400, 401) },
      },
    },
    ({ query }) =>
      people.figures(query.days).map(({ people: told, languages, ...rest }) => ({
        ...rest,
        ...{ people: [...told], languages: [...languages] },
      })),
  );
}

/** What a gateway posts is read by what its settings say, as it came. */
function addReceiving(app: HttpApp, { people }: HttpPorts): void {
  app.route({
    method: ['GET', 'POST'],
    url: '/api/messages',
    schema: { hide: true },
    handler: ({ body, url, headers }, reply) => {
      refuseBrowser(headers);
      const text = typeof body === 'string' || body === undefined ? body : JSON.stringify(body);
      people.receive({ body: text, query: url.split('?')[1] ?? '' });
      reply.code(204).send();
    },
  });
}

/** Without credentials this machine is trusted: a page in a browser on it must not write in a keeper's name. */
function refuseBrowser(headers: IncomingHttpHeaders): void {
  if (headers.origin === undefined && headers['sec-fetch-site'] === undefined) return;
  throw new SandlarderError('BAD_REQUEST', 'messages: expected a gateway, got a page in a browser');
}
