/** Where the cuts may go: through the likely source first, for that is where one looks. */
import { blocksOf } from '../../../core/model/bed.js';
import type { Alarm } from '../../api/types/alarm.js';
import type { Bed } from '../../api/types/bed.js';
import { say } from '../../words/say.js';
import { placed } from './sources.js';
import type { ProbeThen } from './then.js';
import { type Point, reachOfAll } from './views.js';

export interface CutChoice {
  readonly value: string;
  readonly label: string;
  readonly cut: Point;
}

export interface Cuts {
  readonly choices: readonly CutChoice[];
  readonly chosen: CutChoice;
}

/** @param wanted value of a choice; the first where there is none such */
export function cutsOf(
  { steps }: Bed,
  probes: readonly ProbeThen[],
  alarms: readonly Alarm[],
  wanted: string,
): Cuts {
  const blocks = blocksOf(steps);
  const middle = (length: keyof Point): number => {
    const [low, high] = reachOfAll(blocks, length);
    return (low + high) / 2;
  };
  const centre: CutChoice = {
    ...{ value: 'middle', label: say('bed.throughMiddle') },
    cut: { x: middle('x'), y: middle('y'), depth: middle('depth') },
  };
  const sources = placed(alarms)
    .slice(0, 1)
    .map(({ place }): CutChoice => ({ value: 'source', label: say('bed.throughSource'), cut: place }));
  const byProbe = probes.map(
    (probe): CutChoice => ({
      ...{ value: `probe ${probe.id}`, label: say('bed.throughProbe', { id: probe.id }) },
      cut: probe,
    }),
  );
  const choices = [...sources, centre, ...byProbe];
  return { choices, chosen: choices.find(({ value }) => value === wanted) ?? sources[0] ?? centre };
}
