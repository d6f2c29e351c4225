/** What `serve --share` reads of its flags, and what does not go together with it. */
import { SandlarderError } from './core/errors.js';
import { idSchema } from './core/model/id.js';
import { PARTITIONS } from './core/model/partition.js';
// Not by the door of its folder, as settings.ts.
import type { ListenAddress } from './http/address.js';
import type { ServeFlags } from './settings.js';
import { addressOf } from './transport.js';

export interface ShareFlags {
  readonly share?: string | undefined;
  readonly partitions?: string | undefined;
  readonly partitionsAt?: string | undefined;
}

export interface ShareSettings {
  readonly group: string;
  /** How many partitions a new centre is to have; as it has, or the usual number, where undefined. */
  readonly partitions: number | undefined;
  /** Where the first partition answers, the next one port further, and so on; each on any free port for port 0. */
  readonly firstAt: ListenAddress;
}

/** Flags that belong to one whole service, and why. */
const NOT_SHARED: readonly (readonly [flag: string, name: keyof ServeFlags, why: string])[] = [
  ['--modem', 'modem', 'a modem belongs to one service'],
  [
    '--sms-gateway',
    'smsGateway',
    'answers that come back cannot be told apart by partition: edges tell people',
  ],
  ['--public-url', 'publicUrl', 'links are of one service: edges tell people'],
  ['--tell-centre', 'tellCentre', 'edges tell a centre'],
  ['--mqtts-listen', 'mqttsListen', 'the broker of a centre is one of its own'],
];

export const PARTITIONS_AT = '127.0.0.1:8101';

/**
 * @returns undefined where nothing is shared
 * @throws SandlarderError WRONG_USAGE naming the flag, what was expected and what was there
 */
export function readShareSettings(flags: ServeFlags & ShareFlags): ShareSettings | undefined {
  const { share, partitions, partitionsAt } = flags;
  if (share === undefined) {
    for (const [flag, value] of [
      ['--partitions', partitions] as const,
      ['--partitions-at', partitionsAt] as const,
    ])
      if (value !== undefined) throw wrong(`${flag}: expected --share with it, got it alone`);
    return undefined;
  }
  const group = readGroup(share);
  if (flags.broker === undefined)
    throw wrong(
      '--share: expected --broker with it, which edges and all workers reach, got the built-in broker',
    );
  for (const [flag, name, why] of NOT_SHARED)
    if (flags[name] !== undefined) throw wrong(`--share: expected no ${flag} with it, got one: ${why}`);
  const count = partitions === undefined ? undefined : readPartitions(partitions);
  const firstAt = addressOf('--partitions-at', partitionsAt ?? PARTITIONS_AT);
  if (!(firstAt.port + (count ?? PARTITIONS.usual) <= 65_536))
    throw wrong(
      `--partitions-at: expected a port with room for all partitions after it, got ${firstAt.port}`,
    );
  return Object.freeze({ group, partitions: count, firstAt });
}

/** @throws SandlarderError WRONG_USAGE */
export function readGroup(text: string): string {
  if (idSchema.safeParse(text).success) return text;
  throw wrong(`--share: expected a name of 1 to 32 of a-z, 0-9 and "-", got ${JSON.stringify(text)}`);
}

/** @throws SandlarderError WRONG_USAGE */
export function readPartitions(text: string): number {
  const count = /^\d{1,4}$/.test(text) ? Number(text) : Number.NaN;
  const { least, most } = PARTITIONS;
  if (count >= least && count <= most) return count;
  throw wrong(`--partitions: expected a whole number from ${least} to ${most}, got ${JSON.stringify(text)}`);
}

const wrong = (message: string): SandlarderError => new SandlarderError('WRONG_USAGE', message);
