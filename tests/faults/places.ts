/**
 * Disks of a test's own: mounted in a namespace that nobody else sees and that is gone with the process that holds it.
 * Where nothing may be mounted a limit to the size of files stands in for a full disk.
 */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, openSync, rmSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { temporaryDirectory, type Undo } from '../bench/processes.js';
import { NotHeld } from './counting.js';

export interface Disk {
  readonly kind: string;
  /** As those see it who run through. */
  readonly directory: string;
  readonly through: readonly string[];
  /** As this process sees it. */
  readonly seen: string;
}

export interface FullDisk extends Disk {
  /** Takes the room that is left. @param pid of the service */
  fill(pid: number): void;
  /** Gives it back. */
  free(pid: number): void;
  readonly environment: NodeJS.ProcessEnv;
}

/** Of a disk that is filled, and of one that is made read-only. */
const SMALL = '24m';
const LOOP_MiB = 48;

/** Runs a shell line in a namespace of its own, which stays until the undoing; undefined where that is not allowed. */
async function within(undo: Undo, ...[flags, line]: [string, string]): Promise<ChildProcess | undefined> {
  // It ends with its standard input, and so with this process, however that ends.
  const holder = spawn('unshare', [flags, 'sh', '-ec', `${line}\necho ready\nexec cat >/dev/null`], {
    stdio: ['pipe', 'pipe', 'ignore'],
  });
  holder.on('error', () => undefined);
  const ended = new Promise<undefined>((resolve) => holder.once('close', () => resolve(undefined)));
  const ready = await Promise.race([once(holder.stdout, 'data'), ended]);
  if (ready === undefined) return undefined;
  undo(async () => {
    holder.stdin.end();
    await ended;
  });
  return holder;
}

/** @returns undefined where nothing may be mounted */
async function mounted(undo: Undo, line: (directory: string) => string): Promise<Disk | undefined> {
  const directory = temporaryDirectory(undo);
  for (const flags of process.getuid?.() === 0 ? ['-m'] : ['-mr']) {
    const holder = await within(undo, flags, line(directory));
    if (!holder?.pid) continue;
    const user = flags === '-mr' ? ['-U', '--preserve-credentials'] : [];
    const through = ['nsenter', '-t', `${holder.pid}`, '-m', ...user, '--'];
    return { kind: 'mounted', directory, through, seen: `/proc/${holder.pid}/root${directory}` };
  }
  return undefined;
}

/** A disk of 24 MB. */
export async function fullDisk(undo: Undo): Promise<FullDisk> {
  const disk = await mounted(undo, (directory) => `mount -t tmpfs -o size=${SMALL} tmpfs ${directory}`);
  if (!disk) return limitedDisk(undo);
  const filler = join(disk.seen, 'filler');
  return {
    ...{ ...disk, kind: 'a disk of 24 MB (tmpfs)', environment: {} },
    fill: () => fillUp(filler),
    free: () => rmSync(filler),
  };
}

function fillUp(file: string): void {
  const opened = openSync(file, 'w');
  for (let size = 1 << 20; size >= 512; size /= 2) {
    try {
      for (;;) writeSync(opened, Buffer.alloc(size, 1));
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOSPC') throw error;
    }
  }
  closeSync(opened);
}

/** The kernel's own limit to the size of files, which can be changed while a process runs. */
function limitedDisk(undo: Undo): FullDisk {
  const directory = temporaryDirectory(undo);
  const preload = join(temporaryDirectory(undo), 'heard.mjs');
  // Unheard, the signal of that limit ends the process.
  writeFileSync(preload, "process.on('SIGXFSZ', () => undefined);\n");
  const limit = (pid: number, size: string): void => {
    execFileSync('prlimit', ['--pid', `${pid}`, `--fsize=${size}:unlimited`]);
  };
  return {
    ...{ kind: 'a limit to the size of files (nothing may be mounted here)', directory, seen: directory },
    ...{ through: [], environment: { NODE_OPTIONS: `--import ${preload}` } },
    fill: (pid) => limit(pid, '0'),
    free: (pid) => limit(pid, 'unlimited'),
  };
}

export interface FailingDisk extends Disk {
  /** Its file system finds an error and lets nothing more be written, as that of a worn card does. */
  fail(): void;
  /** Taken out, checked and put in again: nobody may use it by then. */
  repair(): void;
}

/** A disk whose file system can be made to fail; undefined where none can be mounted. */
export async function failingDisk(undo: Undo): Promise<FailingDisk | undefined> {
  const image = join(temporaryDirectory(undo), 'disk');
  const mount = (directory: string): string =>
    `device=$(losetup --find --show ${image}); mount -o errors=remount-ro $device ${directory}; losetup -d $device; echo $device >${image}.device`;
  const disk = await mounted(undo, (directory) =>
    [`truncate -s ${LOOP_MiB}M ${image}`, `mkfs.ext4 -q ${image}`, mount(directory)].join('\n'),
  );
  if (!disk) return undefined;
  const [program = '', ...rest] = disk.through;
  const inside = (line: string): void => {
    execFileSync(program, [...rest, 'sh', '-ec', line], { stdio: ['ignore', 'ignore', 'pipe'] });
  };
  return {
    ...{ ...disk, kind: 'ext4 on a loop device' },
    fail: () => inside(`echo 1 >/sys/fs/ext4/$(basename $(cat ${image}.device))/trigger_fs_error`),
    repair: () =>
      inside(
        `umount ${disk.directory}\ne2fsck -fy ${image} >/dev/null || [ $? -le 2 ]\n${mount(disk.directory)}`,
      ),
  };
}

/** @throws NotHeld */
export function pidOf({ pid }: ChildProcess): number {
  if (pid === undefined) throw new NotHeld('expected a process, got none');
  return pid;
}
