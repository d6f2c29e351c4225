import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { problemResponses } from '../schemas/problem.js';
import {
  reportQuerySchema,
  trialPathSchema,
  trialReportAnswer,
  trialReportSchema,
} from '../schemas/trial.js';

const FORMATS = {
  html: 'text/html; charset=utf-8',
  pdf: 'application/pdf',
  json: 'application/json',
} as const;

/** The first of what is asked for that there is. */
function asked(accept = ''): keyof typeof FORMATS {
  for (const part of accept.split(',')) {
    const [type = ''] = part.trim().split(';');
    const format = (['html', 'pdf', 'json'] as const).find(
      (one) => FORMATS[one].startsWith(type) && type.includes('/'),
    );
    if (format) return format;
  }
  return 'html';
}

/** `/api/trials/{trial}/report`: as a page to print, as PDF, or as data. */
export function addTrialReport(app: HttpApp, trials: HttpPorts['trials']): void {
  app.get(
    '/api/trials/:trial/report',
    {
      schema: {
        ...{
          operationId: 'getTrialReport',
          summary: 'The report: a page to print, PDF, or data',
          tags: ['trials'],
        },
        params: trialPathSchema,
        querystring: reportQuerySchema,
        response: {
          200: {
            description: 'The report',
            content: {
              'text/html': { schema: z.string() },
              'application/pdf': { schema: z.any() },
              'application/json': { schema: trialReportSchema },
            },
          },
          ...problemResponses(400, 401, 404, 409, 422),
        },
      },
    },
    async ({ params: { trial }, query, headers }, reply): Promise<never> => {
      const format = query.format ?? asked(headers.accept);
      reply.type(FORMATS[format]);
      reply.header('vary', 'accept');
      if (format === 'json') return trialReportAnswer(await trials.report(trial)) as never;
      if (format === 'pdf') {
        reply.header('content-disposition', `inline; filename="trial-${trial}.pdf"`);
        return Buffer.from(await trials.pdf(trial)) as never;
      }
      reply.header('content-security-policy', "default-src 'none'; style-src 'unsafe-inline'");
      return (await trials.page(trial)) as never;
    },
  );
}
