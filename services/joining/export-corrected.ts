/** Corrected temperatures and humidities of one probe, with their uncertainty and why to doubt them. */
import type { CalibratedQuantity } from '../core/model/calibration.js';
import { type Calibrations, type CorrectedValue, toMillionth } from './calibrations.js';
import type { ChosenStay } from './export-selection.js';

type Numbers = readonly (number | null)[];

export interface CorrectedColumn {
  readonly raw: Numbers;
  /** The same list as `raw` where no calibration ever was. */
  readonly corrected: Numbers;
  readonly uncertainty: Numbers | null;
  readonly doubts: readonly (string | null)[] | null;
}

type Both = Readonly<Record<CalibratedQuantity, CorrectedColumn>>;

export function correctedColumns(
  calibrations: Calibrations,
  { known }: ChosenStay,
  time: readonly number[],
  raw: Readonly<Record<CalibratedQuantity, Numbers>>,
): Both {
  const stretches = calibrations.stretches(known.site, known.probe.id);
  const isCalibrated = (quantity: CalibratedQuantity): boolean =>
    stretches[quantity].some(({ calibration }) => calibration !== null);
  if (!isCalibrated('temperature') && !isCalibrated('humidity'))
    return { temperature: asMeasured(raw.temperature), humidity: asMeasured(raw.humidity) };
  const warm = raw.temperature.map((value, at) =>
    value === null ? null : calibrations.correct(known, 'temperature', time[at] as number, value),
  );
  const moist = raw.humidity.map((value, at) =>
    value === null
      ? null
      : calibrations.correct(known, 'humidity', time[at] as number, value, warm[at]?.value),
  );
  return { temperature: columnsOf(raw.temperature, warm), humidity: columnsOf(raw.humidity, moist) };
}

const asMeasured = (raw: Numbers): CorrectedColumn => ({
  ...{ raw, corrected: raw, uncertainty: null, doubts: null },
});

const columnsOf = (raw: Numbers, values: readonly (CorrectedValue | null)[]): CorrectedColumn => ({
  raw,
  corrected: values.map((one) => one && toMillionth(one.value)),
  uncertainty: values.map((one) => (one?.uncertainty == null ? null : toMillionth(one.uncertainty))),
  doubts: values.map((one) => one?.doubt ?? null),
});
