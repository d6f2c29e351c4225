import { z } from 'zod';
import { may } from '../../core/model/roles.js';
import type { HttpApp } from '../http-app.js';
import { HTTP_LIMITS } from '../limits.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';
import {
  changeAnswer,
  changeSchema,
  changesQuerySchema,
  descriptionSchema,
  siteListSchema,
  sitePathSchema,
  takeBodySchema,
  takenSchema,
} from '../schemas/site.js';
import { expectedOf, tagOf, versionHeadersSchema } from '../versions.js';

const TAGS = ['settings'];

/** Site descriptions as a whole. */
export function addSites(app: HttpApp, { sites }: HttpPorts): void {
  app.get(
    '/api/sites',
    {
      schema: {
        operationId: 'listSites',
        summary: 'The sites that are described',
        tags: TAGS,
        response: { 200: jsonAnswer('The sites', z.array(siteListSchema)), ...problemResponses(401) },
      },
    },
    () => [...sites.list()],
  );
  app.post(
    '/api/sites',
    {
      bodyLimit: HTTP_LIMITS.siteBody_bytes,
      schema: {
        operationId: 'takeSite',
        summary:
          'Take in a site description as loading a file does: adds and changes, takes nothing away. If-None-Match: * for a new site, If-Match with the ETag of one that is known',
        tags: TAGS,
        headers: versionHeadersSchema,
        body: takeBodySchema,
        response: {
          200: jsonAnswer('What was added and changed, and what follows', takenSchema),
          201: jsonAnswer('A new site, and what follows', takenSchema),
          ...problemResponses(400, 401, 409, 412, 413, 415, 422, 428),
        },
      },
    },
    ({ body, headers }, reply) => {
      const { isNew, follows, counts, ...taken } = sites.take(body.by, body.description, expectedOf(headers));
      reply.code(isNew ? 201 : 200).header('etag', tagOf(taken.version));
      return { ...taken, counts: { ...counts }, follows: [...follows] };
    },
  );
  addOneSite(app, sites);
}

/** How people are reached concerns those alone who see to it. */
const withoutWays = (site: z.output<typeof descriptionSchema>): z.output<typeof descriptionSchema> => ({
  ...site,
  people: site.people?.map((person) => ({ ...person, reach: [] })),
});

function addOneSite(app: HttpApp, sites: HttpPorts['sites']): void {
  app.get(
    '/api/sites/:site',
    {
      schema: {
        operationId: 'getSite',
        summary:
          'The description of a site as it stands, in the form of a site file; its version is the ETag',
        tags: TAGS,
        params: sitePathSchema,
        response: {
          200: jsonAnswer('The description', descriptionSchema),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params, asker }, reply) => {
      const { document, version } = sites.description(params.site);
      reply.header('etag', tagOf(version));
      const whole = document as z.output<typeof descriptionSchema>;
      return asker && may(asker, 'people') ? whole : withoutWays(whole);
    },
  );
  app.get(
    '/api/sites/:site/changes',
    {
      schema: {
        operationId: 'listSiteChanges',
        summary: 'Who changed what of a site, newest first',
        tags: TAGS,
        params: sitePathSchema,
        querystring: changesQuerySchema,
        response: {
          200: jsonAnswer('The changes', z.array(changeSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    ({ params, query }) => sites.changes(params.site, query.limit).map(changeAnswer),
  );
}
