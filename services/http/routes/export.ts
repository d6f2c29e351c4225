import { Readable } from 'node:stream';
import { setImmediate as turn } from 'node:timers/promises';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { z } from 'zod';
import { SandlarderError } from '../../core/errors.js';
import type { HttpApp } from '../http-app.js';
import { HTTP_LIMITS } from '../limits.js';
import type { ExportDocument, ExportFormat, ExportQuery, HttpPorts } from '../ports.js';
import { sendProblem } from '../problem.js';
import { exportQuerySchema, packageQuerySchema } from '../schemas/export.js';
import { problemResponses } from '../schemas/problem.js';

const PROBLEMS = problemResponses(400, 401, 404);
const TAGS = ['beds'];

const TYPES: Readonly<Record<ExportFormat, string>> = {
  csv: 'text/csv; charset=utf-8; header=present',
  parquet: 'application/vnd.apache.parquet',
};

/** `/api/export/…`: readings as files, and the documents that belong to them. */
export function addExport(app: HttpApp, ports: HttpPorts): void {
  addRows(
    app,
    ports,
    'csv',
    'exportCsv',
    'Readings as CSV (RFC 4180), one row for each probe, time and quantity',
  );
  addRows(app, ports, 'parquet', 'exportParquet', 'The same as Parquet');
  addDocument(app, ports, 'schema', [
    'readings.schema.json',
    'exportSchema',
    'The columns as a Table Schema',
  ]);
  addDocument(app, ports, 'package', ['datapackage.json', 'exportPackage', 'The files as a Data Package']);
  addDocument(app, ports, 'calibrations', [
    ...(['calibrations.json', 'exportCalibrations', 'Calibrations of the probes that are in it'] as const),
  ]);
  addDocument(app, ports, 'citation', [
    'citation.txt',
    'exportCitation',
    'A text by which to cite the readings',
  ]);
}

/** Exports under way. */
interface Open {
  count: number;
}

function addRows(
  app: HttpApp,
  { exports }: HttpPorts,
  format: ExportFormat,
  operationId: string,
  summary: string,
): void {
  const { most, life_ms, retry_s } = HTTP_LIMITS.exports;
  const open: Open = { count: 0 };
  const type = TYPES[format].split(';', 1)[0] as string;
  app.get(
    `/api/export/readings.${format}`,
    {
      exposeHeadRoute: false,
      // It counts until the answer has ended.
      handlerTimeout: life_ms,
      schema: {
        ...{ operationId, summary, tags: TAGS, querystring: exportQuerySchema },
        response: {
          200: { description: 'The file', content: { [type]: { schema: z.any() } } },
          ...problemResponses(400, 401, 404, ...(format === 'parquet' ? [422 as const] : []), 503),
        },
      },
    },
    async (request, reply) => {
      if (!(open.count < most))
        return sendProblem(request, reply.header('retry-after', retry_s), {
          status: 503,
          code: 'LIMIT_EXCEEDED',
          detail: `exports: expected at most ${most} of a format at a time, got one more`,
        });
      open.count += 1;
      try {
        const rows = await exports.rows(request.query as ExportQuery, format);
        return sendRows(request, reply, open, rows, format);
      } catch (error) {
        open.count -= 1;
        // Whoever asked can ask for less, or later.
        if (error instanceof SandlarderError && error.code === 'RECEIVER_UNAVAILABLE')
          return sendProblem(request, reply.header('retry-after', retry_s), {
            ...{ status: 503, code: error.code, detail: error.message },
          });
        throw error;
      }
    },
  );
}

function sendRows(
  request: FastifyRequest,
  reply: FastifyReply,
  open: Open,
  rows: AsyncIterable<Uint8Array>,
  format: ExportFormat,
): FastifyReply {
  const stream = Readable.from(inTurns(rows), { objectMode: false });
  stream.once('close', () => {
    open.count -= 1;
  });
  // Whoever asked may be gone before anything was sent.
  if (request.raw.socket.destroyed) stream.destroy();
  request.raw.once('close', () => stream.destroy());
  return reply
    .type(TYPES[format])
    .header('content-disposition', `attachment; filename="readings.${format}"`)
    .send(stream);
}

/** Between pieces others have their turn. */
async function* inTurns(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  for await (const piece of pieces) {
    yield piece;
    await turn();
  }
}

function addDocument(
  app: HttpApp,
  { exports }: HttpPorts,
  document: ExportDocument,
  [file, operationId, summary]: readonly [file: string, operationId: string, summary: string],
): void {
  const type = file.endsWith('.json') ? 'application/json' : 'text/plain';
  app.get(
    `/api/export/${file}`,
    {
      schema: {
        ...{ operationId, summary, tags: TAGS, querystring: packageQuerySchema },
        response: {
          200: { description: 'The document', content: { [type]: { schema: z.any() } } },
          ...PROBLEMS,
        },
      },
    },
    ({ query: { format, ...query } }, reply) =>
      reply
        .type(`${type}; charset=utf-8`)
        .send(Buffer.from(exports.document(query as ExportQuery, document, format))),
  );
}
