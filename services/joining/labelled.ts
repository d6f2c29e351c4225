import { labelOf, SPEAKS_OF_ms } from '../core/alarms/labels.js';
import type { Alarm } from '../core/model/alarm.js';
import type { AlarmRow } from '../registry/index.js';
import { asAlarm } from './alarm-keeper.js';
import type { Station } from './station.js';

/** An alarm with what inspections have said of it by now. */
export function labelled({ registry }: Station, row: AlarmRow, now: number): Alarm {
  const { raisedAt, bed } = row;
  const looks = registry.inspections.between(bed, raisedAt, raisedAt + SPEAKS_OF_ms + 1);
  const { verdict, lookedAt } = labelOf(row, looks);
  return { ...asAlarm(row, now), foundOut: { verdict, lookedAt } };
}
