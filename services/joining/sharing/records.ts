/** What passes between an edge machine and a centre beside readings: out at an edge, in at a centre, neither elsewhere. */
import { partitionName, partitionOf } from '../../core/model/partition.js';
import type { Log } from '../../log.js';
import type { ServeSettings } from '../../settings.js';
import type { Broker } from '../broker.js';
import type { Station } from '../station.js';
import { RecordsIn } from './records-in.js';
import { RecordsOut } from './records-out.js';

export class Records {
  /** Of a partition of a centre. */
  readonly in: RecordsIn | undefined;
  readonly #parts: { readonly settings: ServeSettings; readonly station: Station; readonly log: Log };
  #out: RecordsOut | undefined;

  constructor(settings: ServeSettings, station: Station, log: Log) {
    this.#parts = { settings, station, log };
    this.in = settings.partition && new RecordsIn(station, Date.now);
  }

  /** From now on what is written is noted for a centre; where none is told nothing more is. */
  open(broker: Broker): void {
    const { settings, station, log } = this.#parts;
    station.registry.records.setActive(settings.tellCentre);
    if (settings.tellCentre)
      this.#out = new RecordsOut({
        ...{ registry: station.registry, log, now: Date.now },
        publish: (message) => broker.publish(message),
        connected: () => broker.connected(),
      });
  }

  /** In words: sites whose bridges were written for another number of partitions. */
  problems(): string[] {
    const { settings, station } = this.#parts;
    const { partition } = settings;
    if (!partition) return [];
    const sites = new Set([...station.directory.beds.values()].map(({ site }) => site.id));
    return [...sites]
      .filter((site) => partitionOf(site, partition.of) !== partition.number)
      .map(
        (site) =>
          `site ${site} belongs to ${partitionName(partitionOf(site, partition.of))}: write the bridge of its edge anew, with --partitions ${partition.of}`,
      );
  }

  /** Once a second. */
  look(): void {
    try {
      this.in?.takeOver();
      this.#out?.send();
    } catch (error) {
      this.#parts.log(`records of edges and centre: ${String(error)}`, 'records');
    }
  }

  close(): void {
    this.#out?.close();
  }
}
