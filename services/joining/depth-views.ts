/** Whether buried probes lie as deep as was said, by the readings of their first two days. */
import { SandlarderError } from '../core/errors.js';
import {
  cannotTell,
  type DepthJudgement,
  daySwing,
  judgeDepth,
  judgedInWords,
  type ProbeHour,
} from '../core/keeping/index.js';
import type { BuriedProbe } from '../core/model/filling.js';
import { HOUR_ms, hourOf } from '../core/model/time.js';
import type { DepthView } from '../http/index.js';
import { type KnownBed, staysInBed, staysInShade } from './directory.js';
import { type HourSpan, meanHours, probeHours } from './probe-hours.js';
import type { Station } from './station.js';

/** While the pit can still be opened without harm. */
const HOURS = 48;

/** °C by hour from the first of a span; null for an hour without. */
type Means = readonly (number | null)[];

/** @param since when it came to lie so, ms */
const spanFrom = (since: number): HourSpan => {
  const from = hourOf(since) + HOUR_ms;
  return { from, to: from + HOURS * HOUR_ms };
};

/**
 * Each buried probe of a filling, in order, with what its swing says.
 *
 * @param id of the filling
 * @throws SandlarderError NOT_FOUND for a filling that is not of the bed
 */
export function depthViews(station: Station, known: KnownBed, id: string): DepthView[] {
  const filling = station.registry.fillings.get(id);
  if (filling?.bed !== known.bed.id)
    throw new SandlarderError('NOT_FOUND', `no filling of bed "${known.bed.id}" has the id "${id}"`);
  const span = spanFrom(filling.at);
  const outside = shadeMeans(station, known, span);
  return filling.probes.map((buried) => depthView(station, known, buried, span, outside));
}

/**
 * Each probe that lies in the bed now, in order of id, by the two days since it was put there, since the bed was
 * filled, or since it was repacked, whichever came last.
 *
 * @param now wall clock, ms
 */
export function depthsNow(station: Station, known: KnownBed, now: number): DepthView[] {
  const { bed, probes } = known;
  const handledAt = handled(station, known, now);
  const outside = new Map<number, Means>();
  return probes.flatMap((probe): DepthView[] => {
    const stay = staysInBed(probe, bed.id).find(({ from, to }) => from <= now && now < to);
    if (!stay?.placement) return [];
    const { x, y, depth } = stay.placement;
    const buried = { probe: probe.probe.id, x, y, depth };
    const span = spanFrom(Math.max(stay.from, handledAt ?? 0));
    if (handledAt === undefined) return [viewOf(buried, span, notFilled, false)];
    const shade = outside.get(span.from) ?? shadeMeans(station, known, span);
    outside.set(span.from, shade);
    return [depthView(station, known, buried, span, shade)];
  });
}

const notFilled = cannotTell('the bed is not filled; the first day after it is will tell');

/** When sand was last put over its probes, ms; undefined for a bed that is not filled. */
function handled({ registry }: Station, { bed }: KnownBed, now: number): number | undefined {
  if (bed.filled === undefined || !(bed.filled <= now)) return undefined;
  const repacked = registry.inspections.between(bed.id, bed.filled, now).filter((look) => look.repacked);
  return repacked.at(-1)?.at ?? bed.filled;
}

/** Of all probes in the shade. */
function shadeMeans(station: Station, { bed, shade }: KnownBed, span: HourSpan): Means {
  const all = shade.map((probe) => probeHours(station, bed.id, probe, staysInShade(probe), span));
  return temperatures(meanHours(all), span);
}

function temperatures(hours: readonly ProbeHour[], { from }: HourSpan): Means {
  const means = new Map(hours.map(({ hour, temperature_C }) => [hour, temperature_C]));
  return Array.from({ length: HOURS }, (_, hour) => means.get(from + hour * HOUR_ms) ?? null);
}

function depthView(
  station: Station,
  known: KnownBed,
  buried: BuriedProbe,
  span: HourSpan,
  outside: Means,
): DepthView {
  const { bed, probes } = known;
  const probe = probes.find((one) => one.probe.id === buried.probe);
  const hours = probe ? probeHours(station, bed.id, probe, staysInBed(probe, bed.id), span) : [];
  const means = temperatures(hours, span);
  const isOver = means.at(-1) !== null || outside.at(-1) !== null;
  return viewOf(buried, span, judged(known, buried, outside, means), isOver);
}

const viewOf = (
  buried: BuriedProbe,
  { from, to }: HourSpan,
  judgement: DepthJudgement,
  isOver: boolean,
): DepthView => ({
  ...buried,
  judgement,
  ...{ judgedFrom: from, judgedTo: to },
  text: judgedInWords(buried.probe, judgement, isOver),
});

function judged({ bed, shade }: KnownBed, buried: BuriedProbe, outside: Means, means: Means): DepthJudgement {
  if (shade.length === 0)
    return cannotTell(
      'no probe stands in the shade outside, so that nobody knows how much the air there swings',
    );
  try {
    return judgeDepth(bed, buried, daySwing(outside), daySwing(means));
  } catch (error) {
    if (!(error instanceof SandlarderError && error.code === 'TOO_FEW_SAMPLES')) throw error;
    return cannotTell(tooFew(means, outside));
  }
}

const tooFew = (means: Means, outside: Means): string => {
  const count = (hours: Means): number => hours.filter((mean) => mean !== null).length;
  return `of the first ${HOURS} hours ${count(means)} have readings of the probe and ${count(outside)} of the shade outside; 20 over a day or more are needed of both`;
};
