/** How messages name the quantities and forms. */
import type { CalibratedQuantity, CalibrationForm } from '../model/calibration.js';

export const UNIT: Readonly<Record<CalibratedQuantity, string>> = { temperature: '°C', humidity: '%RH' };

export const PLURAL: Readonly<Record<CalibratedQuantity, string>> = {
  temperature: 'temperatures',
  humidity: 'humidities',
};

/** What the highest term of a form is called. */
export const TERM: Readonly<Record<CalibrationForm, string>> = {
  offset: 'an offset',
  linear: 'a gain',
  quadratic: 'a curve',
};

/** A number as a message shows it: three significant digits. */
export const brief = (value: number): string => String(Number(value.toPrecision(3)));

/** An amount of a quantity with its unit. */
export const amount = (value: number, quantity: CalibratedQuantity): string =>
  `${brief(value)} ${UNIT[quantity]}`;
