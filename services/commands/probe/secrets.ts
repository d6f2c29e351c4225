/** `sandlarder probe secret`, `revoke` and `list`: by the database itself, whether or not a service runs on it. */
import { ARCHIVE_SCHEMA, openDatabase, openForReading } from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import type { Device } from '../../core/model/device.js';
import { ID_PATTERN } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import type { MadeSecretView } from '../../http/index.js';
import { beginDeed, deedOfCommand } from '../../joining/access/by-command.js';
import { DeviceSecretDesk } from '../../joining/access/device-secrets.js';
import { createRegistry, REGISTRY_SCHEMA, type Registry } from '../../registry/index.js';
import { onOutput, type Say } from '../say.js';

const PARTS = [ARCHIVE_SCHEMA, REGISTRY_SCHEMA];

export interface ProbeFlags {
  readonly data: string;
  readonly site?: string;
  readonly lamp?: boolean;
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE, NOT_FOUND, LIMIT_EXCEEDED, STORE_UNAVAILABLE */
export function make(
  ids: readonly string[],
  flags: ProbeFlags,
  say: Say = onOutput,
  tell: Say = onError,
): void {
  const made = change(ids, flags, MAKE, (desk, device) => desk.make(device));
  if (flags.json) say(JSON.stringify(made.map((one) => ({ ...one, madeAt: formatTime(one.madeAt) }))));
  else for (const one of made) say(`${one.id}: user ${one.user}, secret ${one.secret}`);
  for (const note of notesOn(made)) tell(`note: ${note}`);
}

/** @throws SandlarderError WRONG_USAGE, NOT_FOUND, STORE_UNAVAILABLE */
export function revoke(ids: readonly string[], flags: ProbeFlags, say: Say = onOutput): void {
  change(ids, flags, REVOKE, (desk, device) => desk.revoke(device));
  if (flags.json) say(JSON.stringify({ revoked: ids }));
  else for (const id of ids) say(`${id}: its secret holds no more`);
}

/** @throws SandlarderError WRONG_USAGE, NOT_FOUND, STORE_UNAVAILABLE */
export function list({ data, site, json }: ProbeFlags, say: Say = onOutput): void {
  const database = openForReading(data, PARTS);
  try {
    const registry = createRegistry(database);
    const all = new DeviceSecretDesk(registry, Date.now).list(siteOf(registry, site));
    if (json) say(JSON.stringify(all.map((one) => ({ ...one, madeAt: formatTime(one.madeAt) }))));
    else
      for (const { kind, id, user, madeAt } of all)
        say(`${kind} ${id}: user ${user}, since ${formatTime(madeAt)}`);
    if (!json && all.length === 0) say('no probe has a secret of its own');
  } finally {
    database.close();
  }
}

/** As the audit trail calls them. */
const MAKE = { did: 'Secret', result: 'made' } as const;
const REVOKE = { did: 'Revoke', result: 'taken away' } as const;

const onError: Say = (line) => void process.stderr.write(`${line}\n`);

/** Each of the devices, noted in the audit trail; none of them where an id is none. */
function change<Result>(
  ids: readonly string[],
  { data, site, lamp = false }: ProbeFlags,
  { did, result }: typeof MAKE | typeof REVOKE,
  work: (desk: DeviceSecretDesk, device: Device) => Result,
): Result[] {
  const kind = lamp ? 'lamp' : 'probe';
  const wrong = ids.find((id) => !ID_PATTERN.test(id));
  if (wrong !== undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `expected ids of ${kind}s, 1 to 32 of a-z, 0-9 and "-", got ${JSON.stringify(wrong)}`,
    );
  const database = openDatabase(data, PARTS);
  try {
    const registry = createRegistry(database);
    const desk = new DeviceSecretDesk(registry, Date.now);
    const where = siteOf(registry, site);
    return [...new Set(ids)].map((id) => {
      const deed = beginDeed(registry, Date.now, deedOfCommand(`${kind}${did}`, `${kind} ${id} of ${where}`));
      try {
        const changed = work(desk, { kind, site: where, id });
        deed.done(result);
        return changed;
      } catch (error) {
        deed.notDone(error);
        throw error;
      }
    });
  } finally {
    database.close();
  }
}

/** @throws SandlarderError WRONG_USAGE where it is not said which of several, or there is none */
function siteOf({ sites }: Registry, given: string | undefined): string {
  if (given !== undefined) return given;
  const ids = sites.descriptions().map(({ site }) => site.id);
  if (ids.length === 1 && ids[0] !== undefined) return ids[0];
  throw new SandlarderError(
    'WRONG_USAGE',
    ids.length === 0
      ? 'expected a site, found none: load its description first ("sandlarder load")'
      : `--site: expected one of ${ids.join(', ')}, got nothing`,
  );
}

function notesOn(made: readonly MadeSecretView[]): string[] {
  const [renewed, unknown] = [
    made.filter(({ isRenewal }) => isRenewal),
    made.filter(({ isDescribed }) => !isDescribed),
  ].map((some) => some.map(({ id }) => id).join(', ')) as [string, string];
  return [
    'shown this once: a hash alone is kept',
    ...(renewed ? [`of ${renewed} the secret of before holds no more`] : []),
    ...(unknown ? [`no description has ${unknown}: what it sends is kept apart until one does`] : []),
  ];
}
