import type { FastifyReply, FastifyRequest } from 'fastify';
import type { HttpApp } from '../http-app.js';
import { sendPage } from '../page.js';

const ADDRESSES = `Sandlarder

GET  /api/health                      whether readings are being accepted
GET  /api/beds                        the beds and how they stand
GET  /api/beds/{bed}                  one bed
GET  /api/beds/{bed}/readings         series for a plot: ?from=&to=&points=
GET  /api/beds/{bed}/swing            how the daily swing outside arrives: ?from=&to=
GET  /api/export/readings.csv         readings as a file: ?beds= or ?site= or ?trial=, &from=&to=&shade=&quantities=
GET  /api/export/readings.parquet     the same as Parquet
GET  /api/export/readings.schema.json what its columns mean (Table Schema)
GET  /api/export/datapackage.json     the same with the selection (Data Package)
GET  /api/export/calibrations.json    calibrations of its probes
GET  /api/export/citation.txt         how to cite it
GET  /api/beds/{bed}/depths           whether its probes lie as deep as said
GET  /api/beds/{bed}/events           what happened at it: ?from=&to=
GET  /api/beds/{bed}/coverage         what its probes would find: ?power=&days=&next=
GET  /api/beds/{bed}/inspections      what was found, newest first: ?limit=&after=
POST /api/beds/{bed}/inspections      write down what was found
POST /api/plan                        plan a bed before it is dug
POST /api/sand                        judge sand, and keep nothing
GET  /api/beds/{bed}/sand             sand that was judged for a bed, newest first
POST /api/beds/{bed}/sand             judge sand, and keep it for a bed
GET  /api/beds/{bed}/readiness        whether a bed is ready to be filled, by its probes now
POST /api/beds/{bed}/readiness        the same with what hands and eyes say; kept
GET  /api/beds/{bed}/readiness/records          what was said of it, newest first
POST /api/beds/{bed}/readiness/{id}/override    fill it all the same, with a reason
GET  /api/beds/{bed}/fillings         what went in, newest first
POST /api/beds/{bed}/fillings         write down what went in, and where probes were buried
GET  /api/beds/{bed}/fillings/{filling}/probes  whether they lie as deep as was said
GET  /api/beds/{bed}/stock            what is left: ?persons=&rootsPerPersonWeek=&kgPerPersonWeek=&months=
POST /api/beds/{bed}/stock            roots in, out, or an entry taken back
POST /api/beds/{bed}/records          fillings, inspections and stock that were written down elsewhere
GET  /api/beds/{bed}/outlook          what will be left, how long it feeds, whether holding pays
GET  /api/beds/{bed}/season           the season of a bed
GET  /api/beds/{bed}/season.html      the same as a page to print
GET  /api/beds/{bed}/season.pdf       the same as PDF
GET  /api/seasons                     seasons of beds side by side
GET  /api/seasons.html                the same as a page to print
GET  /api/seasons.pdf                 the same as PDF
GET  /api/trials                      trials as they stand
POST /api/trials                      write down a trial, or correct one
GET  /api/trials/{trial}              one
GET  /api/trials/{trial}/versions     all that it was
POST /api/trials/{trial}/draw         draw which bed would get which treatment, shown before it counts
POST /api/trials/{trial}/assignment   draw which bed gets which treatment, once
GET  /api/trials/{trial}/result       what it has come to by now
GET  /api/trials/{trial}/report       its report: ?format=html|pdf|json, or by Accept
POST /api/trial-power                 how many beds a difference needs
GET  /api/trials/{trial}/curves       treatments over time: ?of=loss|excess&by=filling|calendar
GET  /api/looks                       which beds are due for a look by hand, and why
GET  /api/inspections/{inspection}/photos         pictures of an inspection
GET  /api/inspections/{inspection}/photos/{name}  one of them
PUT  /api/inspections/{inspection}/photos/{name}  keep one
GET  /api/today                       what needs a person, in order and in words: ?language=
GET  /api/alarms                      newest first: ?bed=&state=&from=&to=&language=
GET  /api/alarms/{id}                 one: why, what to do, what became of it: ?language=
GET  /api/alarms/{id}/cap             the alarm as CAP 1.2
POST /api/alarms/{id}/acknowledge     say that someone has seen it
POST /api/alarms/{id}/shelve          silence for a time
GET  /api/bench                       probes that are calibrated together: ?site=&state=
POST /api/bench                       begin to calibrate probes together
GET  /api/bench/salts                 salts that hold a known humidity, with their cautions
GET  /api/bench/{bench}               one bench, with how its probes settle just now
POST /api/bench/{bench}/points        the probes are in the next bath or jar
POST /api/bench/{bench}/capture       take what they show
POST /api/bench/{bench}/drop-point    take the current point back
POST /api/bench/{bench}/fits          what would come of it so far
POST /api/bench/{bench}/finish        fit each probe and keep the calibrations
POST /api/bench/{bench}/give-up       end a bench of which nothing comes
GET  /api/calibrations                the newest first: ?site=&probe=&quantity=&inForce=
POST /api/calibrations                fit points that were measured elsewhere
POST /api/calibrations/pairs          the same from the text of a CSV file
GET  /api/calibrations/due            when each probe is to be calibrated next
GET  /api/calibrations/{id}           one calibration
GET  /api/calibrations/{id}/certificate      its certificate as a page
GET  /api/calibrations/{id}/certificate.pdf  the same as PDF
GET  /api/field-checks                buried probes beside a travelling reference: ?site=&probe=
POST /api/field-checks                hold a buried probe against one
POST /api/drills                      a marked test to everybody who would be told of a bed
GET  /api/drills/{id}                 who got it by now
GET  /api/answers                     what people sent back: ?limit=
GET  /api/telling                     how much people are told, how soon they answer: ?days=
GET  /api/sites                       the sites that are described
POST /api/sites                       take in a site description, as loading a file does
GET  /api/sites/{site}                a description as it stands, in the form of a site file
GET  /api/sites/{site}/changes        who changed what, newest first: ?limit=
GET  /api/sites/{site}/particulars    its name, time zone, thresholds, telling
PUT  /api/sites/{site}/particulars    change them
GET  /api/sites/{site}/beds/{id}      a bed as described
PUT  /api/sites/{site}/beds/{id}      add or change a bed
GET  /api/sites/{site}/probes/{id}    a probe as described
PUT  /api/sites/{site}/probes/{id}    add or change a probe
GET  /api/sites/{site}/people/{id}    a person as described
PUT  /api/sites/{site}/people/{id}    add or change a person
GET  /api/sites/{site}/groups/{id}    a group as described
PUT  /api/sites/{site}/groups/{id}    add or change a group
POST /api/sites/{site}/probes/{id}/moves  take a probe to a place, into the shade, or out
GET  /api/thresholds                  what can be set, with defaults and their sources
GET  /api/sites/{site}/thresholds     the same with what is in force at a site
GET  /api/beds/{bed}/thresholds       the same for a bed
GET  /api/access                      who may do what here
GET  /api/me                          who asks, and what they may do
POST /api/sign-in                     sign in by name and password
POST /api/sign-in/send-link           send a link to a telephone or mailbox
POST /api/sign-in/look                what a link is for
POST /api/sign-in/link                sign in by a link, once
POST /api/sign-out                    end this session
PUT  /api/me/password                 change the password by the one before
GET  /api/me/sessions                 where one is signed in
POST /api/me/sessions/{id}/revoke     end one of them
GET  /api/sessions                    who is signed in, and where
POST /api/sessions/{id}/revoke        end a session
GET  /api/accounts                    who may sign in
PUT  /api/accounts/{name}             let somebody sign in, give a role, close
POST /api/accounts/{name}/link        a link by which they choose a password
GET  /api/tokens                      tokens of machines
POST /api/tokens                      a token for a machine
POST /api/tokens/{id}/revoke          it holds no more
GET  /api/sites/{site}/secrets        which probes and lamps have a secret at the broker
POST /api/sites/{site}/probes/{id}/secret         a secret for a probe, shown once
POST /api/sites/{site}/probes/{id}/secret/revoke  it holds no more
POST /api/sites/{site}/lamps/{id}/secret          a secret for a lamp or buzzer
POST /api/sites/{site}/lamps/{id}/secret/revoke   it holds no more
GET  /api/audit                       what was changed by whom: ?before=&limit=
GET  /api/ways                        by which ways people can be told here
GET  /api/probes                      described probes: where, since when, heard when: ?site=&bed=
GET  /api/probes/unknown              probes that no site description knows
GET  /api/quarantine                  what was set aside, and why
GET  /api/stream                      what changes, as it changes: server-sent events
GET  /api/openapi.json                all of this for machines (OpenAPI 3.1)
GET  /metrics                         OpenMetrics text
`;

/**
 * `GET /api`: what can be asked for, for a person with a browser or curl. `GET /` gives the same where there is no page,
 * and to whoever does not ask for HTML.
 */
export function addRoot(app: HttpApp, hasPage: boolean): void {
  const list = (_request: FastifyRequest, reply: FastifyReply): FastifyReply =>
    reply.type('text/plain; charset=utf-8').send(ADDRESSES);
  app.get('/api', { schema: { hide: true } }, list);
  if (!hasPage) app.get('/', { schema: { hide: true } }, list);
  else
    app.get('/', { schema: { hide: true } }, (request, reply) =>
      request.headers.accept?.includes('text/html') ? sendPage(reply) : list(request, reply),
    );
}
