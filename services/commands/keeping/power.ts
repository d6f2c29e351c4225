/** `sandlarder power`: how long a probe's battery lasts, and what a panel does. Needs no service. */
import { SandlarderError } from '../../core/errors.js';
import {
  type Activity,
  POWER_DEFAULTS,
  type PowerTask,
  powerBudget,
  powerCautions,
  powerInLines,
} from '../../core/keeping/index.js';
import { readNumber } from '../numbers.js';
import { onOutput, type Say } from '../say.js';

export interface PowerFlags {
  readonly sleep: string;
  readonly active?: readonly string[];
  readonly capacity: string;
  readonly voltage?: string;
  readonly usable?: string;
  readonly atTemperature?: string;
  readonly selfDischarge?: string;
  readonly panel?: string;
  readonly sun?: string;
  readonly panelGives?: string;
  readonly charges?: string;
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE */
export function power(flags: PowerFlags, say: Say = onOutput): void {
  const task = taskFrom(flags);
  const budget = asUsage(() => powerBudget(task));
  if (flags.json) say(JSON.stringify({ version: 1, given: task, ...budget, cautions: powerCautions(task) }));
  else for (const line of powerInLines(task, budget)) say(line);
}

function taskFrom(flags: PowerFlags): PowerTask {
  const percent = (flag: string, text: string | undefined, otherwise: number, low = 1): number =>
    text === undefined ? otherwise : readNumber(flag, text, low, low === 0 ? 99 : 100);
  const defaults = POWER_DEFAULTS;
  return {
    sleep_uA: readNumber('--sleep', flags.sleep, 0, 1_000_000),
    activities: (flags.active ?? []).map(activityOf),
    battery: {
      capacity_mAh: readNumber('--capacity', flags.capacity, 1, 1_000_000),
      voltage_V: readNumber('--voltage', flags.voltage ?? '3.3', 0.5, 60),
      usable_percent: percent('--usable', flags.usable, defaults.usable_percent),
      atTemperature_percent: percent('--at-temperature', flags.atTemperature, defaults.atTemperature_percent),
      selfDischarge_percent_year: percent(
        '--self-discharge',
        flags.selfDischarge,
        defaults.selfDischarge_percent_year,
        0,
      ),
    },
    panel: panelFrom(flags, percent),
  };
}

function panelFrom(
  { panel, sun, panelGives, charges }: PowerFlags,
  percent: (flag: string, text: string | undefined, otherwise: number) => number,
): PowerTask['panel'] {
  if (panel === undefined) {
    const [name] = Object.entries({ sun, 'panel-gives': panelGives, charges }).find(([, text]) => text) ?? [];
    if (name !== undefined)
      throw new SandlarderError('WRONG_USAGE', `--${name}: expected --panel W beside it, got none`);
    return undefined;
  }
  if (sun === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      '--panel: expected --sun beside it, hours of full sun a day in the poorest month, got none',
    );
  return {
    power_W: readNumber('--panel', panel, 0.001, 1000),
    sun_h_day: readNumber('--sun', sun, 0, 14),
    gives_percent: percent('--panel-gives', panelGives, POWER_DEFAULTS.gives_percent),
    charges_percent: percent('--charges', charges, POWER_DEFAULTS.charges_percent),
  };
}

/** `20:2.5:144`. */
function activityOf(text: string): Activity {
  const parts = text.split(':');
  if (parts.length !== 3)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--active: expected mA:seconds:times a day, such as 20:2.5:144, got ${JSON.stringify(text)}`,
    );
  const [current_mA, time_s, timesADay] = parts.map((part) => readNumber('--active', part, 0, 86_400)) as [
    number,
    number,
    number,
  ];
  return { current_mA, time_s, timesADay };
}

function asUsage<Result>(make: () => Result): Result {
  try {
    return make();
  } catch (error) {
    if (error instanceof SandlarderError) throw new SandlarderError('WRONG_USAGE', `power: ${error.message}`);
    throw error;
  }
}
