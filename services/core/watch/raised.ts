/**
 * From the probes of a bed to what is raised for the bed: of heating, and of damp, one action at a time, the more
 * urgent one. The strongest probe gives the evidence and the place.
 */
import type { Evidence, Place, Priority } from '../model/alarm.js';
import type { ProbeState, Raised, WatchState } from './state.js';
import type { Change } from './watch.js';

/** How one kind of condition is read from a probe. */
export interface Kind {
  readonly kind: 'heating' | 'damp';
  /** What the probe asks for. */
  readonly asks: (probe: ProbeState) => Raised;
  /** Of two probes that ask for the same, the one with more of it gives the evidence. */
  readonly strength: (probe: ProbeState) => number;
  readonly evidence: (id: string, probe: ProbeState) => Evidence;
  readonly place: (id: string) => Place | null;
}

const PRIORITY: Readonly<Record<'check' | 'unpack', Priority>> = {
  unpack: 'high',
  check: 'medium',
};

/** The strongest of the probes that ask for an action; of equals the first by id. */
function strongest(state: WatchState, kind: Kind, action: Raised): [string, ProbeState] | undefined {
  const asking = [...state.probes].filter(([, probe]) => kind.asks(probe) === action);
  return asking.sort(
    ([id, one], [otherId, other]) => kind.strength(other) - kind.strength(one) || (id < otherId ? -1 : 1),
  )[0];
}

/** What changes for the bed in this hour; the state takes note of it. */
export function changesOf(state: WatchState, kind: Kind): Change[] {
  const asked = [...state.probes.values()].map(kind.asks);
  const action = (['unpack', 'check'] as const).find((urgent) => asked.includes(urgent)) ?? null;
  const before = state.raised[kind.kind];
  if (action === before) return [];
  state.raised[kind.kind] = action;
  const changes: Change[] = before ? [{ type: 'clear', kind: kind.kind, action: before }] : [];
  const found = action && strongest(state, kind, action);
  if (action && found)
    changes.push({
      type: 'raise',
      kind: kind.kind,
      action,
      priority: PRIORITY[action],
      evidence: kind.evidence(...found),
      place: kind.place(found[0]),
    });
  return changes;
}
