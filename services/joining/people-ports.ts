/** What the HTTP edge asks for about telling people and hearing back. */
import { createHash } from 'node:crypto';
import { figuresOf, type ToldRecord } from '../core/alarms/duty/index.js';
import { LANGUAGES } from '../core/alarms/languages/index.js';
import { SandlarderError } from '../core/errors.js';
import { VIAS } from '../core/model/people.js';
import { DAY_ms, MINUTE_ms } from '../core/model/time.js';
import type { PeoplePorts, TellingView } from '../http/index.js';
import type { AlarmRow, Registry } from '../registry/index.js';
import { type GatewaySettings, readGatewayMessage } from '../senders/index.js';
import type { DrillDesk } from './drill-desk.js';
import { LinkDesk, type LinkParts } from './link-desk.js';
import type { Telling } from './telling.js';
import type { Ways } from './ways.js';

export interface PeopleParts extends LinkParts {
  readonly telling: Telling;
  readonly drills: DrillDesk;
  readonly gateway: GatewaySettings | undefined;
  readonly ways: Pick<Ways, 'has' | 'answers'>;
}

/** A drill that began, and what an answer changed, is sent at once. */
export function createPeoplePorts(parts: PeopleParts): PeoplePorts {
  const { station, telling, drills } = parts;
  const links = new LinkDesk(parts);
  return {
    ways: () =>
      VIAS.map((via) => ({
        via,
        usable: via === 'console' || parts.ways.has(via),
        answers: parts.ways.answers(via),
      })),
    drill: (bed, by) => {
      const view = station.inTransaction(() => drills.start(bed, by));
      telling.kick();
      return view;
    },
    drillOf: (id) => drills.get(id),
    answers: (limit) => station.registry.answers.list(limit),
    figures: (days) => figures(parts, days),
    link: (token) => links.view(token),
    useLink: (token, answer) => {
      const used = links.use(token, answer);
      telling.plan();
      return used;
    },
    receive: (input) => receive(parts, input),
  };
}

function receive(
  { station, gateway, answers, telling, now }: PeopleParts,
  { body, query }: { readonly body: string | undefined; readonly query: string },
): void {
  if (!gateway?.receive)
    throw new SandlarderError(
      'NOT_FOUND',
      'messages: expected a gateway whose settings say how to "receive", got none',
    );
  const input = gateway.receive.in === 'query' ? query : (body ?? '');
  const { from, text } = readGatewayMessage(gateway.receive, input);
  const digest = createHash('sha256').update(`${query} ${input}`).digest('hex');
  // Many gateways name no message: the same text again is a repeat within minutes, and later a message of its own.
  const span = Math.floor(now() / REPEAT_ms);
  const [id, before] = [span, span - 1].map((part) => `gateway/${digest}/${part}`) as [string, string];
  if (!station.registry.answers.has(before)) answers.take({ id, via: 'sms', sender: from, text });
  telling.plan();
}

/** A gateway that was not answered asks again within so long, or twice that. Judgement. */
const REPEAT_ms = 10 * MINUTE_ms;

function figures({ station, now }: PeopleParts, days: number): TellingView[] {
  const to = now();
  const from = to - days * DAY_ms;
  const languages = LANGUAGES.map(({ language, name, nativeReviewed }) => ({
    ...{ language, name, draft: !nativeReviewed },
  }));
  return station.registry.sites.descriptions().map(({ site }) => {
    const { told, alarms } = toldOf(station.registry, site.id, from);
    return { site: site.id, ...figuresOf({ from, to, told, alarms }), languages };
  });
}

/** What a site's people were told since, with the first telling of each alarm; withdrawn ones as what stands for them. */
function toldOf(
  { told, alarms }: Registry,
  site: string,
  from: number,
): { told: ToldRecord[]; alarms: AlarmRow[] } {
  const lately = told.since(site, from);
  const rows = new Map<string, AlarmRow>();
  for (const id of new Set(lately.map(({ alarm }) => alarm))) {
    const row = alarms.standingFor(id);
    if (row) rows.set(row.id, row);
  }
  const named = [...rows.values()].flatMap(({ id, formerly }) =>
    [id, ...formerly].flatMap((old) => told.ofAlarm(old).map((record) => ({ ...record, alarm: id }))),
  );
  return { told: named, alarms: [...rows.values()] };
}
