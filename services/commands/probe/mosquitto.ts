/** `sandlarder probe mosquitto --to DIR`. */
import { chownSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ARCHIVE_SCHEMA, openForReading } from '../../archive/index.js';
import { SandlarderError } from '../../core/errors.js';
import { unwritten } from '../../core/model/file-words.js';
import { mosquittoFiles } from '../../joining/access/mosquitto-files.js';
import { createRegistry, REGISTRY_SCHEMA } from '../../registry/index.js';
import { readMqttCredentials } from '../../settings.js';
import { onOutput, type Say } from '../say.js';

/** @throws SandlarderError WRONG_USAGE, STORE_UNAVAILABLE */
export function mosquitto(
  { data, to, json }: { readonly data: string; readonly to: string; readonly json?: boolean },
  say: Say = onOutput,
  environment: Readonly<Record<string, string | undefined>> = process.env,
): void {
  const service = readMqttCredentials(environment);
  if (!service)
    throw new SandlarderError(
      'WRONG_USAGE',
      'expected SANDLARDER_MQTT_USER and SANDLARDER_MQTT_PASSWORD, by which the service itself connects, got neither',
    );
  const secrets = secretsIn(data);
  const { acl, passwords } = mosquittoFiles(secrets, service);
  const [aclFile, passwordFile] = [join(to, 'sandlarder.acl'), join(to, 'sandlarder.passwords')];
  writeOver(aclFile, acl);
  writeOver(passwordFile, passwords);
  const counts = {
    probes: secrets.filter(({ kind }) => kind === 'probe').length,
    lamps: secrets.filter(({ kind }) => kind === 'lamp').length,
  };
  const written = { aclFile, passwordFile, service: service.user, ...counts };
  if (json) say(JSON.stringify(written));
  else for (const line of writtenLines(written)) say(line);
}

interface Written {
  readonly aclFile: string;
  readonly passwordFile: string;
  readonly service: string;
  readonly probes: number;
  readonly lamps: number;
}

const writtenLines = ({ aclFile, passwordFile, service, probes, lamps }: Written): string[] => [
  `written for ${probes} probes, ${lamps} lamps and the service as ${service}; Mosquitto wants, and must be able to read:`,
  `  acl_file ${aclFile}`,
  `  password_file ${passwordFile}`,
  '  allow_anonymous false',
  'it takes what was written anew when it is told to reload: systemctl reload mosquitto',
];

function secretsIn(data: string) {
  const database = openForReading(data, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
  try {
    return createRegistry(database).access.secrets.list();
  } finally {
    database.close();
  }
}

/** For nobody else to read; whose the file of before was, it stays. */
function writeOver(file: string, text: string): void {
  try {
    const before = statSync(file, { throwIfNoEntry: false });
    writeFileSync(`${file}.new`, text, { mode: 0o600 });
    if (before) chownSync(`${file}.new`, before.uid, before.gid);
    renameSync(`${file}.new`, file);
  } catch (error) {
    throw new SandlarderError('STORE_UNAVAILABLE', `--to: ${unwritten(file, error)}`, { cause: error });
  }
}
