/**
 * A watch that points: simple enough to be followed by hand, and with every kind of answer that the seam allows.
 *
 * From 30 °C at p01 on (mean of an hour) the bed is to be unpacked, at a place whose x is the temperature at p02 and
 * whose radius is that at p03, in cm; it is refined whenever these change. A probe that sends 85 °C is at fault until
 * an hour of it is without. Of two samples of a probe that are 10 °C or more apart, in this hour or across the hours
 * before, the earlier one is flagged.
 */
import type { Place } from '../../services/core/model/alarm.js';
import type {
  BedHour,
  Change,
  Condition,
  QualityFlag,
  Sample,
  Watch,
} from '../../services/core/watch/watch.js';

const UNPACK: Condition = { kind: 'heating', action: 'unpack', subject: '' };
const JUMP_C = 10;
const CODE_C = 85;

interface State {
  place: Place | null;
  atFault: string[];
  last: Record<string, Sample>;
}

const warmthOf = (samples: readonly Sample[] = []): number =>
  samples.reduce((sum, { temperature = 0 }) => sum + temperature, 0) / samples.length;

function placeOf({ probes }: BedHour, before: Place | null): Place {
  const [x, radius] = ['p02', 'p03'].map((id) => warmthOf(probes.get(id)));
  return {
    x: Number.isFinite(x) ? (x ?? 0) : (before?.x ?? 0),
    radius: Number.isFinite(radius) ? (radius ?? 0) : (before?.radius ?? 0),
    ...{ y: 40, depth: 30 },
  };
}

function heating(state: State, hour: BedHour): Change[] {
  const warm_C = warmthOf(hour.probes.get('p01'));
  if (!Number.isFinite(warm_C)) return [];
  const before = state.place;
  state.place = warm_C >= 30 ? placeOf(hour, before) : null;
  const known = { evidence: { warm_C }, place: state.place };
  if (state.place && !before) return [{ type: 'raise', ...UNPACK, priority: 'high', ...known }];
  if (state.place && JSON.stringify(state.place) !== JSON.stringify(before))
    return [{ type: 'refine', ...UNPACK, ...known }];
  return before && !state.place ? [{ type: 'clear', ...UNPACK }] : [];
}

function faults(state: State, { probes }: BedHour): Change[] {
  return [...probes].flatMap(([subject, samples]): Change[] => {
    const faulty = samples.some(({ temperature }) => temperature === CODE_C);
    if (faulty === state.atFault.includes(subject)) return [];
    state.atFault = state.atFault.filter((id) => id !== subject).concat(faulty ? [subject] : []);
    const condition = { kind: 'probe-fault', action: 'service', subject } as const;
    if (!faulty) return [{ type: 'clear', ...condition }];
    return [{ type: 'raise', ...condition, priority: 'low', evidence: { probe: subject }, place: null }];
  });
}

function jumps(state: State, id: string, samples: readonly Sample[]): QualityFlag[] {
  return samples.flatMap((sample): QualityFlag[] => {
    const before = state.last[id];
    state.last[id] = sample;
    const jump_C = Math.abs((sample.temperature ?? Number.NaN) - (before?.temperature ?? Number.NaN));
    if (!before || !(jump_C >= JUMP_C)) return [];
    return [{ at: before.at, quantity: 'temperature', reason: 'spike' }];
  });
}

export const pointingWatch: Watch = {
  version: 'pointing',
  open: (_bed, checkpoint) => {
    const state: State = checkpoint ? JSON.parse(checkpoint) : { place: null, atFault: [], last: {} };
    return {
      step: (hour) => ({
        changes: [...heating(state, hour), ...faults(state, hour)],
        judgements: new Map([...hour.probes.keys()].map((id) => [id, { expected_C: state.place?.x ?? 0 }])),
        flags: new Map(
          [...hour.probes, ...hour.shade].map(([id, samples]) => [id, jumps(state, id, samples)]),
        ),
      }),
      standing: () => ({ basis: 'pointing', learning: false }),
      checkpoint: () => JSON.stringify(state),
    };
  },
};
