/** What happened to a bed, each in a sentence. English; names and notes as they were written down. */
import type { Calibration } from '../model/calibration-record.js';
import { type Filling, massFilled_kg, rootsFilled } from '../model/filling.js';
import type { Finding, Inspection } from '../model/inspection.js';
import { ROOT_COUNTS, type RootCount } from '../model/inspection-detail.js';
import type { OverrideRecord } from '../model/readiness.js';
import type { BedPlacement } from '../model/site.js';
import type { StockOut, StockOutReason } from '../model/stock.js';

const count = (roots: number): string => `${roots} ${roots === 1 ? 'root' : 'roots'}`;
const brief = (value: number, digits = 1): string => String(Number(value.toFixed(digits)));
const mass = (mass_kg: number | undefined): string =>
  mass_kg === undefined ? '' : ` (${brief(mass_kg)} kg)`;
const ended = (text: string): string => `${text.replace(/[.!?]*$/, '')}.`;

/** `Filled with 340 roots (105 kg) in 3 courses by A. Keeper.` */
export function fillingSentence(filling: Filling): string {
  const { courses, by, supersedes } = filling;
  const in_courses = courses.length === 1 ? 'in one course' : `in ${courses.length} courses`;
  const corrects = supersedes === undefined ? '' : ' This corrects what was written down before.';
  const what = `${count(rootsFilled(filling))}${mass(massFilled_kg(filling))} ${in_courses}`;
  return `${ended(`Filled with ${what} by ${by}`)}${corrects}`;
}

const FOUND: Readonly<Record<Finding, string>> = {
  rot: 'rot',
  damp: 'damp sand',
  sprouts: 'sprouts',
  weevils: 'weevils',
  nothing: 'nothing wrong',
};

const COUNTED: Readonly<Record<RootCount, string>> = {
  rotten: 'rotten',
  weevil: 'with weevils',
  rodent: 'gnawed by rats or mice',
  termite: 'eaten by termites',
  sproutsShort: 'with short sprouts',
  sproutsLong: 'with long sprouts',
};

/** `Opened and packed anew by A. Keeper: rot found. Of 50 roots looked at, 2 rotten.` */
export function inspectionSentence(look: Inspection): string {
  const { opened, repacked, by, found, looked } = look;
  const did = repacked ? 'Opened and packed anew' : opened ? 'Opened' : 'Looked at without opening';
  const what = found.map((finding) => FOUND[finding]).join(', ');
  const counted = ROOT_COUNTS.flatMap((name) =>
    (look[name] ?? 0) > 0 ? [`${look[name]} ${COUNTED[name]}`] : [],
  );
  const roots =
    looked === undefined || looked === 0
      ? ''
      : ` Of ${count(looked)} looked at, ${counted.length > 0 ? counted.join(', ') : 'none had anything wrong'}.`;
  return `${ended(`${did} by ${by}: ${what} found`)}${roots}`;
}

const OUT: Readonly<Record<StockOutReason, string>> = {
  eaten: 'taken out to be eaten',
  sold: 'taken out and sold',
  seed: 'taken out for seed',
  fed: 'taken out and fed to animals',
  thrown: 'taken out and thrown away',
  missing: 'found missing',
};

/** `20 roots (6 kg) taken out and sold, written down by A. Keeper.` */
export function stockOutSentence({ roots, mass_kg, reason, by }: StockOut): string {
  return ended(`${count(roots)}${mass(mass_kg)} ${OUT[reason]}, written down by ${by}`);
}

const UNIT = { temperature: '°C', humidity: '%RH' } as const;

/** `p02: temperature calibrated by A. Technician. It had shown 0.31 °C too much.` */
export function calibrationSentence({ probe, quantity, by, asFound }: Calibration): string {
  const { largest, exceeds } = asFound;
  const size = `${brief(Math.abs(largest), 2)} ${UNIT[quantity]}`;
  const off = `It had shown up to ${size} too ${largest < 0 ? 'little' : 'much'}`;
  const beyond = exceeds ? ', more than it may: readings since the calibration before are doubted' : '';
  return `${ended(`${probe}: ${quantity} calibrated by ${by}`)} ${off}${beyond}.`;
}

/** @param moved whether it stood elsewhere in the bed before */
export function placedSentence(probe: string, { x, y, depth }: BedPlacement, moved: boolean): string {
  const where = `${brief(depth)} cm deep, ${brief(x)} cm along and ${brief(y)} cm across from the north-west corner`;
  return `${probe} ${moved ? 'moved' : 'put in'}: ${where}.`;
}

export const takenOutSentence = (probe: string): string => `${probe} taken out of the bed.`;

export const overrideEventSentence = ({ by, reason, verdict }: OverrideRecord): string =>
  ended(
    `${by} had the bed filled though it was ${verdict === 'unknown' ? 'not known to be ready' : 'not ready'}: ${reason}`,
  );
