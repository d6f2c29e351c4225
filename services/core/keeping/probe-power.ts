/**
 * How long a battery carries a probe, and whether a small panel keeps it charged.
 *
 * The mean current is the sum of current times time; a battery that loses a fixed share of what is left each year
 * while it is drawn from lasts ln(1 + kC/I) / k, which is C / I where it loses nothing. Both are elementary; the
 * tests hold them against two worked examples that are published. A measured probe may draw otherwise than its data
 * sheets say: real nodes were found to (Barboni & Valle 2014, Wireless Sensor Network 6:212-220, abstract).
 */
import { requireInDomain, SandlarderError } from '../errors.js';

/** Something that the probe does so often a day: it wakes, measures, sends. */
export interface Activity {
  readonly current_mA: number;
  readonly time_s: number;
  readonly timesADay: number;
}

export interface Battery {
  /** As printed on it. */
  readonly capacity_mAh: number;
  /** While it is used up. */
  readonly voltage_V: number;
  /** Part of the capacity that the circuit can draw before it stops, %. */
  readonly usable_percent: number;
  /** Part of the capacity that is there at the temperature where it lies, %. */
  readonly atTemperature_percent: number;
  /** Of what is left, % a year. */
  readonly selfDischarge_percent_year: number;
}

export interface Panel {
  readonly power_W: number;
  /** Of sun of 1000 W/m2 on the panel in the poorest month, h a day. */
  readonly sun_h_day: number;
  /** Part of its power that it gives, dust, heat and wrong slope taken off, %. */
  readonly gives_percent: number;
  /** Part of that which comes out of the battery again, %. */
  readonly charges_percent: number;
}

export interface PowerTask {
  /** Always drawn, asleep too, µA. */
  readonly sleep_uA: number;
  readonly activities: readonly Activity[];
  readonly battery: Battery;
  readonly panel?: Panel | undefined;
}

/**
 * What is assumed where nothing is said. Judgement, but for the self-discharge: alkaline cells at room temperature are
 * said to lose 2 to 3 % a year, at 29 °C about 5 % (weak sources, no data sheet seen).
 */
export const POWER_DEFAULTS = {
  usable_percent: 80,
  atTemperature_percent: 90,
  selfDischarge_percent_year: 5,
  gives_percent: 60,
  charges_percent: 80,
} as const;

export const POWER_LIMITS = { activities: 20 } as const;

export interface SolarBudget {
  /** What the panel puts back for use in a day of the poorest month. */
  readonly harvest_mAh_day: number;
  /** Over what is used: above 1 it keeps up. */
  readonly timesUsed: number;
  /** How long a full battery carries the probe with no sun at all, days. */
  readonly withoutSun_days: number;
  /** Days of sun that fill an empty battery while the probe works; null where it never fills. */
  readonly fills_days: number | null;
}

export interface PowerBudget {
  readonly sleep_mAh_day: number;
  readonly activities: readonly (Activity & { readonly used_mAh_day: number })[];
  readonly used_mAh_day: number;
  readonly meanCurrent_mA: number;
  readonly usable_mAh: number;
  /** Without a panel, days. */
  readonly lasts_days: number;
  readonly solar: SolarBudget | null;
}

const DAY_s = 86_400;
const YEAR_days = 365.25;

/**
 * @throws SandlarderError OUT_OF_DOMAIN for a value of no probe, and for an activity that takes more than the day;
 * LIMIT_EXCEEDED for more than 20 activities
 */
export function powerBudget({ sleep_uA, activities, battery, panel }: PowerTask): PowerBudget {
  requireTask(sleep_uA, activities);
  const sleep_mAh_day = (sleep_uA / 1000) * 24;
  const each = activities.map((activity) => ({ ...activity, used_mAh_day: usedBy(activity) }));
  const used_mAh_day = each.reduce((sum, one) => sum + one.used_mAh_day, sleep_mAh_day);
  requireInDomain('what is used, mAh a day,', used_mAh_day, 1e-6, 1e6);
  const usable_mAh = usableOf(battery);
  const lasts_days = lastsFor(usable_mAh, used_mAh_day, battery.selfDischarge_percent_year);
  return {
    ...{ sleep_mAh_day, activities: each, used_mAh_day, meanCurrent_mA: used_mAh_day / 24 },
    ...{ usable_mAh, lasts_days },
    solar: panel ? solarBudget(panel, battery, usable_mAh, used_mAh_day, lasts_days) : null,
  };
}

function requireTask(sleep_uA: number, activities: readonly Activity[]): void {
  requireInDomain('current asleep, µA,', sleep_uA, 0, 1e6);
  if (!(activities.length <= POWER_LIMITS.activities))
    throw new SandlarderError(
      'LIMIT_EXCEEDED',
      `activities: expected at most ${POWER_LIMITS.activities}, got ${activities.length}`,
    );
  for (const { current_mA, time_s, timesADay } of activities) {
    requireInDomain('current, mA,', current_mA, 0, 5000);
    requireInDomain('time, s,', time_s, 0, DAY_s);
    requireInDomain('times a day', timesADay, 0, DAY_s);
    requireInDomain('time of an activity, s a day,', time_s * timesADay, 0, DAY_s);
  }
}

const usedBy = ({ current_mA, time_s, timesADay }: Activity): number =>
  (current_mA * time_s * timesADay) / 3600;

function usableOf({ capacity_mAh, usable_percent, atTemperature_percent }: Battery): number {
  requireInDomain('capacity, mAh,', capacity_mAh, 1, 1e6);
  requireInDomain('usable part, %,', usable_percent, 1, 100);
  requireInDomain('part at its temperature, %,', atTemperature_percent, 1, 100);
  return (capacity_mAh * usable_percent * atTemperature_percent) / 10_000;
}

function lastsFor(usable_mAh: number, used_mAh_day: number, selfDischarge_percent_year: number): number {
  requireInDomain('self-discharge, % a year,', selfDischarge_percent_year, 0, 99);
  const rate_day = -Math.log1p(-selfDischarge_percent_year / 100) / YEAR_days;
  return rate_day === 0
    ? usable_mAh / used_mAh_day
    : Math.log1p((rate_day * usable_mAh) / used_mAh_day) / rate_day;
}

function solarBudget(
  { power_W, sun_h_day, gives_percent, charges_percent }: Panel,
  { voltage_V }: Battery,
  usable_mAh: number,
  used_mAh_day: number,
  withoutSun_days: number,
): SolarBudget {
  requireInDomain('power of the panel, W,', power_W, 0.001, 1000);
  requireInDomain('sun, h a day,', sun_h_day, 0, 14);
  requireInDomain('part that the panel gives, %,', gives_percent, 1, 100);
  requireInDomain('part that is charged, %,', charges_percent, 1, 100);
  requireInDomain('voltage, V,', voltage_V, 0.5, 60);
  const harvest_mAh_day =
    (((1000 * power_W * sun_h_day) / voltage_V) * gives_percent * charges_percent) / 10_000;
  const over_mAh_day = harvest_mAh_day - used_mAh_day;
  return {
    ...{ harvest_mAh_day, timesUsed: harvest_mAh_day / used_mAh_day, withoutSun_days },
    fills_days: over_mAh_day > 0 ? usable_mAh / over_mAh_day : null,
  };
}
