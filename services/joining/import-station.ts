/** A station over a data directory on which no service runs, to take tables in. */
import { ARCHIVE_SCHEMA, createArchive, lockDirectory, openDatabase } from '../archive/index.js';
import { SandlarderError } from '../core/errors.js';
import { sandWatch } from '../core/watch/sand-watch.js';
import { MESSAGE_LIMITS, readMessage } from '../intake/index.js';
import { createRegistry, REGISTRY_SCHEMA } from '../registry/index.js';
import { AlarmKeeper } from './alarm-keeper.js';
import { Station } from './station.js';
import { TakeIn } from './take-in.js';

export interface ImportStation {
  readonly station: Station;
  readonly takeIn: TakeIn;
  close(): void;
}

/** Latest event time that is taken, ms: as of messages. */
export const latestTime = (now: number): number => now + MESSAGE_LIMITS.futureAllowance_ms;

/**
 * @param now wall clock, ms
 * @throws SandlarderError CONFLICT where a service runs on it, with what to do; STORE_UNAVAILABLE
 */
export function openImportStation(directory: string, now: () => number): ImportStation {
  const unlock = locked(directory);
  try {
    const database = openDatabase(directory, [ARCHIVE_SCHEMA, REGISTRY_SCHEMA]);
    const archive = createArchive(database);
    const registry = createRegistry(database);
    const ignored = (): void => undefined;
    // Nothing is judged here: the service does so, and tells.
    const alarms = new AlarmKeeper(registry, {
      ...{ webhooks: [], now, onChange: ignored, onRaised: ignored, onUnusable: ignored },
    });
    const station = new Station({ database, archive, registry, watch: sandWatch, alarms });
    const takeIn = new TakeIn(station, (incoming) => readMessage(incoming, MESSAGE_LIMITS));
    const close = (): void => {
      database.close();
      unlock();
    };
    return { station, takeIn, close };
  } catch (error) {
    unlock();
    throw error;
  }
}

function locked(directory: string): () => void {
  try {
    return lockDirectory(directory);
  } catch (error) {
    if (!(error instanceof SandlarderError && error.code === 'CONFLICT')) throw error;
    throw new SandlarderError(
      'CONFLICT',
      `${error.message}: stop it, import, and start it again; probes with QoS 1 repeat what they send meanwhile, and --dry-run works at any time`,
      { cause: error },
    );
  }
}
