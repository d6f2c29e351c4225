import { randomUUID } from 'node:crypto';
import { z } from 'zod';
import type { HttpApp } from '../http-app.js';
import { HTTP_LIMITS } from '../limits.js';
import type { HttpPorts } from '../ports.js';
import { sendProblem } from '../problem.js';
import { problemResponses } from '../schemas/problem.js';
import { StreamHub, type StreamLimits } from '../streams/stream-hub.js';

const EVENTS = `Server-sent events [WHATWG HTML 9.2]. Each says what is to be asked for anew, at most once a second; its data is JSON:
\`readings\` \`{"beds": [...]}\`: new readings, or hours that were judged;
\`alarms\` \`{"beds": [...], "ids": [...], "more": false}\`: raised, moved, over, taken back, seen or put off; with \`more\` not all are named;
\`beds\` \`{"beds": [...]}\`: something was written down at them;
\`site\`, \`probes\`, \`bench\` \`{}\`: descriptions; calibrations and unknown probes; bench work or its readings;
\`access\` \`{}\`: who may sign in or do what, a session that was ended, a secret of a probe or lamp: ask \`/api/me\` anew;
\`health\` \`{"status": "ok" | "degraded"}\`;
\`missed\` \`{}\`: more happened since \`Last-Event-ID\` than is kept, so ask for everything.
A comment comes as a sign of life. Readers who do not keep up are sent away, and any stream ends after ${HTTP_LIMITS.streams.life_ms / 3_600_000} hours: ask again.`;

const headersSchema = z.looseObject({
  'last-event-id': z
    .string()
    .optional()
    .meta({ description: 'Id of the last event heard: what came after it follows' }),
});

/** `GET /api/stream`: what changes, while somebody listens. */
export function addStream(app: HttpApp, { live }: HttpPorts, limits: StreamLimits): void {
  const hub = new StreamHub(live, limits, randomUUID().slice(0, 8));
  app.addHook('preClose', async () => hub.stop());
  app.get(
    '/api/stream',
    {
      exposeHeadRoute: false,
      // Longer than any stream lives: it counts until the answer has ended.
      handlerTimeout: 2 * limits.life_ms,
      schema: {
        operationId: 'listen',
        summary: 'What changes, as it changes: server-sent events',
        description: EVENTS,
        tags: ['service'],
        headers: headersSchema,
        response: {
          200: {
            description: 'Events, until one of the two ends it',
            content: { 'text/event-stream': { schema: z.any() } },
          },
          ...problemResponses(401, 503),
        },
      },
    },
    (request, reply) => {
      const { socket } = request.raw;
      const stream = hub.open(
        request.headers['last-event-id'],
        () => socket.destroy(),
        () => request.stillHolds(),
      );
      if (!stream)
        return sendProblem(request, reply.header('retry-after', limits.retry_ms / 1000), {
          status: 503,
          code: 'LIMIT_EXCEEDED',
          detail: `streams: expected at most ${limits.open} open at a time, got one more`,
        });
      // The socket serves nothing after it; a proxy must not gather what is to arrive at once.
      reply.headers({ connection: 'close', 'x-accel-buffering': 'no' });
      return reply.type('text/event-stream; charset=utf-8').send(stream);
    },
  );
}
