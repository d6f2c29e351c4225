/**
 * Damp by temperature alone: damp sand conducts several times better than dry sand, so that more of the daily swing
 * arrives at a probe, and sooner. Also an air gap, sand taken off the top or a probe that moved does this: it asks
 * for a look, never for unpacking.
 */
import { DAY_ms, HOUR_ms } from '../../model/time.js';
import { type CoveredBed, cover_cm } from './cover.js';
import { amplitude_C, type DailyWave, waveFit } from './daily-wave.js';
import { type Against, nextHold } from './hold.js';
import { DAMPNESS } from './parameters.js';
import type { DampnessState, DampProbeState, SwingState } from './state.js';
import { judgeSwing, type LearnedWay, type SwingJudgement, type SwingPlace } from './swing-reading.js';
import { type Beside, NOTHING_BESIDE, type Way, wayBetween } from './swing-way.js';
import type { DampnessHour, DampnessProbe } from './types.js';

interface Wave {
  readonly probe: DampnessProbe;
  readonly wave: DailyWave;
}

/** A reference that a probe is compared with. */
interface Reference extends SwingPlace {
  readonly wave: DailyWave;
  readonly beside: Beside;
}

/**
 * Fits the daily wave anew where it is time, and counts the hour.
 *
 * @param end end of the hour, ms
 */
export function stepSwing(state: DampnessState, hour: DampnessHour, end: number): void {
  const { probes } = hour;
  if (end % (DAMPNESS.fitEvery_h * HOUR_ms) === 0) fitAll(state, hour, end);
  for (const { id } of probes) {
    const probe = state.probes[id];
    if (probe) probe.swing.damp = nextHold(probe.swing.damp, againstOf(probe), RULE, end);
  }
}

const RULE = { hold_h: DAMPNESS.swing_h, clear_h: DAMPNESS.swingClear_h, dip_h: DAMPNESS.fitEvery_h };

/**
 * Where the pore air is known to be dry, a larger swing has another reason. What one reference asked for is over
 * only when that one says so: another may not see the same sand.
 */
function againstOf({ swing, humidity }: DampProbeState): Against | undefined {
  if (humidity.level_RH !== null && humidity.level_RH < DAMPNESS.dryAir_RH)
    return { above: false, gone: true };
  if (swing.reading === null) return undefined;
  if (swing.asks) return { above: true, gone: false };
  if (swing.asked === null) return { above: false, gone: true };
  return swing.again === null ? undefined : { above: false, gone: swing.again < DAMPNESS.unlikely };
}

function fitAll(state: DampnessState, { bed, probes, thresholds }: DampnessHour, end: number): void {
  const waveIn = waveFit(end);
  const shade = waveIn(state.shade);
  const waves = probes.flatMap((probe): Wave[] => {
    const wave = waveIn(state.probes[probe.id]?.swing.hours ?? []);
    return wave ? [{ probe, wave }] : [];
  });
  const top = shallowestOf(waves);
  for (const probe of probes) {
    const probeState = state.probes[probe.id];
    if (!probeState) continue;
    const wave = waves.find((known) => known.probe === probe)?.wave;
    const references = [againstShade(bed, probe, shade), againstTop(bed, probe, top)].filter(
      (one) => one !== undefined,
    );
    const age_days = (end - Math.max(state.packedAt, state.openedAt ?? 0, probeState.since)) / DAY_ms;
    judgeProbe(probeState.swing, wave, references, age_days, thresholds.damp_swing_share);
  }
}

const swings = (wave: DailyWave): boolean => amplitude_C(wave) >= DAMPNESS.referenceAmplitude_C;

/** Only days on which it swings enough outside tell something. */
function againstShade(
  bed: CoveredBed,
  probe: DampnessProbe,
  wave: DailyWave | undefined,
): Reference | undefined {
  const distance_m = cover_cm(bed, probe) / 100;
  if (!wave || !swings(wave) || !(distance_m > 0)) return undefined;
  return { wave, beside: DAMPNESS.beside[bed.kind], via: 'shade', distance_m, depth_cm: probe.depth };
}

/** Between two depths of a pit the wave goes down; in a box it comes from all sides. */
function againstTop(bed: CoveredBed, { depth }: DampnessProbe, top: Wave | undefined): Reference | undefined {
  if (bed.kind === 'box' || !top || !(depth - top.probe.depth >= DAMPNESS.pairLeast_cm)) return undefined;
  const distance_m = (depth - top.probe.depth) / 100;
  return { wave: top.wave, beside: NOTHING_BESIDE, via: top.probe.id, distance_m, depth_cm: depth };
}

/** The shallowest probe, of equal ones the first by id. */
function shallowestOf(waves: readonly Wave[]): Wave | undefined {
  return [...waves].sort(
    (one, other) => one.probe.depth - other.probe.depth || (one.probe.id < other.probe.id ? -1 : 1),
  )[0];
}

function judgeProbe(
  swing: SwingState,
  wave: DailyWave | undefined,
  references: readonly Reference[],
  age_days: number,
  shareThreshold: number,
): void {
  const judged = references.flatMap((reference) => {
    const way = wave && wayBetween(reference.wave, wave, reference.beside);
    const judgement = way && judgeSwing(way, reference, learnedOf(swing, reference.via), shareThreshold);
    return way && judgement ? [{ reference, way, judgement }] : [];
  });
  const readings = judged.map(({ judgement }) => judgement.reading);
  swing.reading = leastUncertain(readings);
  const asking = judged.filter(({ judgement }) => judgement.asks).map(({ judgement }) => judgement.reading);
  swing.asks = asking.length > 0;
  if (swing.asks) swing.asked = leastUncertain(asking);
  swing.again = readings.find(({ via }) => via === swing.asked?.via)?.dampProbability ?? null;
  for (const { reference, way, judgement } of judged)
    if (!judgement.asks) learn(swing, reference.via, way, age_days);
}

/** A measurement before a bound, then the one that is known best. */
function leastUncertain(readings: readonly SwingJudgement['reading'][]): SwingState['reading'] {
  const [best] = [...readings].sort(
    (one, other) =>
      Number(one.atMost) - Number(other.atMost) || one.uncertaintyFactor - other.uncertaintyFactor,
  );
  return best ?? null;
}

function learnedOf({ learned }: SwingState, via: string): LearnedWay | undefined {
  const known = learned.find((one) => one.via === via);
  if (!known || !(known.fits >= DAMPNESS.learnedFitsLeast)) return undefined;
  return { way: known.way / known.fits, share: known.share / known.fits };
}

/** Adds a fit to what is learned, while it is the time for it; another top probe begins anew. */
function learn(swing: SwingState, via: string, { way, share }: Way, age_days: number): void {
  if (!(age_days >= DAMPNESS.wave_h / 24 && age_days <= DAMPNESS.learnedFitsUntil_days)) return;
  const known = swing.learned.find((one) => one.via === via);
  if (known && known.fits >= DAMPNESS.learnedFitsMost) return;
  const others = swing.learned.filter((one) => (one.via === 'shade') !== (via === 'shade'));
  const sums = known ?? { fits: 0, way: 0, share: 0 };
  const next = { via, fits: sums.fits + 1, way: sums.way + way, share: sums.share + share };
  swing.learned = [...others, next].sort((one, other) => (one.via < other.via ? -1 : 1));
}
