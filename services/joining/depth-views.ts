/** Whether buried probes lie as deep as was said, by the readings of their first two days. */
import { SandlarderError } from '../core/errors.js';
import {
  type DepthJudgement,
  daySwing,
  expectedSwing,
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
  const from = hourOf(filling.at) + HOUR_ms;
  const span = { from, to: from + HOURS * HOUR_ms };
  const outside = shadeMeans(station, known, span);
  return filling.probes.map((buried) => {
    const judgement = judged(station, known, buried, outside, span);
    return { ...buried, judgement, text: judgedInWords(buried.probe, judgement) };
  });
}

/** Of all probes in the shade. */
function shadeMeans(station: Station, { bed, shade }: KnownBed, span: HourSpan): (number | null)[] {
  const all = shade.map((probe) => probeHours(station, bed.id, probe, staysInShade(probe), span));
  return temperatures(meanHours(all), span);
}

/** °C by hour from the first of the span; null for an hour without. */
function temperatures(hours: readonly ProbeHour[], { from }: HourSpan): (number | null)[] {
  const means = new Map(hours.map(({ hour, temperature_C }) => [hour, temperature_C]));
  return Array.from({ length: HOURS }, (_, hour) => means.get(from + hour * HOUR_ms) ?? null);
}

function judged(
  station: Station,
  { bed, probes }: KnownBed,
  { probe, depth }: BuriedProbe,
  outside: readonly (number | null)[],
  span: HourSpan,
): DepthJudgement {
  const known = probes.find((one) => one.probe.id === probe);
  const hours = known ? probeHours(station, bed.id, known, staysInBed(known, bed.id), span) : [];
  const means = temperatures(hours, span);
  try {
    return judgeDepth(expectedSwing(depth, bed.kind), daySwing(outside), daySwing(means));
  } catch (error) {
    if (!(error instanceof SandlarderError && error.code === 'TOO_FEW_SAMPLES')) throw error;
    return { verdict: 'cannot tell', share: null, lag_h: null, because: tooFew(means, outside) };
  }
}

const tooFew = (means: readonly (number | null)[], outside: readonly (number | null)[]): string => {
  const count = (hours: readonly (number | null)[]): number => hours.filter((mean) => mean !== null).length;
  return `of the first ${HOURS} hours ${count(means)} have readings of the probe and ${count(outside)} of the shade outside; 20 over a day or more are needed of both`;
};
