/** What whoever looked into a bed is told: the advice that follows, and what the look did to alarms. */
import { SPEAKS_OF_ms } from '../core/alarms/labels.js';
import { adviceFor, lookCautions } from '../core/keeping/index.js';
import type { Alarm } from '../core/model/alarm.js';
import type { Inspection } from '../core/model/inspection.js';
import type { InspectedView } from '../http/index.js';
import type { AlarmRow } from '../registry/index.js';
import { labelled } from './labelled.js';
import type { Entered } from './record-desk.js';
import type { Station } from './station.js';

/** Alarms of a bed that last, shelved ones among them. */
export const openAlarms = ({ registry }: Station, bed: string): AlarmRow[] => registry.alarms.open(bed);

export interface AfterLook {
  /** Open before anything was written down. */
  readonly openBefore: readonly AlarmRow[];
  readonly judged: boolean;
  readonly left: number | null;
  /** Wall clock, ms. */
  readonly now: number;
}

/** A look with what follows from it, after all that came with it was written down. */
export function inspectedView(
  station: Station,
  { record: inspection, isNew }: Entered<Inspection>,
  { openBefore, judged, left, now }: AfterLook,
): InspectedView {
  const advice = adviceFor(inspection);
  return {
    ...{ inspection, isNew, advice, judged, left },
    cautions: lookCautions(
      inspection,
      station.directory.beds.get(inspection.bed)?.bed.kind ?? 'stepped-pit',
      advice.map(({ text }) => text),
    ),
    alarms: alarmsOf(station, inspection, now),
    ended: openBefore.filter(({ id }) => isOver(station, id)).map(({ id }) => id),
    notes: notesOf(inspection, judged, left),
  };
}

/** Those that were open at the look, or had been raised within the week before. */
function alarmsOf(station: Station, { bed, at }: Inspection, now: number): Alarm[] {
  return station.registry.alarms
    .touchedSince(bed, at - SPEAKS_OF_ms)
    .filter(({ raisedAt, clearedAt }) => {
      const isLate = raisedAt >= at - SPEAKS_OF_ms;
      return raisedAt <= at && (isLate || clearedAt === null || clearedAt >= at);
    })
    .map((row) => labelled(station, row, now));
}

function isOver({ registry }: Station, id: string): boolean {
  const row = registry.alarms.standingFor(id);
  return !row || row.withdrawn || row.clearedAt !== null;
}

const notesOf = (inspection: Inspection, judged: boolean, left: number | null): string[] => [
  ...(judged ? [] : ['it comes late: the bed is judged again from there, which may end or raise alarms']),
  ...(inspection.out !== undefined && left === null
    ? [
        'the roots that came out are written down with the look, but count in no stock: nobody wrote down what went in',
      ]
    : []),
];
