/** `sandlarder calibrate open | point | drop-point | capture | benches | give-up`: bench work over a running service. */
import type { BenchAnswer, CapturedAnswer } from '../../http/index.js';
import { onOutput as say } from '../say.js';
import { type ServiceFlags as AskingFlags, ServiceClient } from '../service-client.js';
import { benchLines } from './lines.js';
import { type PointOptions, pointBody } from './point.js';
import { type ReferenceFlags, referenceOf } from './reference.js';

export interface ServiceFlags extends AskingFlags {
  readonly json?: boolean;
}

const show = ({ json }: ServiceFlags, bench: BenchAnswer, withCautions = false): void => {
  if (json) say(JSON.stringify(bench));
  else for (const line of benchLines(bench, withCautions)) say(line);
};

export const benchPath = (id: string, step = ''): string => `/api/bench/${encodeURIComponent(id)}${step}`;

export interface OpenFlags extends ServiceFlags, ReferenceFlags {
  readonly site: string;
  readonly quantity: string;
  readonly by: string;
}

export async function open(probes: readonly string[], flags: OpenFlags): Promise<void> {
  const { site, quantity, by } = flags;
  const body = { site, probes, quantity, by, reference: referenceOf(flags) };
  const bench = await new ServiceClient(flags).post<BenchAnswer>('/api/bench', body);
  show(flags, bench);
  if (!flags.json)
    say(`\nNext: put the probes in a bath or jar, and "sandlarder calibrate point ${bench.id} ..."`);
}

export async function point(id: string, flags: ServiceFlags & PointOptions): Promise<void> {
  const client = new ServiceClient(flags);
  const bench = await client.post<BenchAnswer>(benchPath(id, '/points'), pointBody(flags));
  show(flags, bench, true);
}

export async function dropPoint(id: string, flags: ServiceFlags): Promise<void> {
  const client = new ServiceClient(flags);
  const bench = await client.post<BenchAnswer>(benchPath(id, '/drop-point'), {});
  show(flags, bench);
  if (!flags.json)
    say('\nThe point was dropped. Next: "sandlarder calibrate point" with the right reference.');
}

export async function capture(id: string, probes: readonly string[], flags: ServiceFlags): Promise<void> {
  const body = probes.length > 0 ? { probes } : {};
  const client = new ServiceClient(flags);
  const bench = await client.post<CapturedAnswer>(benchPath(id, '/capture'), body);
  show(flags, bench);
  if (!flags.json) for (const { probe, reason } of bench.waiting) say(`Not captured: ${probe}: ${reason}`);
}

export interface BenchesFlags extends ServiceFlags {
  readonly site?: string;
}

export async function benches(flags: BenchesFlags): Promise<void> {
  const { json, site } = flags;
  const query = new URLSearchParams({ state: 'open', ...(site !== undefined && { site }) });
  const all = await new ServiceClient(flags).get<BenchAnswer[]>(`/api/bench?${query}`);
  if (json) return say(JSON.stringify(all));
  for (const bench of all) for (const line of benchLines(bench, false)) say(line);
  if (all.length === 0) say('No open benches.');
}

export async function giveUp(id: string, reason: string, flags: ServiceFlags): Promise<void> {
  const client = new ServiceClient(flags);
  show(flags, await client.post<BenchAnswer>(benchPath(id, '/give-up'), { reason }));
}
