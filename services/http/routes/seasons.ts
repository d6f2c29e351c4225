import type { FastifyReply } from 'fastify';
import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { problemResponses } from '../schemas/problem.js';
import { seasonAnswer, seasonQuerySchema, seasonSchema, seasonsQuerySchema } from '../schemas/season.js';

const TAGS = ['keeping'];
const PROBLEMS = problemResponses(400, 401, 404, 422);
const PAGE = {
  200: { description: 'The page', content: { 'text/html': { schema: z.string() } } },
  ...PROBLEMS,
};
const FILE = {
  200: { description: 'The file', content: { 'application/pdf': { schema: z.any() } } },
  ...PROBLEMS,
};
const FIGURES = { 200: jsonAnswer('The season', seasonSchema), ...PROBLEMS };

/** `/api/beds/{bed}/season` and `/api/seasons`: as figures, as a page to print, and as a file. */
export function addSeasons(app: HttpApp, { seasons }: HttpPorts): void {
  const shared = { tags: TAGS, params: bedPathSchema, querystring: seasonQuerySchema };
  app.get(
    '/api/beds/:bed/season',
    {
      schema: { ...shared, operationId: 'getSeason', summary: 'The season of a bed', response: FIGURES },
    },
    ({ params: { bed }, query: { to } }) => seasonAnswer(seasons.season([bed], to)),
  );
  app.get(
    '/api/beds/:bed/season.html',
    {
      schema: {
        ...shared,
        operationId: 'getSeasonPage',
        summary: 'The same as a page to print',
        response: PAGE,
      },
    },
    async ({ params: { bed }, query: { to } }, reply) => asPage(reply, await seasons.page([bed], to)),
  );
  app.get(
    '/api/beds/:bed/season.pdf',
    {
      schema: { ...shared, operationId: 'getSeasonPdf', summary: 'The same as PDF', response: FILE },
    },
    async ({ params: { bed }, query: { to } }, reply) =>
      asFile(reply, await seasons.pdf([bed], to), `season-${bed}`),
  );
  addGroups(app, seasons);
}

function addGroups(app: HttpApp, seasons: HttpPorts['seasons']): void {
  const shared = { tags: TAGS, querystring: seasonsQuerySchema };
  app.get(
    '/api/seasons',
    {
      schema: {
        ...shared,
        operationId: 'getSeasons',
        summary: 'Seasons of beds side by side',
        response: FIGURES,
      },
    },
    ({ query: { beds, to } }) => seasonAnswer(seasons.season(beds, to)),
  );
  app.get(
    '/api/seasons.html',
    {
      schema: {
        ...shared,
        operationId: 'getSeasonsPage',
        summary: 'The same as a page to print',
        response: PAGE,
      },
    },
    async ({ query: { beds, to } }, reply) => asPage(reply, await seasons.page(beds, to)),
  );
  app.get(
    '/api/seasons.pdf',
    {
      schema: { ...shared, operationId: 'getSeasonsPdf', summary: 'The same as PDF', response: FILE },
    },
    async ({ query: { beds, to } }, reply) => asFile(reply, await seasons.pdf(beds, to), 'seasons'),
  );
}

/** No script, nothing from elsewhere. */
function asPage(reply: Pick<FastifyReply, 'type' | 'header'>, page: string): string {
  reply.type('text/html; charset=utf-8');
  reply.header('content-security-policy', "default-src 'none'; style-src 'unsafe-inline'");
  return page;
}

function asFile(reply: Pick<FastifyReply, 'type' | 'header'>, file: Uint8Array, name: string): Buffer {
  reply.type('application/pdf');
  reply.header('content-disposition', `inline; filename="${name}.pdf"`);
  return Buffer.from(file);
}
