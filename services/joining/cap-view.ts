/** An alarm as a CAP 1.2 message, for those who feed public systems. */
import { capIdentifier, capOf } from '../core/alarms/cap.js';
import { alarmDocument } from '../core/alarms/document.js';
import { eventLine, longText } from '../core/alarms/text.js';
import { SandlarderError } from '../core/errors.js';
import { asAlarm } from './alarm-keeper.js';
import { CAP_SCOPE, capSenderOf } from './cap-station.js';
import type { Station } from './station.js';

/**
 * The alarm as it stands: an alert while it lasts, an update once it is over, a cancel where it never was.
 *
 * @param now wall clock, ms
 * @throws SandlarderError NOT_FOUND
 */
export function capView({ registry, directory }: Station, id: string, now: number): string {
  const row = registry.alarms.get(id);
  const known = row && directory.beds.get(row.bed);
  if (!row || !known) throw new SandlarderError('NOT_FOUND', `no alarm has the id "${id}"`);
  const alarm = asAlarm(row, now);
  const ended = row.withdrawn ? 'withdrawn' : 'cleared';
  const event = row.withdrawn || row.clearedAt !== null ? ended : 'raised';
  const raisedAt = row.knownAt ?? row.raisedAt;
  const { bed, site } = known;
  return capOf(
    {
      ...{ event, alarm: alarmDocument(alarm), bedName: bed.name },
      ...{ line: eventLine(event, alarm, bed), longText: longText(event, alarm, bed, site.timezone) },
    },
    {
      ...{ sender: capSenderOf(site.id), siteName: site.name, language: 'en', status: 'Actual' },
      scope: CAP_SCOPE,
      sentAt: event === 'raised' ? raisedAt : (row.endKnownAt ?? row.clearedAt ?? raisedAt),
      ...(event !== 'raised' && {
        earlier: [{ identifier: capIdentifier(id, 'raised'), sentAt: raisedAt }],
      }),
    },
  );
}
