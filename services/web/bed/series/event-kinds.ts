/** Events by kind: a word for the axis, a shape, and where in the page they open. */
import type { EventAnswer } from '../../api/types/series.js';
import { say } from '../../words/say.js';

export type Family = 'alarm' | 'look' | 'filling' | 'probe' | 'stock';

const FAMILIES: Readonly<Record<string, Family>> = {
  filling: 'filling',
  'readiness-override': 'filling',
  inspection: 'look',
  'stock-out': 'stock',
};

export const familyOf = ({ kind }: Pick<EventAnswer, 'kind'>): Family =>
  FAMILIES[kind] ?? (kind.startsWith('alarm-') ? 'alarm' : 'probe');

/** Each is known by its outline; drawn in a square of 16. */
export const SHAPES: Readonly<Record<Family, string>> = {
  alarm: 'M8 1 15 14H1ZM8 6v4M8 11.500v1',
  look: 'M1 8C4 3 12 3 15 8 12 13 4 13 1 8ZM8 6a2 2 0 1 1 0 4 2 2 0 1 1 0-4',
  filling: 'M2 3h12l-2 11H4ZM4 7h8',
  probe: 'M6 1h4v5l-1 1v6l-1 2-1-2V7L6 6Z',
  stock: 'M8 1v10M4 7l4 4 4-4M2 15h12',
};

export const kindWords = ({ kind }: Pick<EventAnswer, 'kind'>): string =>
  ({
    filling: say('series.kind_filling'),
    inspection: say('series.kind_inspection'),
    'alarm-raised': say('series.kind_alarm_raised'),
    'alarm-moved': say('series.kind_alarm_moved'),
    'alarm-acknowledged': say('series.kind_alarm_acknowledged'),
    'alarm-cleared': say('series.kind_alarm_cleared'),
    'alarm-withdrawn': say('series.kind_alarm_withdrawn'),
    calibration: say('series.kind_calibration'),
    'probe-placed': say('series.kind_probe_placed'),
    'probe-moved': say('series.kind_probe_moved'),
    'probe-taken-out': say('series.kind_probe_taken_out'),
    'stock-out': say('series.kind_stock_out'),
    'readiness-override': say('series.kind_readiness_override'),
  })[kind] ?? kind;
