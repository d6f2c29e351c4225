/** A station with what an export is made of: readings, calibrations, flags, judged hours, shade. */
import { HOUR_ms, MINUTE_ms } from '../../../services/core/model/time.js';
import type { Watch } from '../../../services/core/watch/watch.js';
import type { ExportQuery } from '../../../services/http/index.js';
import { ExportDesk } from '../../../services/joining/export-desk.js';
import type { OlderPages } from '../../../services/joining/export-older.js';
import { bodyOf, openDesk, shiftedBy } from '../../support/calibrating.js';
import { pointingWatch } from '../../support/pointing-watch.js';
import { type Message, SHORT_SEASON } from '../../support/season.js';
import { openStation } from '../../support/station.js';

export const START = SHORT_SEASON.startAt;
export const READINGS = 200;
/** Told as a code. */
export const BROKEN = 70;
export const CALIBRATED_h = 10;

export const ASKED: ExportQuery = { beds: ['pit-t'], quantities: ['temperature', 'humidity'] };

/** Expects 20 °C with a band of 0.5, and flags 85 °C. */
const watch: Watch = {
  ...pointingWatch,
  open: (bed, checkpoint) => ({
    ...pointingWatch.open(bed, checkpoint),
    step: ({ probes }) => ({
      changes: [],
      judgements: new Map([...probes].map(([id]) => [id, { expected_C: 20, band_C: 0.5, excess_C: 1.25 }])),
      flags: new Map(
        [...probes].map(([id, samples]) => [
          id,
          samples.flatMap(({ at, temperature }) =>
            temperature === 85
              ? [{ at, quantity: 'temperature' as const, reason: 'sensor-code' as const }]
              : [],
          ),
        ]),
      ),
    }),
  }),
};

/** Every ten minutes. */
function season(probe: string): Message {
  const records = Array.from({ length: READINGS }, (_, at) => {
    const t = (START + at * 10 * MINUTE_ms) / 1000;
    return [
      { n: 'temperature', u: 'Cel', v: at === BROKEN ? 85 : 20 + (at % 7) / 10, t },
      ...(at % 3 === 0 ? [{ n: 'humidity', u: '%RH', v: 80 + (at % 5) / 10, t }] : []),
      ...(at === 0 ? [{ n: 'battery', u: 'V', v: 3.1, t }] : []),
    ];
  });
  return {
    topic: `sandlarder/v1/test-ridge/probes/${probe}/readings`,
    payload: JSON.stringify(records.flat()),
  };
}

export async function bytesOf(pieces: AsyncIterable<Uint8Array>): Promise<Buffer> {
  const all: Uint8Array[] = [];
  for await (const piece of pieces) all.push(piece);
  return Buffer.concat(all);
}

/** @param older what stands for a long archive */
export function openExport(older?: OlderPages) {
  const station = openDesk(openStation({ watch }));
  station.commit([season('p01'), season('p02'), season('p09')]);
  station.desk.add(bodyOf({ probe: 'p01', points: shiftedBy(-1), doneAt: START + CALIBRATED_h * HOUR_ms }));
  station.settle();
  const { archive, registry, calibrations } = station.station;
  const exports = new ExportDesk({
    ...{ archive, registry, calibrations, directory: () => station.station.directory },
    ...{ older, program: 'Sandlarder 0.1.0' },
  });
  const bytes = async (
    query: Partial<ExportQuery> = {},
    format: 'csv' | 'parquet' = 'csv',
  ): Promise<Buffer> => await bytesOf(await exports.rows({ ...ASKED, ...query }, format));
  return { ...station, exports, bytes };
}
