/** `sandlarder access link` and `access audit`: by the database itself, whether or not a service runs on it. */
import { ARCHIVE_SCHEMA, openDatabase, openForReading } from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import { formatTime } from '../../core/model/time.js';
import { createAccess } from '../../joining/access/access-ports.js';
import { deedOfCommand } from '../../joining/access/by-command.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../registry/index.js';
import { readWhole } from '../numbers.js';
import { onOutput, type Say } from '../say.js';

const PARTS = [ARCHIVE_SCHEMA, REGISTRY_SCHEMA];

/** @throws SandlarderError NOT_FOUND, WRONG_USAGE, STORE_UNAVAILABLE */
export function link(
  name: string | undefined,
  { data, service }: { readonly data: string; readonly service: string },
  say: Say = onOutput,
): void {
  const database = openDatabase(data, PARTS);
  try {
    const registry = createRegistry(database);
    const access = createAccess({
      ...{ registry, isOpenBefore: false, publicUrl: undefined, now: Date.now },
      ...{ hasBed: () => false, hasPerson: () => false, hasWay: () => false, onMessage: () => undefined },
    });
    const secret = name === undefined ? access.firstLink() : access.ports.linkFor(name).secret;
    if (secret === undefined)
      throw new SandlarderError('WRONG_USAGE', 'expected a name: there is a steward already');
    access.audit.note(deedOfCommand('link', `a link for ${name ?? 'the first steward'}`), 'done');
    say(`${service.replace(/\/$/, '')}/sign-in#${secret}`);
  } finally {
    database.close();
  }
}

/** @throws SandlarderError WRONG_USAGE, STORE_UNAVAILABLE */
export function audit(
  { data, limit, json }: { readonly data: string; readonly limit: string; readonly json?: boolean },
  say: Say = onOutput,
): void {
  const most = readWhole('--limit', limit, 1, 100_000);
  const database = openForReading(data, PARTS);
  try {
    const rows = createRegistry(database).access.audit.list(Number.MAX_SAFE_INTEGER, most);
    for (const { at, ...row } of rows)
      say(
        json
          ? JSON.stringify({ at: formatTime(at), ...row })
          : `${formatTime(at)} ${row.who} (${[row.how, row.address].filter(Boolean).join(', ')}): ${row.did} ${row.what}: ${row.result ?? 'not finished'}`,
      );
  } finally {
    database.close();
  }
}
