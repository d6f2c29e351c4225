import { z } from 'zod';
import { calibrationBodySchema } from '../../core/model/calibration-record.js';
import { fieldCheckBodySchema } from '../../core/model/field-check.js';
import type { HttpApp } from '../http-app.js';
import { HTTP_LIMITS } from '../limits.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import {
  calibrationAnswer,
  calibrationPathSchema,
  calibrationQuerySchema,
  calibrationSchema,
  dueSchema,
  fieldCheckQuerySchema,
  pairsBodySchema,
  pairsSchema,
} from '../schemas/calibration.js';
import { fieldCheckAnswer, fieldCheckSchema } from '../schemas/field-check.js';
import { problemResponses } from '../schemas/problem.js';
import { formatKnownTime } from '../schemas/time.js';

const TAGS = ['calibration'];

/** `/api/calibrations`, their certificates, and `/api/field-checks`. */
export function addCalibrations(app: HttpApp, ports: HttpPorts): void {
  const { calibrations } = ports;
  const answer = (record: Parameters<typeof calibrations.standing>[0]) =>
    calibrationAnswer(record, calibrations.standing(record));
  app.get(
    '/api/calibrations',
    {
      schema: {
        operationId: 'listCalibrations',
        summary: 'Calibrations, the newest first',
        tags: TAGS,
        querystring: calibrationQuerySchema,
        response: {
          200: jsonAnswer('Calibrations', z.array(calibrationSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ query }) => calibrations.list(query).map(answer),
  );
  app.post(
    '/api/calibrations',
    {
      // A thousand points are as long as a file of them.
      bodyLimit: HTTP_LIMITS.csvBody_bytes,
      schema: {
        operationId: 'addCalibration',
        summary: 'Fit points that were measured elsewhere, and keep the calibration',
        tags: TAGS,
        body: calibrationBodySchema,
        response: {
          201: jsonAnswer('The calibration', calibrationSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415, 422),
        },
      },
    },
    ({ body }, reply) => {
      reply.code(201);
      return answer(calibrations.add(body));
    },
  );
  app.post(
    '/api/calibrations/pairs',
    {
      bodyLimit: HTTP_LIMITS.csvBody_bytes,
      schema: {
        operationId: 'addPairs',
        summary: 'Fit pairs from a CSV file: a calibration for each probe and quantity in it, all or none',
        tags: TAGS,
        body: pairsBodySchema,
        response: {
          200: jsonAnswer('What came of it, or the lines that were not understood', pairsSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415, 422),
        },
      },
    },
    ({ body }) => {
      const { badLines, calibrations: records, kept } = calibrations.pairs(body);
      return { badLines: [...badLines], calibrations: records.map(answer), kept };
    },
  );
  app.get(
    '/api/calibrations/due',
    {
      schema: {
        operationId: 'listDue',
        summary: 'When each probe is to be calibrated next, the first due first',
        tags: TAGS,
        response: { 200: jsonAnswer('Probes', z.array(dueSchema)), ...problemResponses(401) },
      },
    },
    () => calibrations.due().map(({ dueAt, ...rest }) => ({ ...rest, dueAt: formatKnownTime(dueAt) })),
  );
  addOne(app, ports);
  addFieldChecks(app, ports);
}

function addOne(app: HttpApp, { calibrations }: HttpPorts): void {
  app.get(
    '/api/calibrations/:id',
    {
      schema: {
        operationId: 'getCalibration',
        summary: 'One calibration with its points, fit and standing',
        tags: TAGS,
        params: calibrationPathSchema,
        response: {
          200: jsonAnswer('The calibration', calibrationSchema),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params }) => {
      const record = calibrations.get(params.id);
      return calibrationAnswer(record, calibrations.standing(record));
    },
  );
  app.get(
    '/api/calibrations/:id/certificate',
    {
      schema: {
        operationId: 'getCertificate',
        summary: 'The certificate as a page to print',
        tags: TAGS,
        params: calibrationPathSchema,
        response: {
          200: { description: 'The page', content: { 'text/html': { schema: z.string() } } },
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params }, reply) => {
      reply.type('text/html; charset=utf-8');
      reply.header('content-security-policy', "default-src 'none'; style-src 'unsafe-inline'");
      return calibrations.page(params.id);
    },
  );
  app.get(
    '/api/calibrations/:id/certificate.pdf',
    {
      schema: {
        operationId: 'getCertificatePdf',
        summary: 'The certificate as PDF',
        tags: TAGS,
        params: calibrationPathSchema,
        response: {
          200: { description: 'The file', content: { 'application/pdf': { schema: z.any() } } },
          ...problemResponses(400, 401, 404),
        },
      },
    },
    async ({ params }, reply) => {
      const { probe, quantity } = calibrations.get(params.id);
      const file = await calibrations.pdf(params.id);
      reply.type('application/pdf');
      reply.header('content-disposition', `inline; filename="${probe}-${quantity}.pdf"`);
      return reply.send(Buffer.from(file));
    },
  );
}

function addFieldChecks(app: HttpApp, { calibrations }: HttpPorts): void {
  app.get(
    '/api/field-checks',
    {
      schema: {
        operationId: 'listFieldChecks',
        summary: 'Checks of buried probes against a travelling reference, the newest first',
        tags: TAGS,
        querystring: fieldCheckQuerySchema,
        response: { 200: jsonAnswer('Checks', z.array(fieldCheckSchema)), ...problemResponses(400, 401) },
      },
    },
    ({ query: { site, probe, limit } }) => calibrations.fieldChecks(site, probe, limit).map(fieldCheckAnswer),
  );
  app.post(
    '/api/field-checks',
    {
      schema: {
        operationId: 'addFieldCheck',
        summary: 'Hold a buried probe against a travelling reference that lay beside it',
        tags: TAGS,
        body: fieldCheckBodySchema,
        response: {
          201: jsonAnswer('What came of it', fieldCheckSchema),
          ...problemResponses(400, 401, 404, 409, 413, 415, 422),
        },
      },
    },
    ({ body }, reply) => {
      reply.code(201);
      return fieldCheckAnswer(calibrations.checkInField(body));
    },
  );
}
