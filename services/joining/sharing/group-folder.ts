/**
 * The folder of a centre: which group it is of, in how many partitions its sites are divided, and a data directory for
 * each partition.
 */
import { linkSync, readFileSync, rmSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { GROUP_FILE, makePrivateFolder } from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import { idSchema } from '../../core/model/id.js';
import { PARTITIONS, partitionName, partitionOf } from '../../core/model/partition.js';

const groupSchema = z.strictObject({
  version: z.literal(1),
  group: idSchema,
  partitions: z.int().min(PARTITIONS.least).max(PARTITIONS.most),
});

export type GroupFolder = z.output<typeof groupSchema>;

/** File systems of other machines (statfs(2)), by whose locks SQLite cannot tell that somebody else writes. */
const FAR_FILE_SYSTEMS: ReadonlyMap<number, string> = new Map([
  [0x6969, 'NFS'],
  [0x517b, 'SMB'],
  [0xff534d42, 'CIFS'],
  [0xfe534d42, 'SMB 2'],
  [0x01021997, '9P'],
  [0x00c36400, 'Ceph'],
  [0x5346414f, 'AFS'],
]);

/** The name of a file system that is no disk of this machine; undefined where it may be one. */
export const farFileSystem = (type: number): string | undefined => FAR_FILE_SYSTEMS.get(type >>> 0);

/**
 * Reads the folder of a centre, or makes it where there is none.
 *
 * @param partitions how many; as many as there are, or the usual number where undefined
 * @throws SandlarderError WRONG_USAGE where it is of another group or has another number of partitions, STORE_UNAVAILABLE
 *   where it cannot be used
 */
export function openGroupFolder(
  directory: string,
  group: string,
  partitions: number | undefined,
): GroupFolder {
  const known = readGroupFolder(directory) ?? make(directory, group, partitions ?? PARTITIONS.usual);
  if (known.group !== group)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--share: expected "${known.group}", the group of ${directory}, got "${group}"`,
    );
  if (partitions !== undefined && known.partitions !== partitions)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--partitions: expected ${known.partitions}, as ${directory} was made with and bridges of edges say, got ${partitions}`,
    );
  return known;
}

/** @throws SandlarderError STORE_UNAVAILABLE where what stands there cannot be read */
export function readGroupFolder(directory: string): GroupFolder | undefined {
  const file = join(directory, GROUP_FILE);
  let text: string;
  try {
    text = readFileSync(file, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
    throw unusable(directory, error);
  }
  try {
    return groupSchema.parse(JSON.parse(text));
  } catch {
    throw new SandlarderError(
      'STORE_UNAVAILABLE',
      `${file}: expected version, group and partitions, got ${JSON.stringify(text.slice(0, 200))}`,
    );
  }
}

/** Whole or not at all, and of two workers that start together the first makes it. */
function make(directory: string, group: string, partitions: number): GroupFolder {
  const made: GroupFolder = { version: 1, group, partitions };
  const draft = join(directory, `${GROUP_FILE}.${process.pid}`);
  try {
    makePrivateFolder(directory);
    requireNear(directory);
    writeFileSync(draft, `${JSON.stringify(made)}\n`);
    linkSync(draft, join(directory, GROUP_FILE));
  } catch (error) {
    if (error instanceof SandlarderError) throw error;
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw unusable(directory, error);
  } finally {
    rmSync(draft, { force: true });
  }
  return readGroupFolder(directory) ?? made;
}

function requireNear(directory: string): void {
  const far = farFileSystem(statfsSync(directory).type);
  if (far !== undefined)
    throw new SandlarderError(
      'STORE_UNAVAILABLE',
      `--data: expected a disk of this machine, whose locks end with a process, got ${far} at ${directory}`,
    );
}

const unusable = (directory: string, error: unknown): SandlarderError =>
  new SandlarderError(
    'STORE_UNAVAILABLE',
    `cannot use the folder of a centre ${directory}: ${(error as Error).message}`,
    { cause: error },
  );

/** The data directory of a partition. */
export const partitionFolder = (directory: string, partition: number): string =>
  join(directory, partitionName(partition));

/** Where a site's data lie: in its partition where the directory is that of a centre, else in the directory itself. */
export function directoryOfSite(directory: string, site: string): string {
  const known = readGroupFolder(directory);
  return known ? partitionFolder(directory, partitionOf(site, known.partitions)) : directory;
}
