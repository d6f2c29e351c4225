import type { HttpApp } from '../http-app.js';

const ADDRESSES = `Sandlarder

GET  /api/health                      whether readings are being accepted
GET  /api/beds                        the beds and how they stand
GET  /api/beds/{bed}                  one bed
GET  /api/beds/{bed}/readings         series for a plot: ?from=&to=&points=
GET  /api/beds/{bed}/coverage         what its probes would find: ?power=&days=&next=
POST /api/beds/{bed}/inspections      write down what was found
GET  /api/alarms                      newest first: ?bed=&state=&from=&to=
POST /api/alarms/{id}/acknowledge     say that someone has seen it
GET  /api/probes/unknown              probes that no site description knows
GET  /api/quarantine                  what was set aside, and why
GET  /api/openapi.json                all of this for machines (OpenAPI 3.1)
GET  /metrics                         OpenMetrics text
`;

/** `GET /`: what can be asked for, for a person with a browser or curl. */
export function addRoot(app: HttpApp): void {
  app.get('/', { schema: { hide: true } }, (_request, reply) => {
    reply.type('text/plain; charset=utf-8').send(ADDRESSES);
  });
}
