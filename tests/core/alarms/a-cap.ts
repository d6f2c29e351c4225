/** A CAP message about a made-up alarm. */
import { type CapBody, type CapOptions, capIdentifier } from '../../../services/core/alarms/cap.js';
import { alarmDocument } from '../../../services/core/alarms/document.js';
import type { AlarmEvent } from '../../../services/core/alarms/text.js';
import type { Alarm } from '../../../services/core/model/alarm.js';
import { anAlarm, at } from './an-alarm.js';

export const SENT_AT = at('2026-05-24T15:02:03.987Z');

export function aBody(alarm: Partial<Alarm> = {}, otherwise: Partial<CapBody> = {}): CapBody {
  return Object.freeze({
    event: 'raised',
    alarm: alarmDocument(anAlarm(alarm)),
    bedName: 'Pit A',
    line: 'Pit A: sand 1.8 C too warm. Open and unpack today.',
    longText: 'Pit A: sand 1.8 C too warm. Why: the sand is warmer than its surroundings.',
    ...otherwise,
  });
}

export const someOptions = (otherwise: Partial<CapOptions> = {}): CapOptions =>
  Object.freeze<CapOptions>({
    sender: 'alarms@ridge.example',
    siteName: 'Ridge station',
    language: 'en',
    status: 'Actual',
    scope: { type: 'Restricted', restriction: 'Keepers of the store' },
    sentAt: SENT_AT,
    ...otherwise,
  });

/** Options of a message that follows the raising. */
export const afterRaising = (otherwise: Partial<CapOptions> = {}): CapOptions =>
  someOptions({
    sentAt: SENT_AT + 3_600_000,
    earlier: [{ identifier: capIdentifier(anAlarm().id, 'raised'), sentAt: SENT_AT }],
    ...otherwise,
  });

/** Options that suit an event. */
export const optionsFor = (event: AlarmEvent): CapOptions =>
  event === 'raised' ? someOptions() : afterRaising();
