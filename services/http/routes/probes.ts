import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import { nextPageLink } from '../next-page.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { knownProbeAnswer, knownProbeSchema, probesQuerySchema } from '../schemas/known-probe.js';
import { unknownProbeAnswer, unknownProbeSchema } from '../schemas/probe.js';
import { problemResponses } from '../schemas/problem.js';

/** Described probes, and those that nobody described. */
export function addProbes(app: HttpApp, ports: HttpPorts): void {
  app.get(
    '/api/probes',
    {
      schema: {
        operationId: 'listProbes',
        summary:
          'Described probes: where they stand, since when, heard when, calibrated until when; a Link header with rel="next" leads to the next page',
        tags: ['settings'],
        querystring: probesQuerySchema,
        response: {
          200: jsonAnswer('One page of probes', z.array(knownProbeSchema)),
          ...problemResponses(400, 401, 404),
        },
      },
    },
    (request, reply) => {
      const { probes, more } = ports.sites.probes(request.query);
      const last = probes.at(-1);
      if (more && last) reply.header('link', nextPageLink(request.url, `${last.site}/${last.id}`));
      return probes.map(knownProbeAnswer);
    },
  );
  app.get(
    '/api/probes/unknown',
    {
      schema: {
        operationId: 'listUnknownProbes',
        summary: 'Probes that no site description knows; their readings are kept until they are described',
        tags: ['service'],
        response: { 200: jsonAnswer('The probes', z.array(unknownProbeSchema)), ...problemResponses(401) },
      },
    },
    () => ports.unknownProbes().map(unknownProbeAnswer),
  );
}
