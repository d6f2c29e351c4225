/** `sandlarder serve`: runs until it is told to stop. */
import { createLog, inWords, jsonWriter, type LogEntry } from '../log.js';
import { serve } from '../serve.js';
import { describeSettings, readServeSettings, type ServeFlags } from '../settings.js';
import { untilStopped } from './until-stopped.js';

export async function runService(flags: ServeFlags): Promise<void> {
  const settings = readServeSettings(flags, process.env);
  const write = settings.log === 'json' ? jsonWriter(2) : writeWords;
  const log = createLog(write, Date.now);
  log(`sandlarder serve: ${describeSettings(settings)}`);
  const service = await serve({
    settings,
    tellConsole: (line) => process.stdout.write(`${line}\n`),
    log,
  });
  // Before anybody can know that it runs: who asks it to stop then is heard.
  const stopped = untilStopped();
  log(`ready: readings at ${service.brokerUrl}, questions at ${service.httpUrl}/api/beds`);
  await stopped;
  log('stopping');
  await service.close();
  log('stopped');
}

const writeWords = (entry: LogEntry): unknown => process.stderr.write(`${inWords(entry)}\n`);
