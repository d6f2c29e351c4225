/**
 * The one number that stands for a bed in a trial, from what was looked up, taken out and measured. Where it cannot be told it
 * is said why, and the bed is left out: a gap is never a nought.
 */
import { type Ledger, type LossLook, survivalOf } from '../keeping/index.js';
import type { Inspection } from '../model/inspection.js';
import { DAY_ms } from '../model/time.js';
import type { Outcome, OutcomeKind } from '../model/trial.js';

/** All that is at rest of a bed of a trial, from its filling to the end of the trial. */
export interface BedMaterial {
  readonly bed: string;
  /** ms. */
  readonly filledAt: number;
  /** Roots and mass that went in at the filling; null where not written down or weighed. */
  readonly roots: number | null;
  readonly mass_kg: number | null;
  readonly ledger: Ledger;
  readonly inspections: readonly Inspection[];
  readonly looks: readonly LossLook[];
  /** Highest excess of its probes by day, in order; the start of the day, ms. */
  readonly excess: readonly { readonly at: number; readonly excess_C: number }[];
}

export const OUTCOME_WORDS: Readonly<
  Record<OutcomeKind, { readonly name: string; readonly unit: string; readonly better: 'low' | 'high' }>
> = {
  loss: { name: 'share of the roots lost', unit: '%', better: 'low' },
  'first-rot': { name: 'days until rot was first found', unit: 'days', better: 'high' },
  'sound-mass': { name: 'sound mass, of the mass that went in', unit: '%', better: 'high' },
  'highest-excess': { name: 'highest excess of the sand', unit: '°C', better: 'low' },
  sprouted: { name: 'share of the roots looked at that had sprouted', unit: '%', better: 'low' },
};

/** A number with the day that it is of, or why there is none. */
export type BedOutcome =
  | { readonly bed: string; readonly value: number; readonly day: number; readonly reached: boolean }
  | { readonly bed: string; readonly missing: string };

/** A look counts for a day that is no further off than a tenth of it, or a week. Judgement. */
const windowOf = (day: number): number => Math.max(7, 0.1 * day);

/** Of the days asked for, so many must have been measured. Judgement. */
const MEASURED_SHARE = 0.5;

export function outcomeOf({ kind, day }: Outcome, material: BedMaterial): BedOutcome {
  switch (kind) {
    case 'loss':
      return lossAt(day, material);
    case 'sound-mass':
      return soundMassAt(day, material);
    case 'sprouted':
      return sproutedAt(day, material);
    case 'highest-excess':
      return highestExcess(day, material);
    case 'first-rot':
      return firstRot(day, material);
  }
}

const dayOf = ({ filledAt }: BedMaterial, at: number): number => (at - filledAt) / DAY_ms;

/** Of several within reach the one nearest to the day. */
function nearest<Look extends { readonly at: number }>(
  day: number,
  material: BedMaterial,
  looks: readonly Look[],
): Look | undefined {
  return looks
    .map((look) => ({ look, off: Math.abs(dayOf(material, look.at) - day) }))
    .filter(({ off }) => off <= windowOf(day))
    .sort((one, other) => one.off - other.off)[0]?.look;
}

const noLook = (day: number, what: string): string =>
  `expected a look ${what} from day ${Math.ceil(Math.max(1, day - windowOf(day)))} to ${Math.floor(day + windowOf(day))}, got none`;

function lossAt(day: number, material: BedMaterial): BedOutcome {
  const { bed, filledAt, looks } = material;
  const look = nearest(day, material, looks);
  if (!look) return { bed, missing: noLook(day, 'at which lost roots were counted') };
  const step = survivalOf(filledAt, looks).find(({ time }) => time === (look.at - filledAt) / DAY_ms);
  return { bed, value: 100 * (1 - (step?.survival ?? 1)), day: dayOf(material, look.at), reached: true };
}

const USES: readonly string[] = ['eaten', 'sold', 'seed'];

function soundMassAt(day: number, material: BedMaterial): BedOutcome {
  const { bed, roots, mass_kg, ledger } = material;
  if (roots === null || mass_kg === null)
    return { bed, missing: 'expected the roots and the mass that went in, got them not written down' };
  const loss = lossAt(day, material);
  if ('missing' in loss) return loss;
  const weighed = ledger.entries.filter(
    (entry) =>
      entry.kind === 'out' &&
      USES.includes(entry.reason) &&
      entry.mass_kg !== undefined &&
      Math.abs(dayOf(material, entry.at) - day) <= windowOf(day),
  );
  if (weighed.length === 0)
    return { bed, missing: `expected sound roots weighed as they came out about day ${day}, got none` };
  const now_kg =
    weighed.reduce((sum, entry) => sum + (entry.mass_kg as number), 0) /
    weighed.reduce((sum, entry) => sum + entry.roots, 0);
  return { ...loss, value: ((100 - loss.value) * now_kg) / (mass_kg / roots) };
}

function sproutedAt(day: number, material: BedMaterial): BedOutcome {
  const { bed, inspections } = material;
  const counted = inspections.filter(
    ({ looked = 0, sproutsShort, sproutsLong }) =>
      looked > 0 && (sproutsShort !== undefined || sproutsLong !== undefined),
  );
  const look = nearest(day, material, counted);
  if (!look) return { bed, missing: noLook(day, 'at which sprouted roots were counted') };
  const { looked = 1, sproutsShort = 0, sproutsLong = 0 } = look;
  const sprouted = Math.min(looked, sproutsShort + sproutsLong);
  return { bed, value: (100 * sprouted) / looked, day: dayOf(material, look.at), reached: true };
}

function highestExcess(day: number, material: BedMaterial): BedOutcome {
  const { bed, filledAt, excess } = material;
  const days = excess.filter(({ at }) => at >= filledAt - DAY_ms && at < filledAt + day * DAY_ms);
  if (!(days.length >= MEASURED_SHARE * day))
    return {
      bed,
      missing: `expected its excess of at least ${Math.ceil(MEASURED_SHARE * day)} of the ${day} days, got ${days.length}`,
    };
  return { bed, value: Math.max(...days.map(({ excess_C }) => excess_C)), day, reached: true };
}

/** Found within the days, or not found by the last look that opened the bed. */
function firstRot(day: number, material: BedMaterial): BedOutcome {
  const { bed, filledAt, inspections } = material;
  const opened = inspections.filter(({ opened: was, at }) => was && at <= filledAt + day * DAY_ms);
  const rot = opened.find(({ found, rotten = 0 }) => found.includes('rot') || rotten > 0);
  const last = rot ?? opened.at(-1);
  if (!last) return { bed, missing: `expected a look that opened the bed by day ${day}, got none` };
  return { bed, value: dayOf(material, last.at), day: dayOf(material, last.at), reached: rot !== undefined };
}
