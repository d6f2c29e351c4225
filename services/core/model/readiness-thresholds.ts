/** Limits that a bed is found ready by, beside those of its sand and the thresholds that it is watched by. */
import { type Threshold, threshold } from './threshold-table.js';

const GUIDE = 'North Carolina growing guide';

export const READINESS_LIMITS = {
  curing_least_days: threshold(
    'days',
    4,
    [1, 14],
    `published: 4 to 7 days (${GUIDE}); healing levelled off at day 3 to 4 (Atuna, Carey & Amagloh 2017, abstract)`,
    'how long roots are cured at least',
  ),
  curing_most_days: threshold(
    'days',
    10,
    [4, 30],
    'published: about 10 days (USDA Farmers’ Bulletin 1442); 14 days gave more rot than 7 (Tortoe et al., abstract)',
    'how long roots are cured at most',
  ),
  curing_least_C: threshold(
    '°C',
    26.7,
    [15, 35],
    `published: 26.7 to 29.4 °C (${GUIDE})`,
    'warmth of the air in which roots are cured, at least',
  ),
  curing_most_C: threshold(
    '°C',
    35,
    [25, 45],
    'published: roots cure by themselves at 32 to 35 °C (Ray & Ravi 2005, abstract)',
    'warmth of the air in which roots are cured, at most',
  ),
  curing_least_RH: threshold(
    '%RH',
    80,
    [50, 100],
    `published: from 80 %RH (Ray & Ravi 2005, abstract); 90 to 95 %RH is better (${GUIDE})`,
    'humidity of the air in which roots are cured, at least',
  ),
  curing_most_RH: threshold(
    '%RH',
    97,
    [80, 100],
    `judgement: 95 %RH and what a cheap sensor is off by; 100 %RH wets roots and must not be (${GUIDE})`,
    'humidity of the air in which roots are cured, at most',
  ),
  pit_open_days: threshold(
    'days',
    3,
    [0, 60],
    'common practice, no source: left open some days to dry',
    'how long a pit has to stand open before it is filled',
  ),
  pit_dry_RH: threshold(
    '%RH',
    90,
    [50, 95],
    'judgement: no published limit; above 93 %RH a cheap sensor cannot tell dry from wet',
    'humidity of the air in an open pit, by the day, up to which it is dry',
  ),
  pit_rise_RH: threshold(
    '%RH',
    3,
    [0.5, 20],
    'judgement: no published limit; what a sensor creeps by above 80 %RH in some days (data sheets)',
    'rise of that humidity from one day to the next up to which it is steady',
  ),
  sand_least_C: threshold(
    '°C',
    12,
    [5, 20],
    'judgement: rounded from the published 12.8 °C (55 °F) below which roots are chilled (Mississippi State, 2015)',
    'temperature of the sand, by the day, below which roots must not go in',
  ),
  sand_most_C: threshold(
    '°C',
    30,
    [20, 40],
    'judgement: rots are near their best there (published for several of them)',
    'temperature of the sand, by the day, above which roots must not go in',
  ),
  sand_steady_C: threshold(
    '°C',
    1,
    [0.1, 10],
    'judgement: no published limit; sand that still cools changes by more',
    'change of the sand from one day to the next up to which it is steady',
  ),
  sand_dry_RH: threshold(
    '%RH',
    90,
    [50, 95],
    'judgement: no published limit; pore air of sand below 0.1 % of water stays under it (computed), damp sand reads 98 to 100 %RH',
    'humidity of the air in the sand, by the day, up to which it is dry while no roots are in it',
  ),
  probe_heard_h: threshold(
    'h',
    2,
    [0.1, 48],
    'judgement: no published limit',
    'how long ago a probe may have spoken last',
  ),
} as const satisfies Record<string, Threshold>;

/** Limits of which the first must not be above the second. */
export const READINESS_ORDERED = [
  ['curing_least_days', 'curing_most_days'],
  ['curing_least_C', 'curing_most_C'],
  ['curing_least_RH', 'curing_most_RH'],
] as const satisfies readonly (readonly [keyof typeof READINESS_LIMITS, keyof typeof READINESS_LIMITS])[];
