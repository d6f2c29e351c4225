/** Which alarms an answer is for. */
import type { UnderstoodAnswer } from '../core/alarms/answers/index.js';
import { byUrgency } from '../core/alarms/urgency.js';
import type { Person, SiteDescription } from '../core/model/site.js';
import type { AlarmRow, Registry } from '../registry/index.js';

export interface Sender {
  readonly site: SiteDescription;
  readonly person: Person;
}

export type AlarmAnswer = Exclude<UnderstoodAnswer, { kind: 'stop' }>;

export interface AnsweredAlarms {
  /** Whose alarms they are; the first sender where there are none. */
  readonly from: Sender;
  /** Empty where it cannot be told which are meant. */
  readonly rows: readonly AlarmRow[];
  /** What the senders were told of and lasts, the gravest first. */
  readonly open: readonly AlarmRow[];
}

/**
 * With numbers the open alarms of those numbers; with `ALL` what waits for an answer of theirs. With neither, what
 * cannot be mistaken: the only one; all that their last message told of; of what was found, all of one bed.
 *
 * @param senders at least one: those who share the address
 * @param now wall clock, ms
 */
export function alarmsFor(
  registry: Registry,
  senders: readonly [Sender, ...Sender[]],
  answer: AlarmAnswer,
  now: number,
): AnsweredAlarms {
  const byNumber = answer.numbers.length > 0;
  const found = senders.flatMap((from) => openOf(registry, from, now).map((row) => ({ from, row })));
  const told = found.filter(({ from, row }) => wasTold(registry, from, row));
  const open = rowsOf(told);
  const named = found.filter(({ row }) => row.number !== null && answer.numbers.includes(row.number));
  const rows = byNumber ? rowsOf(named) : unnumbered(registry, senders, answer, open, now);
  const from = (byNumber ? named : told).find(({ row }) => row.id === rows[0]?.id)?.from ?? senders[0];
  return { from, rows, open };
}

const rowsOf = (found: readonly { readonly row: AlarmRow }[]): AlarmRow[] =>
  [...new Map(found.map(({ row }) => [row.id, row])).values()].sort(byUrgency);

const openOf = ({ alarms }: Registry, { site }: Sender, now: number): AlarmRow[] =>
  alarms.toTell(site.site.id, now).filter((row) => row.clearedAt === null && !row.withdrawn);

const wasTold = ({ told }: Registry, { person }: Sender, { id, formerly }: AlarmRow): boolean =>
  [id, ...formerly].some((alarm) => told.wasTold(person.id, alarm));

function unnumbered(
  registry: Registry,
  senders: readonly Sender[],
  answer: AlarmAnswer,
  open: readonly AlarmRow[],
  now: number,
): readonly AlarmRow[] {
  if (answer.kind === 'found') return new Set(open.map(({ bed }) => bed)).size === 1 ? open : [];
  const waiting = open.filter((row) => row.acknowledgement === null && !((row.shelving?.until ?? 0) > now));
  const meant = waiting.length > 0 ? waiting : open;
  const sure = meant.length === 1 || answer.all === true || areOfOneMessage(registry, senders, meant);
  return sure ? meant : [];
}

/** Whether the last that one of them heard of each came in one message. */
function areOfOneMessage({ told }: Registry, senders: readonly Sender[], rows: readonly AlarmRow[]): boolean {
  return senders.some(({ person }) => {
    const messages = rows.map(({ id, formerly }) => told.lastMessage(person.id, [id, ...formerly]));
    return messages[0] !== undefined && new Set(messages).size === 1;
  });
}
