/** `sandlarder calibrate open | point | look | capture | try | finish | give-up`: bench work over a running service. */
import { setTimeout as wait } from 'node:timers/promises';
import { SandlarderError } from '../../core/errors.js';
import type { BenchAnswer, CalibrationAnswer } from '../../http/index.js';
import { readNumber } from '../numbers.js';
import { ServiceClient } from '../service-client.js';
import { benchLines, calibrationLines } from './lines.js';
import { type ReferenceFlags, referenceOf } from './reference.js';

export interface ServiceFlags {
  readonly service: string;
  readonly json?: boolean;
}

export const say = (line: string): void => void process.stdout.write(`${line}\n`);

const show = ({ json }: ServiceFlags, bench: BenchAnswer, withCautions = false): void => {
  if (json) say(JSON.stringify(bench));
  else for (const line of benchLines(bench, withCautions)) say(line);
};

const path = (id: string, step = ''): string => `/api/bench/${encodeURIComponent(id)}${step}`;

export interface OpenFlags extends ServiceFlags, ReferenceFlags {
  readonly site: string;
  readonly quantity: string;
  readonly by: string;
}

export async function open(probes: readonly string[], flags: OpenFlags): Promise<void> {
  const { service, site, quantity, by } = flags;
  const body = { site, probes, quantity, by, reference: referenceOf(flags) };
  const bench = await new ServiceClient(service).post<BenchAnswer>('/api/bench', body);
  show(flags, bench);
  if (!flags.json)
    say(`\nNext: put the probes in a bath or jar, and "sandlarder calibrate point ${bench.id} ..."`);
}

export interface PointFlags extends ServiceFlags {
  readonly ice?: boolean;
  readonly boiling?: string;
  readonly salt?: string;
  readonly reading?: string;
  readonly unit?: string;
  readonly at?: string;
  readonly uncertainty?: string;
  readonly atUncertainty?: string;
  readonly apart?: string;
}

/** Usual uncertainties, k = 1: of an air pressure read nearby, and of a jar's temperature. Judgement. */
const PRESSURE_hPa = 1;
const JAR_C = 0.3;

const numberOf = (flag: string, text: string | undefined): number | undefined =>
  text === undefined ? undefined : readNumber(flag, text, -1e6, 1e6);

function needed(flag: string, text: string | undefined, why: string): number {
  const value = numberOf(flag, text);
  if (value === undefined) throw new SandlarderError('WRONG_USAGE', `expected ${flag} ${why}`);
  return value;
}

