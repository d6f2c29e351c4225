/** `sandlarder simulate SCENARIO`: publishes a simulated season as probes would. */
import {
  type LoadOptions,
  listScenarios,
  loadScenario,
  publish,
  type Scenario,
  siteOf,
} from '../../simulator/index.js';
import { SandlarderError } from '../core/errors.js';
import { formatTime, parseTime } from '../core/model/time.js';
import { writeFile } from '../files.js';
import { parseBrokerUrl } from '../intake/index.js';
import { readNumber, readWhole } from './numbers.js';
import { createProgress } from './progress.js';
import { seasonStart } from './season-start.js';

export interface SimulateFlags {
  readonly broker: string;
  readonly speed?: string;
  readonly seed: string;
  readonly from?: string;
  readonly weather?: string;
  readonly weatherColumn?: string;
  readonly weatherOffset?: string;
  readonly siteOut?: string;
  readonly json?: boolean;
}

export async function simulate(name: string, flags: SimulateFlags): Promise<void> {
  if (name === 'list') return listNames(flags.json === true);
  const scenario = loadScenario(name, weatherOf(flags));
  const from = readStart(flags.from, scenario);
  if (flags.siteOut !== undefined) return writeSite(flags.siteOut, siteOf(scenario, from));
  parseBrokerUrl(flags.broker);
  const progress = createProgress(process.stderr, () => performance.now());
  const stop = new AbortController();
  for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stop.abort());
  const result = await publish({
    brokerUrl: flags.broker,
    ...secrets(process.env),
    scenario,
    seed: readWhole('--seed', flags.seed, 0, 2 ** 32 - 1),
    from,
    speed:
      flags.speed === undefined ? Number.POSITIVE_INFINITY : readNumber('--speed', flags.speed, 0.001, 1e9),
    signal: stop.signal,
    onProgress: (time) => progress.show(`${formatTime(time)}  published`),
  });
  progress.clear();
  const line = `${name}: ${result.published} messages published from ${formatTime(from)}, ${result.retried} tried again`;
  process.stdout.write(
    `${flags.json ? JSON.stringify({ scenario: name, from: formatTime(from), ...result }) : line}\n`,
  );
  if (stop.signal.aborted)
    throw new SandlarderError('BROKER_UNAVAILABLE', 'stopped before the season was over');
}

function listNames(json: boolean): void {
  const names = listScenarios();
  process.stdout.write(json ? `${JSON.stringify(names)}\n` : `${names.join('\n')}\n`);
}

/** How the weather file is read, where there is one. */
function weatherOf({ weather, weatherColumn, weatherOffset }: SimulateFlags): LoadOptions {
  if (weather === undefined && (weatherColumn !== undefined || weatherOffset !== undefined))
    throw new SandlarderError(
      'WRONG_USAGE',
      '--weather-column and --weather-offset: expected --weather with them',
    );
  return {
    weatherFile: weather,
    weather: {
      ...(weatherColumn !== undefined && { column: weatherColumn }),
      ...(weatherOffset !== undefined && {
        warmer_C: readNumber('--weather-offset', weatherOffset, -40, 40),
      }),
    },
  };
}

/** A season that is over by now, where no start is given. */
function readStart(text: string | undefined, { days, site }: Scenario): number {
  if (text === undefined) return seasonStart(Date.now(), days, site.timezone);
  const time = parseTime(text) ?? parseTime(`${text}T00:00:00Z`);
  if (time === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--from: expected a time such as 2026-05-04T08:00:00Z, got ${JSON.stringify(text)}`,
    );
  return time;
}

function writeSite(file: string, site: unknown): void {
  writeFile(file, `${JSON.stringify(site, null, 2)}\n`, { flag: '--site-out' });
  process.stdout.write(`${file} written: take it in with "sandlarder load ${file}"\n`);
}

/** The same names as for `serve`: a broker that asks for a password asks publishers too. */
function secrets(environment: NodeJS.ProcessEnv): { username?: string; password?: string } {
  const { SANDLARDER_MQTT_USER: username, SANDLARDER_MQTT_PASSWORD: password } = environment;
  return { ...(username !== undefined && { username }), ...(password !== undefined && { password }) };
}
