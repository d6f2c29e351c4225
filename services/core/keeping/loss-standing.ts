/**
 * Which share of the roots is lost by each look, where a look sees a part of the bed.
 *
 * Once all roots were sorted, at the filling or a repacking, what was lost lies in the bed until it is found: a look at
 * some of the roots finds what was lost since then, not since the look before. So the shares found between two sortings
 * are no steps to be multiplied. They rise with time; where they do not, looks are pooled until they do (M. Ayer et al.
 * 1955, Ann. Math. Stat. 26, 641-647, from memory). From sorting to sorting what is left is multiplied.
 *
 * It holds where each look sees other roots. Where always the same are looked at, as at the top, it finds too little.
 */
import { DAY_ms } from '../model/time.js';
import { type LossCause, type LossLook, lostAt } from './loss-look.js';

/** Counts of one look, or of several that were pooled. */
export interface Pool {
  readonly looked: number;
  readonly lost: number;
  readonly byCause: Readonly<Record<LossCause, number>>;
}

/** From one sorting of all roots to the next. */
export interface LossRun {
  /** The sorting that it begins with, ms. */
  readonly from: number;
  /** Each with the pool that it lies in; the share of a pool is not below that of the one before. */
  readonly looks: readonly { readonly look: LossLook; readonly pool: Pool }[];
}

/** @param looks in order of time */
export function lossRuns(filledAt: number, looks: readonly LossLook[]): LossRun[] {
  const runs: { from: number; looks: LossLook[] }[] = [];
  let from = filledAt;
  let run: LossLook[] | undefined;
  for (const look of looks) {
    if (!run) {
      run = [];
      runs.push({ from, looks: run });
    }
    run.push(look);
    if (!look.sorted) continue;
    from = look.at;
    run = undefined;
  }
  return runs.map((one) => ({ from: one.from, looks: pooled(one.looks) }));
}

interface Group extends Pool {
  readonly looks: readonly LossLook[];
}

function pooled(looks: readonly LossLook[]): LossRun['looks'] {
  const groups: Group[] = [];
  for (const look of looks) {
    let group = groupOf(look);
    for (let last = groups.at(-1); last && isOneWith(last, group); last = groups.at(-1)) {
      groups.pop();
      group = together(last, group);
    }
    groups.push(group);
  }
  return groups.flatMap(({ looks: those, ...pool }) => those.map((look) => ({ look, pool })));
}

/** Looks of one day are one look. */
const isOneWith = (before: Group, group: Group): boolean =>
  shareOf(before) >= shareOf(group) || startOf(group) - endOf(before) < DAY_ms;

const startOf = ({ looks: [first] }: Group): number => first?.at ?? Number.NaN;
const endOf = ({ looks }: Group): number => looks.at(-1)?.at ?? Number.NaN;

const shareOf = ({ lost, looked }: Pool): number => lost / looked;

function groupOf(look: LossLook): Group {
  const { looked } = look;
  const byCause = causesBy((cause) => look.lost[cause] ?? 0);
  return { looked, lost: lostAt(look), byCause, looks: [look] };
}

const together = (one: Group, other: Group): Group => ({
  looked: one.looked + other.looked,
  lost: one.lost + other.lost,
  byCause: causesBy((cause) => one.byCause[cause] + other.byCause[cause]),
  looks: [...one.looks, ...other.looks],
});

const causesBy = (count: (cause: LossCause) => number): Record<LossCause, number> => ({
  rot: count('rot'),
  weevils: count('weevils'),
  rodents: count('rodents'),
  termites: count('termites'),
});
