/** Made-up alarms and beds for the tests of this folder and of the senders. */
import type { NamedBed } from '../../../services/core/alarms/text.js';
import type { Alarm } from '../../../services/core/model/alarm.js';

export const at = (text: string): number => Date.parse(text);

/** A stepped pit of two steps of 25 cm. */
export const PIT: NamedBed = Object.freeze({
  name: 'Pit A',
  steps: [
    { length: 150, width: 100, height: 25 },
    { length: 150, width: 60, height: 25 },
  ],
  timeZone: 'Africa/Lusaka',
});

export const BOX: NamedBed = Object.freeze({
  name: 'Box 2',
  steps: [{ length: 100, width: 50, height: 75 }],
  timeZone: 'Africa/Lusaka',
});

const HEATING: Alarm = Object.freeze({
  id: 'ridge-station.pit-a.heating.unpack.20260524T150000Z',
  site: 'ridge-station',
  bed: 'pit-a',
  kind: 'heating',
  priority: 'high',
  state: 'unacknowledged',
  raisedAt: at('2026-05-24T15:00:00Z'),
  clearedAt: null,
  action: 'unpack',
  subject: '',
  evidence: { probe: 'p01', excess_C: 1.8, rate_C_per_day: 0.6 },
  place: { x: 80, y: 35, depth: 40, radius: 15 },
  text: 'Pit A: sand 1.8 C too warm.',
  acknowledgement: null,
});

/** A heating alarm of pit A with some things otherwise. */
export const anAlarm = (otherwise: Partial<Alarm> = {}): Alarm => Object.freeze({ ...HEATING, ...otherwise });
