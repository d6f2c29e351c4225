/**
 * `sandlarder evaluate`: simulated seasons through the watch beside simple rules, a site's own history, or recorded
 * readings.
 */
import { SandlarderError } from '../core/errors.js';
import { evaluateHistory } from './evaluation/history.js';
import { evaluateRecorded } from './evaluation/recorded.js';
import { evaluationNames, makingOf } from './evaluation/scenarios.js';
import { evaluateSimulated } from './evaluation/simulated.js';
import { readWhole } from './numbers.js';
import { onOutput as say } from './say.js';

export interface EvaluateFlags {
  /** Absent for 5. */
  readonly seeds?: string;
  /** Absent for 1. */
  readonly firstSeed?: string;
  readonly json?: boolean;
  readonly data?: string;
  readonly bed?: string;
  readonly recorded?: string;
  readonly site?: string;
}

/** Seeds in one run at the most: each is some seconds of every scenario. */
const MOST_SEEDS = 1000;
const USUAL = { seeds: '5', firstSeed: '1' } as const;

export async function evaluate(names: readonly string[], flags: EvaluateFlags): Promise<void> {
  refuseMixtures(names, flags);
  const { data, recorded, site, bed, json = false } = flags;
  if (data !== undefined) return evaluateHistory({ directory: data, bed, json }, say);
  if (recorded !== undefined && site !== undefined)
    return evaluateRecorded({ file: recorded, siteFile: site, bed, json }, say);
  if (names.length === 1 && names[0] === 'list') return listNames(json);
  const seeds = readWhole('--seeds', flags.seeds ?? USUAL.seeds, 1, MOST_SEEDS);
  const firstSeed = readWhole('--first-seed', flags.firstSeed ?? USUAL.firstSeed, 0, 2 ** 31);
  const scenarios = names.length > 0 ? names : evaluationNames();
  for (const name of scenarios) makingOf(name);
  return evaluateSimulated({ scenarios, seeds, firstSeed, json }, say);
}

function listNames(json: boolean): void {
  const names = evaluationNames();
  say(json ? JSON.stringify(names) : names.join('\n'));
}

/** What is evaluated is one of three: scenarios, a data directory, or a file with its site. */
function refuseMixtures(names: readonly string[], flags: EvaluateFlags): void {
  const { data, bed, recorded, site, seeds, firstSeed } = flags;
  const refuse = (message: string): never => {
    throw new SandlarderError('WRONG_USAGE', message);
  };
  if (data !== undefined && recorded !== undefined) refuse('expected --data or --recorded, got both');
  if ((recorded === undefined) !== (site === undefined)) refuse('expected --recorded and --site together');
  const own = data !== undefined || recorded !== undefined;
  if (own && (names.length > 0 || seeds !== undefined || firstSeed !== undefined))
    refuse('--data and --recorded: expected no scenarios and no seeds with them');
  if (!own && bed !== undefined) refuse('--bed: expected --data or --recorded with it');
}
