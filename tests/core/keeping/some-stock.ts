/** Made-up entries of one bed, with the shortest ids that are UUIDs. */
import type { StockEntry } from '../../../services/core/model/stock.js';
import { DAY_ms } from '../../../services/core/model/time.js';

export const FILLED = Date.parse('2026-05-04T08:00:00Z');
export const dayOf = (days: number): number => FILLED + days * DAY_ms;
export const idOf = (number: number): string => `00000000-0000-4000-8000-${String(number).padStart(12, '0')}`;

const common = (number: number, day: number, roots: number) =>
  ({ id: idOf(number), bed: 'pit-a', at: dayOf(day), roots, by: 'Wanja' }) as const;

type Out = Extract<StockEntry, { kind: 'out' }>['reason'];

export const filled = (number: number, day: number, roots: number, mass_kg?: number): StockEntry =>
  Object.freeze({
    ...common(number, day, roots),
    kind: 'in',
    reason: 'filled',
    ...(mass_kg !== undefined && { mass_kg }),
  });

export const out = (
  number: number,
  day: number,
  roots: number,
  reason: Out = 'eaten',
  mass_kg?: number,
): StockEntry =>
  Object.freeze({
    ...common(number, day, roots),
    kind: 'out',
    reason,
    ...(mass_kg !== undefined && { mass_kg }),
  });

export const counter = (
  number: number,
  day: number,
  roots: number,
  of: number,
  mass_kg?: number,
): StockEntry =>
  Object.freeze({
    ...common(number, day, roots),
    kind: 'counter',
    reason: 'miscounted',
    of: idOf(of),
    ...(mass_kg !== undefined && { mass_kg }),
  });
