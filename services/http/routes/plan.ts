import { z } from 'zod';
import { crossSectionSvg } from '../../core/keeping/index.js';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { planAnswer, planBodySchema, planQuerySchema, planQuestion, planSchema } from '../schemas/plan.js';
import { problemResponses } from '../schemas/problem.js';

const SVG = 'image/svg+xml';

/** `POST /api/plan`: nothing is kept. */
export function addPlan(app: HttpApp, ports: HttpPorts): void {
  app.post(
    '/api/plan',
    {
      schema: {
        operationId: 'planBed',
        summary: 'A bed before it is dug: from roots to keep, or from a space',
        tags: ['keeping'],
        querystring: planQuerySchema,
        body: planBodySchema,
        response: {
          200: {
            description: 'The plan, or its drawing',
            content: { 'application/json': { schema: planSchema }, [SVG]: { schema: z.string() } },
          },
          ...problemResponses(400, 401, 413, 415, 422, 503),
        },
      },
    },
    async ({ body, query, headers }, reply) => {
      const plan = await ports.plan(planQuestion(body));
      if (!(query.as === 'svg' || (query.as === undefined && asksForDrawing(headers.accept))))
        return planAnswer(plan);
      reply.type(`${SVG}; charset=utf-8`);
      return crossSectionSvg(plan) as never;
    },
  );
}

/** A drawing is asked for where it alone is, as a program does; browsers name it among others. */
const asksForDrawing = (accept = ''): boolean => accept.split(';')[0]?.trim() === SVG;
