/** A bed of the short simulated season through the watch, hour by hour. */
import { checkSiteFile } from '../../../services/core/model/site-file.js';
import { thresholdsInForce } from '../../../services/core/model/threshold.js';
import { HOUR_ms, hourOf } from '../../../services/core/model/time.js';
import { sandWatch } from '../../../services/core/watch/sand-watch.js';
import type { BedHour, Change, Sample, WatchedBed } from '../../../services/core/watch/watch.js';
import { type Message, makeSeason, type SeasonOptions, SHORT_SEASON } from '../../support/season.js';

export interface BedSeason {
  readonly watched: WatchedBed;
  readonly hours: readonly BedHour[];
  readonly startAt: number;
}

export function bedSeason(
  options: SeasonOptions = SHORT_SEASON,
  change: (probe: string, sample: Sample) => Sample | undefined = (_, sample) => sample,
): BedSeason {
  const { site, messages } = makeSeason(options);
  const { beds, probes } = checkSiteFile('season', site);
  const [bed] = beds;
  if (!bed) throw new Error('the season has a bed');
  const placements = new Map(
    probes.flatMap(({ id, placements: own }) => {
      const here = own.flatMap((placement) => (placement.ambient ? [] : [placement]));
      return here.length > 0 ? [[id, here] as const] : [];
    }),
  );
  const byHour = new Map<number, Map<string, Sample[]>>();
  for (const message of messages) addMessage(byHour, message, change);
  const hours: BedHour[] = [];
  const last = Math.max(...byHour.keys());
  for (let hour = hourOf(options.startAt); hour <= last; hour += HOUR_ms) {
    const all = byHour.get(hour) ?? new Map<string, Sample[]>();
    hours.push({
      hour,
      probes: new Map([...all].filter(([id]) => placements.has(id))),
      shade: new Map([...all].filter(([id]) => !placements.has(id))),
      inspections: [],
    });
  }
  return { watched: { bed, thresholds: thresholdsInForce(), placements }, hours, startAt: options.startAt };
}

function addMessage(
  byHour: Map<number, Map<string, Sample[]>>,
  { topic, payload }: Message,
  change: (probe: string, sample: Sample) => Sample | undefined,
): void {
  const probe = topic.split('/')[4] ?? '';
  const [temperature, humidity] = JSON.parse(payload) as { bt?: number; v: number }[];
  const at = Math.round((temperature?.bt ?? 0) * 1000);
  const sample = change(probe, { at, temperature: temperature?.v ?? 0, humidity: humidity?.v ?? 0 });
  if (!sample) return;
  const hour = byHour.get(hourOf(at)) ?? new Map<string, Sample[]>();
  byHour.set(hourOf(at), hour);
  hour.set(probe, [...(hour.get(probe) ?? []), sample]);
}

export type DayChange = Change & { readonly day: number };

/** All changes, with the day since filling at which they were established. */
export function runSeason(
  { watched, hours, startAt }: BedSeason,
  watch = sandWatch.open(watched),
): DayChange[] {
  return hours.flatMap((hour) =>
    watch
      .step(hour)
      .changes.map((change) => ({ ...change, day: (hour.hour + HOUR_ms - startAt) / 86_400_000 })),
  );
}
