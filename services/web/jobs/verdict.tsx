/** Whether something holds: by a mark of its own shape, by a word and by colour. */
import type { Limit, Met } from '../api/types/readiness.js';
import { English } from '../parts/notice.js';
import { number } from '../words/numbers.js';
import { say } from '../words/say.js';

/** A tick, a cross, a ring with a gap; in a square of 24. */
const SHAPES: Readonly<Record<Met, string>> = {
  met: 'M4 13l5 6L20 5',
  'not met': 'M5 5l14 14M19 5L5 19',
  unknown: 'M19 8A8 8 0 1 0 20 13M12 12v.010',
};

const WORDS = { met: 'sand.met', 'not met': 'sand.notMet', unknown: 'sand.unknown' } as const;

export function MetMark({ state, word }: { state: Met; word?: string }) {
  return (
    <span class="met" data-met={state}>
      <svg viewBox="0 0 24 24" aria-hidden="true">
        <path
          d={SHAPES[state]}
          fill="none"
          stroke="currentColor"
          stroke-width="3"
          stroke-linecap="round"
          stroke-linejoin="round"
        />
      </svg>
      {word ?? say(WORDS[state])}
    </span>
  );
}

const digits = (value: number): number => Math.min(3, (String(value).split('.')[1] ?? '').length);

/** Limits with where each comes from. */
export function Limits({ limits }: { limits: readonly Limit[] }) {
  return (
    <ul class="limits">
      {limits.map(({ name, value, unit, source }) => (
        <li key={name}>
          <English>
            {say('sand.limit', { value: number(value, digits(value)), unit })} <code>{name}</code>. {source}
          </English>
        </li>
      ))}
    </ul>
  );
}
