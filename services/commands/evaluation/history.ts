/** A site's own alarms held against its inspections, from its data directory, which is only read. */
import { ARCHIVE_SCHEMA, openForReading } from '../../archive/index.js';
import {
  type JudgedAlarm,
  type Label,
  labelOf,
  type Unwarned,
  unwarnedOf,
} from '../../core/alarms/labels.js';
import { SandlarderError } from '../../core/errors.js';
import type { Inspection } from '../../core/model/inspection.js';
import { formatTime } from '../../core/model/time.js';
import { createRegistry, REGISTRY_SCHEMA, type Registry } from '../../registry/index.js';
import { historyLines } from './history-lines.js';
import { historyTotals } from './history-totals.js';

export interface HistoryOptions {
  readonly directory: string;
  /** Only this bed. */
  readonly bed: string | undefined;
  readonly json: boolean;
}

/** Alarms read at a time. */
const PAGE = 500;

/** @throws SandlarderError STORE_UNAVAILABLE; WRONG_USAGE where there is no such bed */
export function evaluateHistory(options: HistoryOptions, say: (line: string) => void): void {
  const { directory, bed, json } = options;
  const database = openForReading(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  try {
    const registry = createRegistry(database);
    const beds = bedsOf(registry, bed);
    const alarms = beds.flatMap((id) => alarmsOf(registry, id));
    const inspections = beds.flatMap((id) => inspectionsOf(registry, id));
    const labels = alarms.map((alarm) => labelOf(alarm, inspections));
    const unwarned = unwarnedOf(inspections, alarms);
    const lines = json ? jsonLines(labels, unwarned) : historyLines(labels, unwarned, inspections.length);
    for (const line of lines) say(line);
  } finally {
    database.close();
  }
}

function bedsOf(registry: Registry, wanted: string | undefined): string[] {
  const beds = registry.sites.descriptions().flatMap((site) => site.beds.map(({ id }) => id));
  if (wanted === undefined) return beds;
  if (!beds.includes(wanted))
    throw new SandlarderError(
      'WRONG_USAGE',
      `--bed: expected one of ${beds.join(', ')}, got ${JSON.stringify(wanted)}`,
    );
  return [wanted];
}

/** Oldest first; what later readings showed never to have been is not among them. */
function alarmsOf(registry: Registry, bed: string): JudgedAlarm[] {
  const alarms: JudgedAlarm[] = [];
  for (;;) {
    const { rows, more } = registry.alarms.list({ bed, limit: PAGE, after: alarms.at(-1)?.id });
    alarms.push(...rows);
    if (!more) return alarms.reverse();
  }
}

const inspectionsOf = (registry: Registry, bed: string): Inspection[] =>
  registry.inspections.between(bed, 0, Number.MAX_SAFE_INTEGER);

const jsonLines = (labels: readonly Label[], unwarned: readonly Unwarned[]): string[] => [
  ...labels.map(({ alarm, verdict, lookedAt }) => {
    const { id, bed, kind, action, raisedAt, acknowledgement } = alarm;
    const looked = lookedAt === null ? null : formatTime(lookedAt);
    const acknowledgedAt = acknowledgement ? formatTime(acknowledgement.at) : null;
    return JSON.stringify({
      ...{ alarm: id, bed, kind, action, raisedAt: formatTime(raisedAt) },
      ...{ acknowledgedAt, verdict, lookedAt: looked },
    });
  }),
  ...unwarned.map(({ bed, at, found }) => JSON.stringify({ bed, at: formatTime(at), unwarned: found })),
  JSON.stringify({ totals: historyTotals(labels, unwarned) }),
];
