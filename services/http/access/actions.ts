/**
 * What each address asks whoever asks it to be allowed: the one table of it. An address that is not in it is not served
 * at all: the service does not start.
 */
import type { Action } from '../../core/model/roles.js';

/** `open`: whoever asks, as it carries its own proof or gives nothing away. `any`: whoever showed who they are. */
export type Reach = Action | 'open' | 'any' | 'page';

const BY_REACH: Readonly<Record<Exclude<Reach, 'page'>, readonly string[]>> = {
  open: [
    ...['GET /api/health', 'GET /answer', 'POST /answer', 'GET /api/me', 'POST /api/sign-in'],
    ...['POST /api/sign-in/send-link', 'POST /api/sign-in/look', 'POST /api/sign-in/link'],
  ],
  any: ['GET /api', 'GET /api/openapi.json', 'GET /api/access'],
  look: [
    ...['GET /api/beds', 'GET /api/beds/:bed', 'GET /api/beds/:bed/coverage', 'GET /api/beds/:bed/events'],
    ...['GET /api/beds/:bed/depths'],
    ...['GET /api/beds/:bed/fillings', 'GET /api/beds/:bed/fillings/:filling/probes'],
    ...['GET /api/beds/:bed/inspections', 'GET /api/beds/:bed/outlook', 'GET /api/beds/:bed/readiness'],
    ...['GET /api/beds/:bed/readiness/records', 'GET /api/beds/:bed/readings', 'GET /api/beds/:bed/sand'],
    ...['GET /api/beds/:bed/season', 'GET /api/beds/:bed/season.html', 'GET /api/beds/:bed/season.pdf'],
    ...['GET /api/beds/:bed/stock', 'GET /api/beds/:bed/swing', 'GET /api/beds/:bed/thresholds'],
    ...['GET /api/alarms', 'GET /api/alarms/:id', 'GET /api/alarms/:id/cap', 'GET /api/today'],
    ...['GET /api/bench', 'GET /api/bench/:bench', 'GET /api/bench/salts', 'GET /api/calibrations'],
    ...['GET /api/calibrations/:id', 'GET /api/calibrations/:id/certificate', 'GET /api/calibrations/due'],
    ...['GET /api/calibrations/:id/certificate.pdf', 'GET /api/field-checks', 'GET /api/looks'],
    ...['GET /api/export/calibrations.json', 'GET /api/export/citation.txt', 'GET /api/export/readings.csv'],
    ...['GET /api/export/datapackage.json', 'GET /api/export/readings.parquet'],
    ...['GET /api/export/readings.schema.json', 'GET /api/inspections/:inspection/photos'],
    ...['GET /api/inspections/:inspection/photos/:name', 'POST /api/plan', 'POST /api/sand'],
    ...['GET /api/probes', 'GET /api/probes/unknown', 'GET /api/quarantine', 'GET /api/seasons'],
    ...['GET /api/seasons.html', 'GET /api/seasons.pdf', 'GET /api/sites', 'GET /api/sites/:site'],
    ...['GET /api/sites/:site/beds/:id', 'GET /api/sites/:site/changes', 'GET /api/sites/:site/groups/:id'],
    ...['GET /api/sites/:site/particulars', 'GET /api/sites/:site/probes/:id', 'GET /api/stream'],
    ...['GET /api/sites/:site/thresholds', 'GET /api/telling', 'GET /api/thresholds', 'GET /api/ways'],
    ...['GET /api/trials', 'GET /api/trials/:trial', 'GET /api/trials/:trial/curves'],
    ...['GET /api/trials/:trial/report', 'GET /api/trials/:trial/result', 'GET /api/trials/:trial/versions'],
    'POST /api/trial-power',
  ],
  'write-down': [
    ...['POST /api/beds/:bed/fillings', 'POST /api/beds/:bed/inspections', 'POST /api/beds/:bed/readiness'],
    ...[
      'POST /api/beds/:bed/readiness/:id/override',
      'POST /api/beds/:bed/records',
      'POST /api/beds/:bed/sand',
    ],
    ...['POST /api/beds/:bed/stock', 'PUT /api/inspections/:inspection/photos/:name'],
  ],
  'answer-alarms': ['POST /api/alarms/:id/acknowledge', 'POST /api/alarms/:id/shelve'],
  calibrate: [
    ...['POST /api/bench', 'POST /api/bench/:bench/capture', 'POST /api/bench/:bench/drop-point'],
    ...['POST /api/bench/:bench/finish', 'POST /api/bench/:bench/fits', 'POST /api/bench/:bench/give-up'],
    ...['POST /api/bench/:bench/points', 'POST /api/calibrations', 'POST /api/calibrations/pairs'],
    'POST /api/field-checks',
  ],
  describe: [
    ...[
      'PUT /api/sites/:site/beds/:id',
      'PUT /api/sites/:site/probes/:id',
      'PUT /api/sites/:site/particulars',
    ],
    'POST /api/sites/:site/probes/:id/moves',
  ],
  // A description as a whole holds its people.
  people: [
    ...['POST /api/sites', 'GET /api/sites/:site/people/:id', 'PUT /api/sites/:site/people/:id'],
    ...['PUT /api/sites/:site/groups/:id', 'GET /api/answers'],
  ],
  drill: ['POST /api/drills', 'GET /api/drills/:id'],
  compare: ['POST /api/trials', 'POST /api/trials/:trial/assignment', 'POST /api/trials/:trial/draw'],
  measure: ['GET /metrics'],
  'hand-over': ['GET /api/messages', 'POST /api/messages'],
  own: [
    ...['POST /api/sign-out', 'PUT /api/me/password', 'GET /api/me/sessions'],
    'POST /api/me/sessions/:id/revoke',
  ],
  administer: [
    ...['GET /api/accounts', 'PUT /api/accounts/:name', 'POST /api/accounts/:name/link', 'GET /api/sessions'],
    ...[
      'POST /api/sessions/:id/revoke',
      'GET /api/tokens',
      'POST /api/tokens',
      'POST /api/tokens/:id/revoke',
    ],
    ...['GET /api/sites/:site/secrets', 'POST /api/sites/:site/probes/:id/secret'],
    ...['POST /api/sites/:site/probes/:id/secret/revoke', 'POST /api/sites/:site/lamps/:id/secret'],
    'POST /api/sites/:site/lamps/:id/secret/revoke',
  ],
  audit: ['GET /api/audit'],
};

