/** What the HTTP edge asks for about telling people and hearing back. */
import { createHash } from 'node:crypto';
import { figuresOf } from '../core/alarms/duty/index.js';
import { LANGUAGES } from '../core/alarms/languages/index.js';
import { SandlarderError } from '../core/errors.js';
import { DAY_ms } from '../core/model/time.js';
import type { LinkView, PeoplePorts, TellingView } from '../http/index.js';
import { type GatewaySettings, readGatewayMessage } from '../senders/index.js';
import type { AnswerDesk } from './answer-desk.js';
import type { AnswerLinks, Link } from './answer-links.js';
import type { DrillDesk } from './drill-desk.js';
import type { Station } from './station.js';
import type { Telling } from './telling.js';

export interface PeopleParts {
  readonly station: Station;
  readonly telling: Telling;
  readonly answers: AnswerDesk;
  readonly links: AnswerLinks | undefined;
  readonly drills: DrillDesk;
  readonly gateway: GatewaySettings | undefined;
  /** Wall clock, ms. */
  readonly now: () => number;
}

export function createPeoplePorts(parts: PeopleParts): PeoplePorts {
  const { station, telling, answers, drills, now } = parts;
  return {
    drill: (bed, by) => {
      const view = station.inTransaction(() => drills.start(bed, by));
      telling.kick();
      return view;
    },
    drillOf: (id) => drills.get(id),
    answers: (limit) => station.registry.answers.list(limit),
    figures: (days) => figures(parts, days),
    link: (token) => linkView(parts, readLink(parts, token)),
    useLink: (token, { kind, findings, repacked, hours }) => {
      const link = readLink(parts, token);
      const before = linkView(parts, link);
      station.inTransaction(() => {
        if (!station.registry.answers.useLink(link.id, now()))
          throw new SandlarderError('CONFLICT', 'link: expected one that was not used yet: each works once');
        const person = before.person;
        if (kind === 'found') answers.byLink(link.alarm, person, { kind, findings, repacked, numbers: [] });
        else if (kind === 'quiet') answers.byLink(link.alarm, person, { kind, hours, numbers: [] });
        else answers.byLink(link.alarm, person, { kind, numbers: [] });
      });
      telling.answered(link.alarm);
      return before;
    },
    receive: (input) => receive(parts, input),
  };
}

function readLink({ links }: PeopleParts, token: string): Link {
  if (!links)
    throw new SandlarderError(
      'NOT_FOUND',
      'link: this service makes none: it was started without --public-url',
    );
  return links.read(token);
}

function linkView({ station }: PeopleParts, { id, alarm, person }: Link): LinkView {
  const row = station.registry.alarms.get(alarm);
  const site = station.registry.sites.descriptions().find((one) => one.site.id === row?.site);
  if (!row || !site) throw new SandlarderError('NOT_FOUND', 'link: its alarm is not known here');
  return {
    person: site.people.find((one) => one.id === person)?.name ?? person,
    bedName: site.beds.find((bed) => bed.id === row.bed)?.name ?? row.bed,
    text: row.text,
    over: row.withdrawn || row.clearedAt !== null || station.registry.answers.isUsed(id),
  };
}

function receive(
  { gateway, answers, telling }: PeopleParts,
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
  answers.take({ id: `gateway/${digest}`, via: 'sms', sender: from, text });
  telling.plan();
}

function figures({ station, now }: PeopleParts, days: number): TellingView[] {
  const to = now();
  const from = to - days * DAY_ms;
  const languages = LANGUAGES.map(({ language, name, nativeReviewed }) => ({
    ...{ language, name, draft: !nativeReviewed },
  }));
  return station.registry.sites.descriptions().map(({ site }) => {
    const told = station.registry.told.since(site.id, from);
    const alarms = [...new Set(told.map(({ alarm }) => alarm))].flatMap((id) => {
      const row = station.registry.alarms.get(id);
      return row ? [row] : [];
    });
    return { site: site.id, ...figuresOf({ from, to, told, alarms }), languages };
  });
}
