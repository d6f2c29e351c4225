/** `sandlarder calibrate try | finish`: what comes of a bench. */
import { SandlarderError } from '../../core/errors.js';
import type { BenchAnswer, CalibrationAnswer } from '../../http/index.js';
import { readNumber } from '../numbers.js';
import { onOutput as say } from '../say.js';
import { ServiceClient } from '../service-client.js';
import { benchPath, type ServiceFlags } from './bench.js';
import { leftOutOf } from './left-out.js';
import { calibrationLines } from './record-lines.js';

export interface FinishFlags extends ServiceFlags {
  readonly from?: string;
  readonly form?: string;
  readonly weighting?: string;
  readonly resolution?: string;
  readonly only?: readonly string[];
  readonly leaveOut?: readonly string[];
  readonly supersedes?: readonly string[];
  readonly close?: boolean;
}

/** Steps that a probe may have, °C or %RH. */
const STEP_MOST = 10;

export const resolutionOf = (text: string | undefined): number | undefined =>
  text === undefined ? undefined : readNumber('--resolution', text, 0, STEP_MOST);

const SUPERSEDED = /^([a-z0-9-]+)=(.+)$/;

function supersededOf(texts: readonly string[]): { probe: string; calibration: string }[] {
  return texts.map((text) => {
    const [, probe, calibration] = SUPERSEDED.exec(text) ?? [];
    if (probe === undefined || calibration === undefined)
      throw new SandlarderError(
        'WRONG_USAGE',
        `--supersedes: expected PROBE=CALIBRATION such as "p03=ID", got ${JSON.stringify(text)}`,
      );
    return { probe, calibration };
  });
}

export function finishBody(flags: FinishFlags): Record<string, unknown> {
  const { from, only, form, weighting, leaveOut = [], supersedes = [], close } = flags;
  const resolution = resolutionOf(flags.resolution);
  const left = leftOutOf(leaveOut, 'POINT').map(({ number, ...rest }) => ({ ...rest, point: number }));
  return {
    ...(from !== undefined && { from }),
    ...(only !== undefined && { probes: only }),
    ...(supersedes.length > 0 && { supersedes: supersededOf(supersedes) }),
    ...(close && { close }),
    fit: {
      ...(form !== undefined && { form }),
      ...(weighting !== undefined && { weighting }),
      ...(resolution !== undefined && { resolution }),
      ...(left.length > 0 && { leaveOut: left }),
    },
  };
}

interface FitAnswer {
  readonly probe: string;
  readonly calibration: CalibrationAnswer | null;
  readonly problem: string | null;
}

export async function tryFits(id: string, flags: FinishFlags): Promise<void> {
  const client = new ServiceClient(flags);
  const fits = await client.post<FitAnswer[]>(benchPath(id, '/fits'), finishBody(flags));
  if (flags.json) return say(JSON.stringify(fits));
  for (const { probe, calibration, problem } of fits) {
    const lines = calibration ? calibrationLines(calibration, false) : [`${probe}: ${problem}`];
    for (const line of lines) say(line);
  }
  say('Nothing was kept: "sandlarder calibrate finish" keeps it.');
}

export async function finish(id: string, flags: FinishFlags): Promise<void> {
  const client = new ServiceClient(flags);
  const answer = await client.post<{ bench: BenchAnswer; calibrations: CalibrationAnswer[] }>(
    benchPath(id, '/finish'),
    finishBody(flags),
  );
  if (flags.json) return say(JSON.stringify(answer));
  for (const record of answer.calibrations) for (const line of calibrationLines(record, true)) say(line);
  for (const line of restLines(answer.bench)) say(line);
}

/** What becomes of the probes that are not finished. */
export function restLines({ state, probes, finishedProbes, points }: BenchAnswer): string[] {
  const rest = probes.filter((probe) => !finishedProbes.includes(probe));
  if (rest.length === 0) return [];
  const told = rest.map((probe) => {
    const count = points.filter(({ captured }) => captured.some((one) => one.probe === probe)).length;
    return `${probe} (captured at ${count === 1 ? '1 point' : `${count} points`})`;
  });
  return state === 'open'
    ? [`The bench is open still for ${told.join(', ')}.`]
    : [`The bench is closed; nothing came of ${told.join(', ')}.`];
}