export const REACH_OF: ReadonlyMap<string, Reach> = new Map(
  Object.entries(BY_REACH).flatMap(([reach, addresses]) =>
    addresses.map((address) => [address, reach as Reach] as const),
  ),
);

/** What only computes an answer, by a method that otherwise changes something. */
const ONLY_ASKS: ReadonlySet<string> = new Set([
  'POST /api/plan',
  'POST /api/sand',
  'POST /api/bench/:bench/fits',
  'POST /api/trial-power',
]);

/** Of these the desk writes down itself what happened, and by whom: nobody has shown who they are before. */
const NOTED_ELSEWHERE: ReadonlySet<string> = new Set([
  ...['POST /api/sign-in', 'POST /api/sign-in/send-link', 'POST /api/sign-in/look', 'POST /api/sign-in/link'],
]);

const PAGE = /^\/(?!api(?:\/|$)|metrics|answer)/;

/** Of a route as it is added; undefined where the table does not have it. */
export function reachOf(method: string, url: string): Reach | undefined {
  const asked = method === 'HEAD' ? 'GET' : method;
  return REACH_OF.get(`${asked} ${url}`) ?? (asked === 'GET' && PAGE.test(url) ? 'page' : undefined);
}

/** Whether something is otherwise afterwards, so that it belongs into the audit trail. */
export function isChange(method: string, url: string): boolean {
  const asked = `${method} ${url}`;
  if (method === 'GET' || method === 'HEAD') return asked === 'GET /api/messages';
  return !ONLY_ASKS.has(asked) && !NOTED_ELSEWHERE.has(asked);
}
