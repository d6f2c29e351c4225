/** `sandlarder backup`, `restore` and `check-data`. */
import { basename, join } from 'node:path';
import {
  ARCHIVE_SCHEMA,
  backUp,
  lookOver,
  noteBackup,
  restore,
  type Soundness,
} from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import { deedOfCommand } from '../../joining/access/by-command.js';
import { auditProblems, noteIn, REGISTRY_SCHEMA } from '../../registry/index.js';
import { createProgress } from '../progress.js';
import { onOutput, type Say } from '../say.js';

const PARTS = [ARCHIVE_SCHEMA, REGISTRY_SCHEMA];

interface Flags {
  readonly data: string;
  readonly json?: boolean;
}

/** @throws SandlarderError CONFLICT, STORE_UNAVAILABLE */
export async function backup(flags: Flags & { readonly to: string }, say: Say = onOutput): Promise<void> {
  const { data, to, json } = flags;
  const progress = createProgress(process.stderr, Date.now);
  let copy: Soundness;
  try {
    copy = await backUp(data, to, PARTS, (share) => {
      if (share > 0 && share < 1) progress.show(`copied ${Math.floor(100 * share)} %`);
    });
  } finally {
    progress.clear();
  }
  noteBackup(data, to, Date.now());
  if (json) say(JSON.stringify(copy));
  else for (const line of [`backup: ${to}, looked over and sound`, ...contentLines(copy)]) say(line);
}

/** @throws SandlarderError CONFLICT, STORE_UNAVAILABLE */
export async function restoreFile(file: string, flags: Flags, say: Say = onOutput): Promise<void> {
  const now = Date.now();
  const deed = { at: now, ...deedOfCommand('restore', basename(file)) };
  const restored = await restore(file, flags.data, PARTS, now, (copy) => noteIn(copy, deed, 'done'));
  if (flags.json) return say(JSON.stringify(restored));
  say(`restored: ${restored.file} is now what ${file} holds`);
  for (const line of contentLines(restored)) say(line);
  if (restored.before !== null) say(`what was there before is kept in ${restored.before}`);
  say('messages that waited when the backup was made may be sent a second time once the service runs');
}

/** @throws SandlarderError STORE_UNAVAILABLE where it is not sound or cannot be read */
export function checkData(file: string | undefined, flags: Flags, say: Say = onOutput): void {
  const looked = lookOver(file ?? join(flags.data, 'sandlarder.db'), PARTS, [auditProblems]);
  const { problems } = looked;
  if (flags.json) say(JSON.stringify(looked));
  else for (const line of [...contentLines(looked), ...furtherOf(problems)]) say(line);
  if (problems.length > 0)
    throw new SandlarderError(
      'STORE_UNAVAILABLE',
      `${looked.file} is not sound: ${problems[0]}; where it is damaged, stop the service and restore a backup ("sandlarder restore")`,
    );
  if (!flags.json) say(`${looked.file} is sound`);
}

/** The first is said in the end, by the error. */
const furtherOf = (problems: readonly string[]): string[] => problems.slice(1).map((one) => `also: ${one}`);

const MB = 1e6;

/** Nothing where not even the names of the tables could be read. */
function contentLines({ size_bytes, free_bytes, tables }: Soundness): string[] {
  if (tables.length === 0) return [];
  const filled = tables.filter(({ rows }) => rows > 0);
  return [
    `${(size_bytes / MB).toFixed(1)} MB, of which ${(free_bytes / MB).toFixed(1)} MB are free for what comes`,
    `rows: ${filled.map(({ table, rows }) => `${table} ${rows.toLocaleString('en')}`).join(', ')}`,
  ];
}
