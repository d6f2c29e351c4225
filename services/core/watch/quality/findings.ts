/** What the end of an hour says of each fault. */

import { HOUR_ms } from '../../model/time.js';
import { FLAGGED_QUANTITIES, type FlaggedQuantity } from '../flag.js';
import type { Finding } from './faults.js';
import type { Gathered } from './judge-value.js';
import { LIMITS, QUALITY } from './limits.js';
import { noiseOf } from './scatter.js';
import { establishedSince } from './signs.js';
import type { QualityState } from './state.js';

/** What an hour of one quantity showed. */
export type Shown = Pick<Gathered, 'coded' | 'spiked' | 'stuckSince'>;

function codes(state: QualityState, quantity: FlaggedQuantity, now: number, { coded }: Shown): Finding {
  // A humidity sensor that gives nothing but codes is dead: told once, under that name.
  const dead = quantity === 'humidity' && state.humidityCodes_h > 1;
  const since = establishedSince(state[quantity].codes, now, QUALITY.codesWithin_h);
  return { kind: 'sensor-code', quantity, shown: coded, since: dead ? undefined : since };
}

function noise(state: QualityState, quantity: FlaggedQuantity, now: number, { spiked }: Shown): Finding {
  const { hours, established, lasting } = noiseOf(state[quantity], LIMITS[state.place][quantity]);
  const spiking = spiked
    ? establishedSince(state[quantity].spikes, now, QUALITY.spikesWithin_h, QUALITY.spikeSigns[state.place])
    : undefined;
  return {
    kind: 'noisy',
    quantity,
    shown: spiked || lasting,
    since: established ? now - hours * HOUR_ms : spiking,
  };
}

function deadHumidity({ full, humidityCodes_h }: QualityState, now: number): Finding {
  const codesOnly = humidityCodes_h >= QUALITY.codesOnly_h;
  const codesSince = codesOnly ? now - humidityCodes_h * HOUR_ms : undefined;
  return {
    kind: 'dead-humidity',
    quantity: 'humidity',
    shown: humidityCodes_h > 0 || full?.dead === true,
    since: full?.dead ? full.at : codesSince,
  };
}

function silence({ silent_h, lastAt }: QualityState): Finding {
  const silent = silent_h >= QUALITY.silent_h;
  return { kind: 'silent', quantity: null, shown: silent, since: silent ? lastAt : undefined };
}

function clock({ clock: { signs } }: QualityState, now: number): Finding {
  return {
    kind: 'clock',
    quantity: null,
    shown: (signs.at(-1) ?? Number.NEGATIVE_INFINITY) >= now - HOUR_ms,
    since: establishedSince(signs, now, QUALITY.clockWithin_h),
  };
}

function stuck(quantity: FlaggedQuantity, { stuckSince }: Shown): Finding {
  return { kind: 'stuck', quantity, shown: stuckSince !== undefined, since: stuckSince };
}

/** All findings of an hour that ends now. */
export function findingsOf(
  state: QualityState,
  now: number,
  shown: Readonly<Record<FlaggedQuantity, Shown>>,
): Finding[] {
  return [
    ...FLAGGED_QUANTITIES.flatMap((quantity) => [
      stuck(quantity, shown[quantity]),
      codes(state, quantity, now, shown[quantity]),
      noise(state, quantity, now, shown[quantity]),
    ]),
    deadHumidity(state, now),
    clock(state, now),
    silence(state),
  ];
}
