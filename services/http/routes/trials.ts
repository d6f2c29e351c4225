import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import {
  assignmentBodySchema,
  drawBodySchema,
  powerBodySchema,
  trialBodySchema,
} from '../../core/model/trial.js';
import type { HttpApp } from '../http-app.js';
import { HTTP_LIMITS } from '../limits.js';
import type { HttpPorts, TrialKept } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';
import {
  trialAnswer,
  trialPathSchema,
  trialResultAnswer,
  trialResultSchema,
  trialSchema,
} from '../schemas/trial.js';
import { curvesAnswer, curvesQuerySchema, curvesSchema } from '../schemas/trial-curves.js';
import { powerAnswer, powerSchema } from '../schemas/trial-power.js';
import { addTrialReport } from './trial-report.js';

const TAGS = ['trials'];
const KEPT = {
  200: jsonAnswer('It was there already', trialSchema),
  201: jsonAnswer('The version that stands now', trialSchema),
  ...problemResponses(400, 401, 404, 409, 413, 415, 422),
};

/** `/api/trials`. */
export function addTrials(app: HttpApp, { trials }: HttpPorts): void {
  app.get(
    '/api/trials',
    {
      schema: {
        ...{ operationId: 'listTrials', summary: 'Trials as they stand, the newest first', tags: TAGS },
        response: { 200: jsonAnswer('Trials', z.array(trialSchema)), ...problemResponses(401) },
      },
    },
    () => trials.list().map(trialAnswer),
  );
  app.post(
    '/api/trials',
    {
      bodyLimit: HTTP_LIMITS.trialBody_bytes,
      schema: {
        ...{ operationId: 'addTrial', summary: 'Write down a trial, or correct one', tags: TAGS },
        body: trialBodySchema,
        response: KEPT,
      },
    },
    ({ body }, reply) => kept(reply, trials.add(body)),
  );
  addDrawing(app, trials);
  addOne(app, trials);
  addFindings(app, trials);
  addPower(app, trials);
  addTrialReport(app, trials);
}

function addDrawing(app: HttpApp, trials: HttpPorts['trials']): void {
  app.post(
    '/api/trials/:trial/draw',
    {
      schema: {
        ...{ operationId: 'drawTrial', tags: TAGS },
        summary: 'Draw which bed gets which treatment, once, and show it before it is in force',
        params: trialPathSchema,
        body: drawBodySchema,
        response: KEPT,
      },
    },
    ({ params, body }, reply) => kept(reply, trials.draw(params.trial, body)),
  );
  app.post(
    '/api/trials/:trial/assignment',
    {
      schema: {
        ...{ operationId: 'assignTrial', tags: TAGS },
        summary: 'Put what was drawn in force; where nothing was, draw it, once',
        params: trialPathSchema,
        body: assignmentBodySchema,
        response: KEPT,
      },
    },
    ({ params, body }, reply) => kept(reply, trials.assign(params.trial, body)),
  );
}

/** Not under `/api/trials/`, where it would take the place of a trial of that name. */
function addPower(app: HttpApp, trials: HttpPorts['trials']): void {
  app.post(
    '/api/trial-power',
    {
      schema: {
        ...{ operationId: 'askTrialPower', tags: TAGS },
        summary: 'How many beds find a difference worth having; nothing is kept',
        body: powerBodySchema,
        response: {
          200: jsonAnswer('The size of the trial', powerSchema),
          ...problemResponses(400, 401, 413, 415, 422),
        },
      },
    },
    async ({ body }) => powerAnswer(body, await trials.power(body)),
  );
}

function kept(reply: Pick<FastifyReply, 'code'>, { trial, isNew }: TrialKept) {
  reply.code(isNew ? 201 : 200);
  return trialAnswer(trial);
}

function addOne(app: HttpApp, trials: HttpPorts['trials']): void {
  app.get(
    '/api/trials/:trial',
    {
      schema: {
        ...{ operationId: 'getTrial', summary: 'A trial as it stands', tags: TAGS },
        params: trialPathSchema,
        response: { 200: jsonAnswer('The trial', trialSchema), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }) => trialAnswer(trials.versions(params.trial)[0]),
  );
  app.get(
    '/api/trials/:trial/versions',
    {
      schema: {
        ...{ operationId: 'listTrialVersions', summary: 'All that it was, the newest first', tags: TAGS },
        params: trialPathSchema,
        response: { 200: jsonAnswer('Versions', z.array(trialSchema)), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }) => trials.versions(params.trial).map(trialAnswer),
  );
}

function addFindings(app: HttpApp, trials: HttpPorts['trials']): void {
  app.get(
    '/api/trials/:trial/result',
    {
      schema: {
        ...{ operationId: 'getTrialResult', summary: 'What it has come to by now', tags: TAGS },
        params: trialPathSchema,
        response: {
          200: jsonAnswer('The result', trialResultSchema),
          ...problemResponses(400, 401, 404, 409, 422),
        },
      },
    },
    async ({ params }) =>
      trialResultAnswer(trials.versions(params.trial)[0], await trials.result(params.trial)),
  );
  app.get(
    '/api/trials/:trial/curves',
    {
      schema: {
        ...{ operationId: 'getTrialCurves', summary: 'Treatments over time, by day', tags: TAGS },
        params: trialPathSchema,
        querystring: curvesQuerySchema,
        response: { 200: jsonAnswer('Curves', curvesSchema), ...problemResponses(400, 401, 404, 422) },
      },
    },
    async ({ params, query }) => curvesAnswer(params.trial, query, await trials.curves(params.trial, query)),
  );
}