/** Exactly one kind of point, with what belongs to it. */
export function pointBody(flags: PointFlags): Record<string, unknown> {
  const { ice, boiling, salt, reading } = flags;
  const kinds = [ice ? true : undefined, boiling, salt, reading].filter((kind) => kind !== undefined);
  if (kinds.length !== 1)
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected one of --ice, --boiling, --salt and --reading, got ${kinds.length === 0 ? 'none' : 'several'}`,
    );
  const uncertainty = numberOf('--uncertainty', flags.uncertainty);
  if (ice) return { source: 'ice-point', ...(uncertainty !== undefined && { uncertainty }) };
  if (boiling !== undefined)
    return {
      source: 'boiling-point',
      pressure_hPa: needed('--boiling', boiling, 'with the air pressure in hPa'),
      pressureUncertainty_hPa: uncertainty ?? PRESSURE_hPa,
    };
  if (salt !== undefined) return saltBody(salt, flags);
  const at = numberOf('--at', flags.at);
  return {
    source: 'instrument',
    reference: needed('--reading', reading, 'with what the reference shows'),
    uncertainty: needed(
      '--uncertainty',
      flags.uncertainty,
      'with the standard uncertainty (k = 1) of the reference',
    ),
    ...(flags.unit !== undefined && { unit: flags.unit }),
    ...(at !== undefined && { temperature_C: at }),
  };
}

function saltBody(salt: string, { at, atUncertainty, apart }: PointFlags): Record<string, unknown> {
  const probeDifference_C = numberOf('--apart', apart);
  return {
    ...{ source: 'salt', salt, temperature_C: needed('--at', at, 'with the temperature of the jar in °C') },
    temperatureUncertainty_C: numberOf('--at-uncertainty', atUncertainty) ?? JAR_C,
    ...(probeDifference_C !== undefined && { probeDifference_C }),
  };
}

export async function point(id: string, flags: PointFlags): Promise<void> {
  const bench = await new ServiceClient(flags.service).post<BenchAnswer>(
    path(id, '/points'),
    pointBody(flags),
  );
  show(flags, bench, true);
}

export interface LookFlags extends ServiceFlags {
  readonly follow?: boolean;
}

const EVERY_ms = 10_000;

/** Once, or again and again until every probe is captured or has settled. */
export async function look(id: string, flags: LookFlags): Promise<void> {
  const client = new ServiceClient(flags.service);
  for (;;) {
    const bench = await client.get<BenchAnswer>(path(id));
    show(flags, bench);
    const waiting = bench.settling.filter(({ captured, settled }) => !captured && !settled);
    if (!flags.follow || waiting.length === 0) return;
    await wait(EVERY_ms);
    if (!flags.json) say('');
  }
}

export async function capture(id: string, probes: readonly string[], flags: ServiceFlags): Promise<void> {
  const body = probes.length > 0 ? { probes } : {};
  show(flags, await new ServiceClient(flags.service).post<BenchAnswer>(path(id, '/capture'), body));
}

export interface FinishFlags extends ServiceFlags {
  readonly from?: string;
  readonly form?: string;
  readonly weighting?: string;
  readonly resolution?: string;
  readonly only?: readonly string[];
  readonly leaveOut?: readonly string[];
}

const LEFT_OUT = /^([a-z0-9-]+):(\d+):(.+)$/;

function finishBody({ from, only, leaveOut, ...flags }: FinishFlags): Record<string, unknown> {
  const resolution = numberOf('--resolution', flags.resolution);
  const left = (leaveOut ?? []).map((text) => {
    const [, probe, number, reason] = LEFT_OUT.exec(text) ?? [];
    if (probe === undefined)
      throw new SandlarderError(
        'WRONG_USAGE',
        `--leave-out: expected PROBE:POINT:REASON such as "p03:2:lid was open", got ${JSON.stringify(text)}`,
      );
    return { probe, point: Number(number), reason };
  });
  return {
    ...(from !== undefined && { from }),
    ...(only !== undefined && { probes: only }),
    fit: {
      ...(flags.form !== undefined && { form: flags.form }),
      ...(flags.weighting !== undefined && { weighting: flags.weighting }),
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
  const fits = await new ServiceClient(flags.service).post<FitAnswer[]>(path(id, '/fits'), finishBody(flags));
  if (flags.json) return say(JSON.stringify(fits));
  for (const { probe, calibration, problem } of fits) {
    const lines = calibration ? calibrationLines(calibration).slice(0, -1) : [`${probe}: ${problem}`];
    for (const line of lines) say(line);
  }
  say('Nothing was kept: "sandlarder calibrate finish" keeps it.');
}

export async function finish(id: string, flags: FinishFlags): Promise<void> {
  const answer = await new ServiceClient(flags.service).post<{
    bench: BenchAnswer;
    calibrations: CalibrationAnswer[];
  }>(path(id, '/finish'), finishBody(flags));
  if (flags.json) return say(JSON.stringify(answer));
  for (const record of answer.calibrations) for (const line of calibrationLines(record)) say(line);
}

export async function giveUp(id: string, reason: string, flags: ServiceFlags): Promise<void> {
  show(flags, await new ServiceClient(flags.service).post<BenchAnswer>(path(id, '/give-up'), { reason }));
}
