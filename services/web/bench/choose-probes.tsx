/** Which probes go onto the bench: those that are free to be ticked, the others with where they are. */
import type { KnownProbe } from '../api/types/settings.js';
import { Group, Tick } from '../parts/field.js';
import { Fold } from '../parts/fold.js';
import { say } from '../words/say.js';

/** In a bath its readings must not be taken for sand, nor for the air outside. */
export const isFree = ({ stands, onBenchSince }: KnownProbe): boolean =>
  stands === null && onBenchSince === null;

interface ChooseParts {
  /** Of the site. */
  readonly probes: readonly KnownProbe[];
  readonly chosen: readonly string[];
  readonly onChange: (chosen: readonly string[]) => void;
  readonly wrong: string | undefined;
}

export function ChooseProbes({ probes, chosen, onChange, wrong }: ChooseParts) {
  const free = probes.filter(isFree);
  const taken = probes.filter((probe) => !isFree(probe));
  return (
    <>
      <Group
        label={say('bench.probes')}
        hint={say(free.length === 0 ? 'bench.noneFree' : 'bench.probesHint')}
        wrong={wrong}
        required
      >
        <div class="probe-ticks">
          {free.map(({ id }) => (
            <Tick
              key={id}
              label={id}
              checked={chosen.includes(id)}
              onChange={(isIn) => onChange(isIn ? [...chosen, id] : chosen.filter((one) => one !== id))}
            />
          ))}
        </div>
      </Group>
      {taken.length === 0 ? null : (
        <Fold title={say('bench.taken', { count: taken.length })} open={free.length === 0}>
          <ul class="plain-list">
            {taken.map((probe) => (
              <li key={probe.id}>
                <a class="row-link" href={`/settings/probes/${encodeURIComponent(probe.id)}`}>
                  {whereItIs(probe)}
                </a>
              </li>
            ))}
          </ul>
        </Fold>
      )}
    </>
  );
}

function whereItIs({ id, stands, onBenchSince }: KnownProbe): string {
  if (onBenchSince !== null) return say('bench.takenBench', { probe: id });
  return stands?.bed === undefined
    ? say('bench.takenShade', { probe: id })
    : say('bench.takenBed', { probe: id, bed: stands.bed });
}
