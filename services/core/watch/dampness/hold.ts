/**
 * A condition that must hold for a time before it stands, and be gone for a time before it is over. A short dip does
 * not break off what is developing; an hour without data leaves it as it is, a long silence ends what is developing.
 */
import { z } from 'zod';
import { DAMPNESS } from './parameters.js';

const count = z.number().int().nonnegative();

export const holdSchema = z.object({
  /** Event time at which it was established, ms; null while it does not stand. */
  since: z.number().nullable(),
  above_h: count,
  dip_h: count,
  gone_h: count,
  gap_h: count,
});

export type Hold = Readonly<z.output<typeof holdSchema>>;

export const AT_REST: Hold = { since: null, above_h: 0, dip_h: 0, gone_h: 0, gap_h: 0 };

/** How an hour lies to the condition: neither is a value between raising and clearing. */
export interface Against {
  readonly above: boolean;
  readonly gone: boolean;
}

export interface HoldRule {
  readonly hold_h: number;
  readonly clear_h: number;
  readonly dip_h: number;
}

/** Standing, or on its way to. */
export const isDeveloping = ({ since, above_h }: Hold): boolean => since !== null || above_h > 0;

/**
 * The condition after one more hour.
 *
 * @param against undefined for an hour without data
 * @param end end of the hour, ms
 */
export function nextHold(state: Hold, against: Against | undefined, rule: HoldRule, end: number): Hold {
  if (!against) return silent(state);
  const dip_h = against.above ? 0 : state.dip_h + 1;
  const above_h = against.above ? state.above_h + 1 : dip_h > rule.dip_h ? 0 : state.above_h;
  const gone_h = against.gone ? state.gone_h + 1 : 0;
  if (state.since !== null && gone_h >= rule.clear_h) return AT_REST;
  const since = state.since ?? (against.above && above_h >= rule.hold_h ? end : null);
  return { since, above_h, dip_h: Math.min(dip_h, rule.dip_h + 1), gone_h, gap_h: 0 };
}

function silent(state: Hold): Hold {
  const gap_h = state.gap_h + 1;
  if (gap_h <= DAMPNESS.gap_h) return { ...state, gap_h };
  return { ...AT_REST, since: state.since, gap_h };
}
