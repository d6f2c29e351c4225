/** `sandlarder bridge SITE.json`. */
import { renameSync, writeFileSync } from 'node:fs';
import { z } from 'zod';
import { SandlarderError } from '../core/errors.js';
import { idSchema } from '../core/model/id.js';
import { checkSiteFile } from '../core/model/site-file.js';
import { parseBrokerUrl } from '../intake/index.js';
import { bridgeFile } from '../joining/sharing/bridge-file.js';
import { readJsonFile } from '../load.js';
import { readGroup, readPartitions } from '../share-settings.js';
import { onOutput, type Say } from './say.js';

export interface BridgeFlags {
  readonly centre: string;
  readonly share: string;
  readonly partitions: string;
  readonly to?: string | undefined;
  readonly authority?: string | undefined;
  readonly json?: boolean | undefined;
}

type Environment = Readonly<Record<string, string | undefined>>;

/** A description may say a part of its site only; whose it is it says always. */
const namedSchema = z.object({ site: z.object({ id: idSchema }) });

/** @throws SandlarderError BAD_SITE_FILE, WRONG_USAGE, STORE_UNAVAILABLE */
export function bridge(
  file: string,
  flags: BridgeFlags,
  say: Say = onOutput,
  environment: Environment = process.env,
): void {
  const { text, partition, acl } = bridgeFile({
    site: siteIn(file),
    centre: centreOf(flags.centre),
    group: readGroup(flags.share),
    partitions: readPartitions(flags.partitions),
    user: environment['SANDLARDER_BRIDGE_USER'],
    password: environment['SANDLARDER_BRIDGE_PASSWORD'],
    authority: flags.authority,
  });
  if (flags.to !== undefined) write(flags.to, text);
  if (flags.json) say(JSON.stringify({ partition, acl, file: flags.to ?? null, text }));
  else if (flags.to === undefined) say(text.trimEnd());
  else
    for (const line of [
      `written to ${flags.to}, for partition ${partition}; the edge's Mosquitto takes it at its next start`,
      `the site's user at the centre's broker needs, in its acl_file: ${acl}`,
    ])
      say(line);
}

function siteIn(file: string): string {
  const json = readJsonFile(file);
  const named = namedSchema.safeParse(json);
  // What is wrong with it is said as when it is loaded.
  return named.success ? named.data.site.id : checkSiteFile(file, json).site.id;
}

function centreOf(url: string) {
  try {
    return parseBrokerUrl(url);
  } catch (error) {
    throw new SandlarderError('WRONG_USAGE', `--centre: ${(error as Error).message}`);
  }
}

/** It may hold a password. */
function write(file: string, text: string): void {
  try {
    writeFileSync(`${file}.new`, text, { mode: 0o600 });
    renameSync(`${file}.new`, file);
  } catch (error) {
    throw new SandlarderError(
      'STORE_UNAVAILABLE',
      `--to: expected a file that can be written, got ${(error as Error).message}`,
      { cause: error },
    );
  }
}
