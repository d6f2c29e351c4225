/**
 * What has changed since somebody asked last, by its kind and beds: who shows it then asks anew.
 *
 * What is noted within a transaction that fails is told all the same: whoever asks anew sees that nothing changed.
 */

/** Ids of alarms that are named: with more of them all alarms of the beds are to be asked for. */
const MOST_ALARMS = 200;

/** Things that change as a whole. */
export type Whole = 'site' | 'probes' | 'bench' | 'access';

export interface Changed {
  /** Beds with new readings, or with hours that are newly judged. */
  readonly readings: readonly string[];
  /** `more`: not every alarm that changed is named. */
  readonly alarms: {
    readonly beds: readonly string[];
    readonly ids: readonly string[];
    readonly more: boolean;
  };
  /** Beds of which something was written down or described otherwise. */
  readonly beds: readonly string[];
  readonly wholes: readonly Whole[];
}

export class Changes {
  readonly #readings = new Set<string>();
  readonly #alarmBeds = new Set<string>();
  readonly #alarms = new Set<string>();
  readonly #beds = new Set<string>();
  readonly #wholes = new Set<Whole>();
  #more = false;
  #onNote: () => void = () => undefined;

  /** @param call called at each note; it must not throw, and do no more than plan to ask */
  onNote(call: () => void): void {
    this.#onNote = call;
  }

  readings(bed: string): void {
    this.#readings.add(bed);
    this.#onNote();
  }

  alarms(bed: string, ids: readonly string[]): void {
    this.#alarmBeds.add(bed);
    for (const id of ids) {
      if (this.#alarms.size < MOST_ALARMS) this.#alarms.add(id);
      else this.#more ||= !this.#alarms.has(id);
    }
    this.#onNote();
  }

  bed(bed: string): void {
    this.#beds.add(bed);
    this.#onNote();
  }

  whole(whole: Whole): void {
    this.#wholes.add(whole);
    this.#onNote();
  }

  /** Gives what was noted since the last time, and forgets it. */
  take(): Changed {
    const changed: Changed = {
      readings: [...this.#readings],
      alarms: { beds: [...this.#alarmBeds], ids: [...this.#alarms], more: this.#more },
      beds: [...this.#beds],
      wholes: [...this.#wholes],
    };
    for (const noted of [this.#readings, this.#alarmBeds, this.#alarms, this.#beds, this.#wholes])
      noted.clear();
    this.#more = false;
    return changed;
  }
}
