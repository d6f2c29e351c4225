import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { bedPathSchema } from '../schemas/bed.js';
import { problemResponses } from '../schemas/problem.js';
import { sitePathSchema } from '../schemas/site.js';
import { thresholdAnswer, thresholdSchema } from '../schemas/threshold.js';

const TAGS = ['settings'];
const LIST = jsonAnswer('The thresholds', z.array(thresholdSchema));

/** Thresholds: what can be set, of a site, of a bed. They are set by a change of the site or the bed. */
export function addThresholds(app: HttpApp, { sites }: HttpPorts): void {
  app.get(
    '/api/thresholds',
    {
      schema: {
        operationId: 'listThresholds',
        summary: 'Every threshold with unit, bounds, default and the source of the default',
        tags: TAGS,
        response: { 200: LIST, ...problemResponses(401) },
      },
    },
    () => sites.siteThresholds().map(thresholdAnswer),
  );
  app.get(
    '/api/sites/:site/thresholds',
    {
      schema: {
        operationId: 'listSiteThresholds',
        summary: 'The same with what is in force at a site, and where it was set',
        tags: TAGS,
        params: sitePathSchema,
        response: { 200: LIST, ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }) => sites.siteThresholds(params.site).map(thresholdAnswer),
  );
  app.get(
    '/api/beds/:bed/thresholds',
    {
      schema: {
        operationId: 'listBedThresholds',
        summary: 'The same for a bed, without how people are told, which is the same at all beds',
        tags: TAGS,
        params: bedPathSchema,
        response: { 200: LIST, ...problemResponses(400, 401, 404) },
      },
    },
    ({ params }) => sites.bedThresholds(params.bed).map(thresholdAnswer),
  );
}
