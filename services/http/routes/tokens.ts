import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import type { HttpPorts } from '../ports.js';
import { jsonAnswer } from '../schemas/answer.js';
import { problemResponses } from '../schemas/problem.js';
import { madeTokenSchema, tokenAnswer, tokenBodySchema, tokenSchema } from '../schemas/sign-in.js';

const TAGS = ['access'];
const idPathSchema = z.strictObject({ id: z.string().max(100) });

/** What machines show instead of a sign-in. */
export function addTokens(app: HttpApp, { access }: HttpPorts): void {
  app.get(
    '/api/tokens',
    {
      schema: {
        ...{ operationId: 'listTokens', summary: 'Tokens of machines', tags: TAGS },
        response: { 200: jsonAnswer('They', z.array(tokenSchema)), ...problemResponses(401, 403) },
      },
    },
    () => access.tokens().map(tokenAnswer),
  );
  app.post(
    '/api/tokens',
    {
      schema: {
        ...{ operationId: 'makeToken', tags: TAGS, body: tokenBodySchema },
        summary: 'A token for a machine, with a role; its secret is shown this once',
        response: {
          201: jsonAnswer('The token', madeTokenSchema),
          ...problemResponses(400, 401, 403, 413, 415),
        },
      },
    },
    ({ body, asker }, reply) => {
      const { secret, token } = access.makeToken(body, asker?.name ?? '');
      reply.code(201);
      return { secret, token: tokenAnswer(token) };
    },
  );
  app.post(
    '/api/tokens/:id/revoke',
    {
      schema: {
        ...{ operationId: 'revokeToken', summary: 'It holds no more', tags: TAGS, params: idPathSchema },
        response: { 204: z.undefined().describe('It is done'), ...problemResponses(401, 403, 404) },
      },
    },
    ({ params }, reply) => {
      access.revokeToken(params.id);
      reply.code(204).send();
    },
  );
}
