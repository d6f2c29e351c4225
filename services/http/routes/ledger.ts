import { z } from 'zod';
import { fillingBodySchema } from '../../core/model/filling.js';
import type { HttpApp } from '../http-app.js';
import { HTTP_LIMITS } from '../limits.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import {
  depthAnswer,
  depthSchema,
  filledAnswer,
  filledSchema,
  fillingAnswer,
  fillingPathSchema,
  fillingSchema,
} from '../schemas/filling.js';
import { lookAnswer, lookSchema } from '../schemas/look.js';
import { problemResponses } from '../schemas/problem.js';
import { recordsAnswer, recordsBodySchema, recordsSchema } from '../schemas/records.js';
import {
  stockAnswer,
  stockedAnswer,
  stockedSchema,
  stockListSchema,
  stockQuerySchema,
  stockSchema,
} from '../schemas/stock.js';

const TAGS = ['keeping'];
const CHANGES = [400, 401, 404, 409, 413, 415, 422];

/** What is written down at a bed: fillings, stock, and both with inspections in one go; which looks are due. */
export function addLedger(app: HttpApp, ports: HttpPorts): void {
  addFillings(app, ports);
  addBuried(app, ports);
  addStock(app, ports);
  app.post(
    '/api/beds/:bed/records',
    {
      bodyLimit: HTTP_LIMITS.writtenDownBody_bytes,
      schema: {
        operationId: 'addRecords',
        summary: 'Take in fillings, inspections and stock that were written down elsewhere, all or none',
        tags: TAGS,
        params: bedPathSchema,
        body: recordsBodySchema,
        response: { 200: jsonAnswer('What became of each', recordsSchema), ...problemResponses(...CHANGES) },
      },
    },
    ({ params, body }) => recordsAnswer(ports.ledger.records(params.bed, body)),
  );
  app.get(
    '/api/looks',
    {
      schema: {
        operationId: 'listLooks',
        summary: 'When each bed is to be looked into by hand, and why; those due first',
        tags: TAGS,
        response: { 200: jsonAnswer('The beds', z.array(lookSchema)), ...problemResponses(401) },
      },
    },
    () => ports.ledger.looks().map(lookAnswer),
  );
}

function addFillings(app: HttpApp, { ledger }: HttpPorts): void {
  app.post(
    '/api/beds/:bed/fillings',
    {
      schema: {
        operationId: 'addFilling',
        summary: 'Write down what went into a bed: it is watched as filled from then on',
        tags: TAGS,
        params: bedPathSchema,
        body: fillingBodySchema,
        response: {
          200: jsonAnswer('It was there already', filledSchema),
          201: jsonAnswer('The filling, and what its probes should show within a day', filledSchema),
          ...problemResponses(...CHANGES),
        },
      },
    },
    ({ params, body }, reply) => {
      const [view] = ledger.records(params.bed, { fillings: [body], inspections: [], stock: [] }).fillings;
      if (view) reply.code(view.isNew ? 201 : 200);
      return filledAnswer(view as NonNullable<typeof view>);
    },
  );
  app.get(
    '/api/beds/:bed/fillings',
    {
      schema: {
        operationId: 'listFillings',
        summary: 'Fillings of a bed, newest first',
        tags: TAGS,
        params: bedPathSchema,
        response: {
          200: jsonAnswer('Fillings', z.array(fillingSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params }) => ledger.fillings(params.bed).map(fillingAnswer),
  );
}

function addBuried(app: HttpApp, { ledger }: HttpPorts): void {
  app.get(
    '/api/beds/:bed/fillings/:filling/probes',
    {
      schema: {
        operationId: 'getBuriedProbes',
        summary: 'Whether each buried probe lies as deep as was said, by the readings of its first two days',
        tags: TAGS,
        params: fillingPathSchema,
        response: {
          200: jsonAnswer('The probes', z.array(depthSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params }) => ledger.depths(params.bed, params.filling).map(depthAnswer),
  );
  app.get(
    '/api/beds/:bed/depths',
    {
      schema: {
        operationId: 'getDepths',
        summary:
          'Whether each probe that lies in the bed now lies as deep as said, by its first two days there',
        tags: TAGS,
        params: bedPathSchema,
        response: {
          200: jsonAnswer('The probes', z.array(depthSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params }) => ledger.depthsNow(params.bed).map(depthAnswer),
  );
}

function addStock(app: HttpApp, { ledger }: HttpPorts): void {
  app.post(
    '/api/beds/:bed/stock',
    {
      bodyLimit: HTTP_LIMITS.writtenDownBody_bytes,
      schema: {
        operationId: 'addStock',
        summary: 'Write down roots that went in or out, or take an entry back; a list all or none',
        tags: TAGS,
        params: bedPathSchema,
        body: stockListSchema,
        response: {
          200: jsonAnswer('All were there already', stockedSchema),
          201: jsonAnswer('The entries, and what is left', stockedSchema),
          ...problemResponses(...CHANGES),
        },
      },
    },
    ({ params, body }, reply) => {
      const { stock, left } = ledger.records(params.bed, { fillings: [], inspections: [], stock: body });
      reply.code(stock.some(({ isNew }) => isNew) ? 201 : 200);
      return stockedAnswer({ entries: stock, left });
    },
  );
  app.get(
    '/api/beds/:bed/stock',
    {
      schema: {
        operationId: 'getStock',
        summary: 'What is left of a bed, where the rest went, what was lost, and how long it feeds',
        tags: TAGS,
        params: bedPathSchema,
        querystring: stockQuerySchema,
        response: { 200: jsonAnswer('The stock', stockSchema), ...problemResponses(400, 401, 404, 422) },
      },
    },
    ({ params, query }) => stockAnswer(ledger.stock(params.bed, query)),
  );
}
