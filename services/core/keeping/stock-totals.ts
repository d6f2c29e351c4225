/** What went in and came out of a bed, by reason. */
import { IN_REASONS, type InReason, STOCK_OUT_REASONS, type StockOutReason } from '../model/stock.js';
import { type Ledger, type Movement, movementsOf } from './stock.js';

export interface StockTotal<Reason> {
  readonly reason: Reason;
  readonly roots: number;
  /** Null where a part of it was not weighed. */
  readonly mass_kg: number | null;
}

export interface StockTotals {
  /** Reasons that occurred, in the order of the model. */
  readonly in: readonly StockTotal<InReason>[];
  readonly out: readonly StockTotal<StockOutReason>[];
}

/** A span of event time, `from <= at < to`; without an end it is open there. ms. */
export interface Span {
  readonly from?: number;
  readonly to?: number;
}

export function stockTotals(
  ledger: Ledger,
  { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY }: Span = {},
): StockTotals {
  const movements = movementsOf(ledger).filter(({ at }) => at >= from && at < to);
  return { in: byReason(movements, IN_REASONS), out: byReason(movements, STOCK_OUT_REASONS) };
}

const byReason = <Reason extends string>(
  movements: readonly Movement[],
  reasons: readonly Reason[],
): StockTotal<Reason>[] =>
  reasons.flatMap((reason) => {
    const those = movements.filter((movement) => movement.reason === reason);
    return those.length === 0 ? [] : [{ reason, roots: rootsOf(those), mass_kg: massOf_kg(those) }];
  });

const rootsOf = (movements: readonly Movement[]): number =>
  movements.reduce((sum, { roots }) => sum + roots, 0);

const massOf_kg = (movements: readonly Movement[]): number | null =>
  movements.reduce<number | null>(
    (sum, { mass_kg }) => (sum === null || mass_kg === null ? null : sum + mass_kg),
    0,
  );

/**
 * Mass of a root as it went in, kg: the mean over what was weighed.
 *
 * @returns undefined where nothing was weighed. Roots lose mass while they are kept, and this does not say how much
 */
export function rootMass_kg(ledger: Ledger): number | undefined {
  const weighed = movementsOf(ledger).filter(
    ({ direction, mass_kg }) => direction === 'in' && mass_kg !== null,
  );
  const mass_kg = massOf_kg(weighed);
  return weighed.length === 0 || mass_kg === null ? undefined : mass_kg / rootsOf(weighed);
}
