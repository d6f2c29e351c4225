/**
 * Stock entries that follow from what else was written down: roots went in with a filling and came out at an
 * inspection. Their ids follow from the record's, so that a record that is sent twice moves no root twice.
 */
import { type Filling, massFilled_kg, rootsFilled } from '../model/filling.js';
import type { Inspection } from '../model/inspection.js';
import type { CounterEntry, StockEntry } from '../model/stock.js';
import { type Ledger, movementsOf } from './stock.js';

/** A UUID that follows from a record's id and the name of a part of it, always the same. */
export type DerivedId = (record: string, part: string) => string;

/** What a filling put into the bed, with its mass, kg, where that is known. */
export function entryOfFilling(filling: Filling, derivedId: DerivedId): StockEntry {
  const { id, bed, at, by } = filling;
  const mass_kg = massFilled_kg(filling);
  return {
    ...{ id: derivedId(id, 'in'), bed, at, by, kind: 'in', reason: 'filled', roots: rootsFilled(filling) },
    ...(mass_kg !== undefined && { mass_kg }),
  };
}

/**
 * Takes back what is left of the entry of a filling that another one supersedes.
 *
 * @returns undefined where nothing of it is left
 */
export function counterOfSuperseded(
  ledger: Ledger,
  superseded: Filling,
  by: Filling,
  derivedId: DerivedId,
): CounterEntry | undefined {
  const of = derivedId(superseded.id, 'in');
  const movement = movementsOf(ledger).find(({ id }) => id === of);
  if (!movement) return undefined;
  const { roots, mass_kg } = movement;
  return {
    ...{ id: derivedId(by.id, 'counter'), bed: by.bed, at: Math.max(by.at, superseded.at), by: by.by },
    ...{ kind: 'counter', of, roots, reason: 'the filling was written down wrongly, another took its place' },
    ...(mass_kg !== null && mass_kg > 0 && { mass_kg }),
  };
}

/** What an inspection took out, an entry for each reason in its order. */
export const entriesOfInspection = (inspection: Inspection, derivedId: DerivedId): StockEntry[] => {
  const { id, bed, at, by, out = [] } = inspection;
  return out.map(({ reason, roots }, index) => ({
    ...{ id: derivedId(id, `out/${index}`), bed, at, by, kind: 'out', reason, roots },
  }));
};

/**
 * Of entries that follow from inspections those that a ledger can count: a bed whose stock is not kept, or was not by
 * then, has nothing that they could be taken from. They count once it is written down what had gone in before.
 */
export function countable(following: readonly StockEntry[], ledger: readonly StockEntry[]): StockEntry[] {
  const begin = Math.min(...ledger.filter(({ kind }) => kind === 'in').map(({ at }) => at));
  return following.filter(({ at }) => at >= begin);
}
