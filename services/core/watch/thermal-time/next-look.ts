/**
 * When the bed must be looked into by hand: two weeks after it was opened or filled last, and sooner in a warm bed.
 *
 * - Warmth: half of the sprouting sum since the last look. So at least two looks fall into the time that sprouts need to
 *   show, whenever they began: at 28 °C every 9.8 days, at 25 °C every 12.3, below 23.6 °C never before the two weeks.
 * - Sprouting: the day on which the sum is reached, when sprouts are still short enough to be rubbed off.
 * - Weevils: the day on which four fifths of a species' sum are reached, before the first adults emerge from eggs.
 *
 * A look that fell in the last tenth before such a day was that look. Derived from the sums; no such rule is published.
 * Probes see neither sprouts nor weevils nor a single rotting root further than a hand's breadth: the look never lapses.
 */
import { requireInDomain } from '../../errors.js';
import { DAY_ms } from '../../model/time.js';
import { DEFAULT_SETTINGS, type Development, type ThermalTimeSettings } from './developments.js';
import { daysToCome } from './outlook.js';
import { type NextLook, nowOf, type ThermalTimeState } from './state.js';

/** Share of the sprouting sum from one look to the next. Judgement. */
const WARMTH_SHARE = 0.5;

/** Share of a sum within which an earlier look counts: some two days at 28 °C. Judgement. */
const EARLY_SHARE = 0.1;

/** The longest that a bed goes without a look, days, whatever is set. Common practice, no source. */
const LONGEST_days = 14;

/**
 * The next look: never later than `inspectEvery_days` after the last. One that has come due stays as it was until
 * the bed is opened.
 *
 * @throws SandlarderError OUT_OF_DOMAIN for settings that would let the two weeks lapse
 */
export function nextLook(
  state: ThermalTimeState,
  settings: ThermalTimeSettings = DEFAULT_SETTINGS,
): NextLook {
  requireInDomain('inspectEvery_days', settings.inspectEvery_days, 1, LONGEST_days);
  if (state.due) return state.due;
  const latest: NextLook = {
    dueAt: state.lookedAt + settings.inspectEvery_days * DAY_ms,
    because: 'two-weeks',
  };
  const looks = settings.developments.flatMap((development) => looksFor(state, development));
  return looks.reduce((first, look) => (look.dueAt < first.dueAt ? look : first), latest);
}

/** The looks that one development asks for. */
function looksFor(state: ThermalTimeState, development: Development): NextLook[] {
  const { sum_C_days, lookAtShare, kind } = development;
  const { atLook_C_days } = state.sums[development.name];
  const looks: (NextLook | undefined)[] = [];
  if (atLook_C_days < (lookAtShare - EARLY_SHARE) * sum_C_days)
    looks.push(lookAt(state, development, lookAtShare * sum_C_days, kind));
  if (kind === 'sprouting')
    looks.push(lookAt(state, development, atLook_C_days + WARMTH_SHARE * sum_C_days, 'warmth'));
  return looks.filter((look) => look !== undefined);
}

/** A look when the development's sum comes to so much; undefined where nobody knows when that will be. */
function lookAt(
  state: ThermalTimeState,
  development: Development,
  sum_C_days: number,
  because: NextLook['because'],
): NextLook | undefined {
  const missing = sum_C_days - state.sums[development.name].sum_C_days;
  const days = daysToCome(missing, development, state.warmth.daily_C ?? undefined);
  return days === undefined ? undefined : { dueAt: nowOf(state) + days * DAY_ms, because };
}
