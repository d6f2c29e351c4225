/** What the probes of a bed say for its readiness. */
import type { ProbeHour, ReadinessProbe } from '../core/keeping/index.js';
import { CALIBRATED_QUANTITIES } from '../core/model/calibration.js';
import type { HandAnswers } from '../core/model/readiness.js';
import { type KnownBed, type KnownProbe, type Stay, staysInBed, staysInShade } from './directory.js';
import { filledBy } from './known-bed.js';
import { type HourSpan, meanHours, probeHours, wholeHours } from './probe-hours.js';
import type { Station } from './station.js';

const TWO_DAYS_h = 48;

const stands = (at: number) => (stay: Stay) => stay.from <= at && stay.to > at;

/**
 * Probes that stand in the bed at a time, and the shade's hours. In a box, in a pit that was filled, and where a hand
 * said so they lie in sand; else in the air of the open pit.
 *
 * @param at event time, ms
 */
export function readinessProbes(station: Station, known: KnownBed, at: number, answers: HandAnswers) {
  const span = wholeHours(at, TWO_DAYS_h);
  const inSand = known.bed.kind === 'box' || filledBy(station, known, at) !== undefined;
  const probes = known.probes.flatMap((probe): ReadinessProbe[] => {
    const stay = staysInBed(probe, known.bed.id).find(stands(at));
    if (!stay?.placement) return [];
    return [
      {
        id: probe.probe.id,
        lies: inSand || answers.probesInSand?.includes(probe.probe.id) ? 'sand' : 'open pit',
        depth_cm: stay.placement.depth,
        hours: probeHours(station, known.bed.id, probe, [stay], span),
        lastHeardAt: station.archive.readings.lastTime(probe.key, at + 1) ?? null,
        calibratedAt: calibratedAt(station, probe, at),
      },
    ];
  });
  return { probes, shade: shadeOf(station, known, at, span) };
}

function shadeOf(station: Station, known: KnownBed, at: number, span: HourSpan): ProbeHour[] | undefined {
  const inShade = known.shade.filter((probe) => staysInShade(probe).some(stands(at)));
  if (inShade.length === 0) return undefined;
  return meanHours(
    inShade.map((probe) => probeHours(station, known.bed.id, probe, staysInShade(probe), span)),
  );
}

/** Of each quantity in its last readings: when it was calibrated. */
function calibratedAt(station: Station, probe: KnownProbe, at: number): ReadinessProbe['calibratedAt'] {
  const latest = station.archive.readings.latest(probe.key);
  return Object.fromEntries(
    CALIBRATED_QUANTITIES.filter((quantity) => latest?.[quantity] != null).map((quantity) => [
      quantity,
      station.calibrations.inForce(probe.site, probe.probe.id, quantity, at)?.doneAt ?? null,
    ]),
  );
}
