/** What the HTTP edge needs to tell what changes while somebody listens. */

export const LIVE_EVENTS = [
  'readings',
  'alarms',
  'beds',
  'site',
  'probes',
  'bench',
  'access',
  'health',
] as const;

export interface LiveEvent {
  readonly event: (typeof LIVE_EVENTS)[number];
  /** Written as JSON. */
  readonly data: object;
}

/** Why a stream ended: its reader went, did not keep up, was told to ask again after a long time, or the service stops. */
export type StreamEnd = 'left' | 'slow' | 'old' | 'stopped';

export interface LivePorts {
  /**
   * Calls with what changed, at most once a second, until the function returned is called.
   *
   * @param heard must not throw
   */
  listen(heard: (events: readonly LiveEvent[]) => void): () => void;
  /** Counts a stream that was opened. */
  opened(): void;
  /** Counts a stream that ended. */
  ended(why: StreamEnd): void;
  /** Counts a stream for which there was no room. */
  refused(): void;
}
