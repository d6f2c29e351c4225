/** What a process holds and has taken, read from outside. */
import { execFileSync } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';

const KIB_A_MIB = 1024;

/** Resident memory of a process, MiB. */
export function resident_MiB(pid: number | undefined): number {
  const KiB =
    process.platform === 'linux'
      ? /^VmRSS:\s+(\d+) kB$/m.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1]
      : execFileSync('ps', ['-o', 'rss=', '-p', String(pid)], { encoding: 'utf8' });
  return Number(KiB) / KIB_A_MIB;
}

/** Linux counts processor time in hundredths of a second, proc(5). */
const TICKS_a_second = 100;

/** Processor time that a process has taken, s; NaN where the system does not say. */
export function processor_s(pid: number | undefined): number {
  if (process.platform !== 'linux') return Number.NaN;
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ').at(-1)?.split(' ') ?? [];
  return (Number(fields[11]) + Number(fields[12])) / TICKS_a_second;
}

/** Files, sockets and pipes that a process holds open; NaN where the system does not say. */
export const handlesOf = (pid: number | undefined): number =>
  process.platform === 'linux' ? readdirSync(`/proc/${pid}/fd`).length : Number.NaN;
