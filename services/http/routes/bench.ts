import { z } from 'zod';
import { benchCautions, SALTS, type SaltId, saltHumidity_RH } from '../../core/calibration/index.js';
import {
  benchBodySchema,
  benchPointBodySchema,
  captureBodySchema,
  closeBodySchema,
  dropPointBodySchema,
  finishBodySchema,
} from '../../core/model/bench.js';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import {
  benchAnswer,
  benchPathSchema,
  benchQuerySchema,
  benchSchema,
  capturedAnswer,
  capturedSchema,
  saltSchema,
} from '../schemas/bench.js';
import { calibrationAnswer, calibrationSchema } from '../schemas/calibration.js';
import { problemResponses } from '../schemas/problem.js';

const TAGS = ['calibration'];
const CHANGES = problemResponses(400, 401, 404, 409, 413, 415, 422);

/** `/api/bench`: probes that are calibrated together. */
export function addBench(app: HttpApp, ports: HttpPorts): void {
  const { bench } = ports;
  app.get(
    '/api/bench',
    {
      schema: {
        operationId: 'listBench',
        summary: 'Bench works, the newest first',
        tags: TAGS,
        querystring: benchQuerySchema,
        response: { 200: jsonAnswer('Bench works', z.array(benchSchema)), ...problemResponses(400, 401) },
      },
    },
    ({ query: { site, state, limit } }) =>
      bench
        .list(site, state, limit)
        .map((one) => benchAnswer({ bench: one, settling: [], cautions: [], warnings: [] })),
  );
  app.get(
    '/api/bench/salts',
    {
      schema: {
        operationId: 'listSalts',
        summary: 'Salts whose saturated solutions hold a known humidity, with their cautions',
        tags: TAGS,
        response: { 200: jsonAnswer('Salts', z.array(saltSchema)), ...problemResponses(401) },
      },
    },
    () =>
      SALTS.map(({ id, name, formula, cautions }) => ({
        ...{ id, name, formula, at25_C: at25_C(id), cautions: benchCautions('salt', cautions) },
      })),
  );
  app.post(
    '/api/bench',
    {
      schema: {
        operationId: 'openBench',
        summary: 'Begin to calibrate probes together',
        tags: TAGS,
        body: benchBodySchema,
        response: { 201: jsonAnswer('The bench', benchSchema), ...CHANGES },
      },
    },
    ({ body }, reply) => {
      reply.code(201);
      return benchAnswer(bench.open(body));
    },
  );
  app.get(
    '/api/bench/:bench',
    {
      schema: {
        operationId: 'getBench',
        summary: 'One bench, with how its probes settle just now',
        tags: TAGS,
        params: benchPathSchema,
        response: { 200: jsonAnswer('The bench', benchSchema), ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }) => benchAnswer(bench.get(params.bench)),
  );
  addSteps(app, ports);
  addEnds(app, ports);
}

function at25_C(salt: SaltId): { humidity_RH: number; standardUncertainty_RH: number } {
  const { humidity_RH, standardUncertainty_RH } = saltHumidity_RH(salt, 25);
  return { humidity_RH, standardUncertainty_RH };
}

function addSteps(app: HttpApp, { bench }: HttpPorts): void {
  app.post(
    '/api/bench/:bench/points',
    {
      schema: {
        operationId: 'beginPoint',
        summary: 'The probes are in the next bath or jar: its reference',
        tags: TAGS,
        params: benchPathSchema,
        body: benchPointBodySchema,
        response: { 200: jsonAnswer('The bench', benchSchema), ...CHANGES },
      },
    },
    ({ params, body }) => benchAnswer(bench.point(params.bench, body)),
  );
  app.post(
    '/api/bench/:bench/capture',
    {
      schema: {
        operationId: 'capturePoint',
        summary:
          'Take what probes show at the current point: all that are named or none; where none is named, those that have settled',
        tags: TAGS,
        params: benchPathSchema,
        body: captureBodySchema,
        response: { 200: jsonAnswer('The bench, and who waits', capturedSchema), ...CHANGES },
      },
    },
    ({ params, body }) => capturedAnswer(bench.capture(params.bench, body)),
  );
  app.post(
    '/api/bench/:bench/drop-point',
    {
      schema: {
        operationId: 'dropPoint',
        summary: 'Take the current point back, as long as nothing was captured at it',
        tags: TAGS,
        params: benchPathSchema,
        body: dropPointBodySchema,
        response: { 200: jsonAnswer('The bench', benchSchema), ...CHANGES },
      },
    },
    ({ params }) => benchAnswer(bench.dropPoint(params.bench)),
  );
}

function addEnds(app: HttpApp, { bench, calibrations }: HttpPorts): void {
  app.post(
    '/api/bench/:bench/fits',
    {
      schema: {
        operationId: 'tryFits',
        summary: 'What would come of probes that are not finished yet, one by one; keeps nothing',
        tags: TAGS,
        params: benchPathSchema,
        body: finishBodySchema,
        response: {
          200: jsonAnswer(
            'Probes',
            z.array(
              z.object({
                probe: z.string(),
                calibration: calibrationSchema.nullable(),
                problem: z.string().nullable().meta({ description: 'Why there would be none' }),
              }),
            ),
          ),
          ...CHANGES,
        },
      },
    },
    ({ params, body }) =>
      bench.fits(params.bench, body).map(({ probe, calibration, problem }) => ({
        probe,
        calibration: calibration && calibrationAnswer(calibration, { inForce: false, supersededBy: null }),
        problem,
      })),
  );
  app.post(
    '/api/bench/:bench/finish',
    {
      schema: {
        operationId: 'finishBench',
        summary:
          'Fit the points of probes and keep the calibrations, all or none; the bench stays open for the others',
        tags: TAGS,
        params: benchPathSchema,
        body: finishBodySchema,
        response: {
          200: jsonAnswer(
            'The bench and its calibrations',
            z.object({ bench: benchSchema, calibrations: z.array(calibrationSchema) }),
          ),
          ...CHANGES,
        },
      },
    },
    ({ params, body }) => {
      const { bench: after, calibrations: records } = bench.finish(params.bench, body);
      return {
        bench: benchAnswer(after),
        calibrations: records.map((record) => calibrationAnswer(record, calibrations.standing(record))),
      };
    },
  );
  app.post(
    '/api/bench/:bench/give-up',
    {
      schema: {
        operationId: 'giveUpBench',
        summary: 'End a bench of which nothing comes',
        tags: TAGS,
        params: benchPathSchema,
        body: closeBodySchema,
        response: { 200: jsonAnswer('The bench', benchSchema), ...CHANGES },
      },
    },
    ({ params, body }) => benchAnswer(bench.giveUp(params.bench, body.reason)),
  );
}
