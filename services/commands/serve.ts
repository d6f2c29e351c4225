/** `sandlarder serve`: runs until it is told to stop. */
import { isLoopback } from '../http/index.js';
import { createLog, inWords, jsonWriter, type LogEntry } from '../log.js';
import { type Service, serve } from '../serve.js';
import { readServeSettings, type ServeFlags, type ServeSettings } from '../settings.js';
import { describeSettings } from '../settings-described.js';
import { readShareSettings, type ShareFlags } from '../share-settings.js';
import { untilStopped } from './until-stopped.js';

export async function runService(flags: ServeFlags & ShareFlags): Promise<void> {
  const share = readShareSettings(flags);
  const settings = readServeSettings(flags, process.env);
  const write = settings.log === 'json' ? jsonWriter(2) : writeWords;
  const log = createLog(write, () => performance.now());
  log(`sandlarder serve: ${describeSettings(settings)}`);
  if (share) return (await import('./serve-share.js')).runWorker(settings, share, log);
  const service = await serve({
    settings,
    tellConsole: (line) => process.stdout.write(`${line}\n`),
    log,
  });
  // Before anybody can know that it runs: who asks it to stop then is heard.
  const stopped = untilStopped();
  log(`ready: readings at ${service.brokerUrl}, questions at ${service.httpUrl}/api/beds`);
  for (const line of accessLines(service, settings)) log(line);
  await stopped;
  log('stopping');
  await service.close();
  log('stopped');
}

const writeWords = (entry: LogEntry): unknown => process.stderr.write(`${inWords(entry)}\n`);

/** As long as there is no steward: what that means, and how to become the first. */
function accessLines({ firstLink }: Service, { listen, httpCredentials }: ServeSettings): string[] {
  if (firstLink === undefined) return [];
  const open = isLoopback(listen.host) && httpCredentials === undefined;
  return [
    open ? 'nobody has to sign in: whoever works at this machine may do all' : 'nobody can sign in yet',
    `the first steward signs in here, once, within a day: ${firstLink}`,
  ];
}
