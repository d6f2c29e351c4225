/** `sandlarder serve`: runs until it is told to stop. */
import { createLog } from '../log.js';
import { serve } from '../serve.js';
import { describeSettings, readServeSettings, type ServeFlags } from '../settings.js';

export async function runService(flags: ServeFlags): Promise<void> {
  const settings = readServeSettings(flags, process.env);
  const log = createLog((line) => process.stderr.write(`${line}\n`), Date.now);
  log(`sandlarder serve: ${describeSettings(settings)}`);
  const service = await serve({
    settings,
    tellConsole: (line) => process.stdout.write(`${line}\n`),
    log,
  });
  log(`ready: readings at ${service.brokerUrl}, questions at ${service.httpUrl}/api/beds`);
  await untilStopped();
  log('stopping');
  await service.close();
  log('stopped');
}

/** Resolves at SIGINT or SIGTERM; a second one ends the process at once. */
function untilStopped(): Promise<void> {
  return new Promise((resolve) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const)
      process.once(signal, () => {
        process.once(signal, () => process.exit(1));
        resolve();
      });
  });
}
