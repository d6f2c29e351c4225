/** What can be evaluated by name: evaluation scenarios, and whatever `simulate` takes. */
import { existsSync } from 'node:fs';
import {
  EVALUATION_SCENARIOS,
  listScenarios,
  loadScenario,
  type Scenario,
} from '../../../simulator/index.js';
import { SandlarderError } from '../../core/errors.js';

export const evaluationNames = (): string[] => Object.keys(EVALUATION_SCENARIOS);

/**
 * A scenario as a function of the seed.
 *
 * @param name of an evaluation scenario, of one that comes with the program, or a scenario file
 * @throws SandlarderError WRONG_USAGE where it is none of them, or the file is no scenario
 */
export function makingOf(name: string): (seed: number) => Scenario {
  const own = Object.hasOwn(EVALUATION_SCENARIOS, name) ? EVALUATION_SCENARIOS[name] : undefined;
  if (own) return own;
  if (!listScenarios().includes(name) && !existsSync(name))
    throw new SandlarderError(
      'WRONG_USAGE',
      `scenario ${JSON.stringify(name)}: expected a name that "sandlarder evaluate list" gives, or a scenario file, got neither`,
    );
  const scenario = loadScenario(name);
  return () => scenario;
}
