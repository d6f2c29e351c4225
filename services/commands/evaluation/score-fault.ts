/** Whether a planted fault of a probe was recognised, and whether it was told as rot. */
import { isSound, type RotSpan } from './presence.js';
import type { Fault } from './season.js';
import { isHeating, type Told } from './told.js';

/**
 * Days within which a fault is to be told. A drift, of temperature or humidity, may take longer; so may spikes: of
 * readings every half an hour one in 200 is one every four days.
 */
const TOLD_days = { drift: 21, spikes: 7, other: 3 } as const;
const SLOW: readonly string[] = ['drift', 'humidity-creep'];

const toldWithin_days = (fault: string): number =>
  SLOW.includes(fault) ? TOLD_days.drift : fault === 'spikes' ? TOLD_days.spikes : TOLD_days.other;
/** What a fault leaves behind in the readings: so long after its end a call to unpack is still put down to it, days. */
const LINGERS_days = 3;

/**
 * A clock that is set back makes readings of before the fault, and so does the alarm that they raise: by so many days
 * at the most, as seasons for evaluation have it.
 */
const SET_BACK_days = 6;

/** Event time from which a fault can show, days. */
const showsFrom = ({ fault, startDay }: Fault): number =>
  fault === 'clock-jump' ? startDay - SET_BACK_days : startDay;

export interface FaultScore {
  readonly fault: string;
  readonly probe: string;
  readonly recognised: boolean;
  /** Whether a sound bed was to be unpacked on this probe's word while it lasted. */
  readonly toldAsRot: boolean;
}

const isAboutProbe = ({ kind, subject }: Told, probe: string): boolean =>
  (kind === 'probe-fault' || kind === 'probe-silent') && subject === probe;

/** @param faults all of the bed, this one too: an alarm of an earlier fault that is still open tells this one as well */
export function scoreFault(
  fault: Fault,
  faults: readonly Fault[],
  told: readonly Told[],
  rots: readonly RotSpan[],
): FaultScore {
  const { probe, startDay } = fault;
  const until = startDay + toldWithin_days(fault.fault);
  const stillOpen = (alarm: Told): boolean =>
    (alarm.endDay ?? Number.POSITIVE_INFINITY) > startDay &&
    faults.some((other) => other.probe === probe && showsFrom(other) <= alarm.day);
  const recognised = told.some(
    (alarm) =>
      isAboutProbe(alarm, probe) && alarm.day <= until && (alarm.day >= showsFrom(fault) || stillOpen(alarm)),
  );
  const toldAsRot = told.some((alarm) => alarm.named.includes(probe) && isCallInFault(alarm, fault, rots));
  return { fault: fault.fault, probe, recognised, toldAsRot };
}

const isCallInFault = (alarm: Told, { startDay, endDay }: Fault, rots: readonly RotSpan[]): boolean =>
  isHeating(alarm, 'unpack') &&
  alarm.day >= startDay &&
  alarm.day <= (endDay ?? Number.POSITIVE_INFINITY) + LINGERS_days &&
  isSound(rots, alarm.day);

/** Calls to unpack a sound bed while any of its probes failed, on whichever probe's word. */
export const callsInFaults = (
  faults: readonly Fault[],
  told: readonly Told[],
  rots: readonly RotSpan[],
): number => told.filter((alarm) => faults.some((fault) => isCallInFault(alarm, fault, rots))).length;

/** Alarms of a probe's fault or silence while nothing planted was wrong with it, or had been shortly before. */
export const falseFaults = (faults: readonly Fault[], told: readonly Told[]): number =>
  told.filter(
    (alarm) =>
      isAboutProbe(alarm, alarm.subject) &&
      !faults.some(
        (fault) =>
          fault.probe === alarm.subject &&
          alarm.day >= showsFrom(fault) &&
          alarm.day <= (fault.endDay ?? Number.POSITIVE_INFINITY) + TOLD_days.drift,
      ),
  ).length;
