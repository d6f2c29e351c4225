/** Parts of series that were asked for, and those that are still to be: the nearest to what is looked at first. */
import { ask, NoNetwork } from '../../api/client.js';
import { askAndKeep, lastSeen } from '../../api/seen.js';
import type { ReadingsAnswer } from '../../api/types/series.js';
import { type Columns, columnsOf } from './columns.js';
import { DAY_ms, lengthOf, type Span } from './span.js';
import { above, LEVELS, levelFor, spanOfTile, type TilePlace, tilesOver } from './tile-places.js';

/** Questions on their way at once: a browser has six for one host, and the rest of the page asks too. */
const AT_ONCE = 3;

/** Tiles kept, of up to 100 KB each. */
const MOST_TILES = 250;

/** From so many days on a tile is kept on the device, to be seen without a network. */
const KEPT_FROM_ms = 32 * DAY_ms;

interface Wanted {
  readonly probe: string;
  readonly place: TilePlace;
}

/** A part of a series, and the part of it that is to be drawn. */
export interface Piece {
  readonly columns: Columns;
  readonly clip: Span;
}

export interface Wish {
  readonly view: Span;
  /** What is asked for lies within. */
  readonly whole: Span;
  /** In the order in which they are wanted. */
  readonly probes: readonly string[];
  /** Of each tile. */
  readonly points: number;
}

const keyOf = (probe: string, { level, index }: TilePlace): string => `${probe}/${level}/${index}`;

export class Tiles {
  readonly #bed: string;
  readonly #onChange: () => void;
  /** The last used stand last. */
  readonly #tiles = new Map<string, readonly Columns[]>();
  readonly #asked = new Set<string>();
  #queue: Wanted[] = [];
  #running = 0;
  #points = 0;
  #closed = false;
  /** Why the last question was not answered. */
  failed: unknown;

  constructor(bed: string, onChange: () => void) {
    this.#bed = bed;
    this.#onChange = onChange;
  }

  /** Parts are on their way or wait to be asked for. */
  get busy(): boolean {
    return this.#running > 0 || this.#queue.length > 0;
  }

  /** What can be drawn of a probe now: of the wanted tiles, and where one is not there yet of a longer one. */
  pieces(probe: string, view: Span): Piece[] {
    return tilesOver(view, levelFor(view)).flatMap((place) => {
      const own = spanOfTile(place);
      const clip = { from: Math.max(own.from, view.from), to: Math.min(own.to, view.to) };
      return (this.#nearest(probe, place) ?? []).map((columns) => ({ columns, clip }));
    });
  }

  #nearest(probe: string, wanted: TilePlace): readonly Columns[] | undefined {
    for (let place = wanted; place.level < LEVELS; place = above(place)) {
      const key = keyOf(probe, place);
      const tile = this.#tiles.get(key);
      if (!tile) continue;
      this.#tiles.delete(key);
      this.#tiles.set(key, tile);
      return tile;
    }
    return undefined;
  }

  /** Asks for what a view needs, and for half a view to either side of it. */
  want({ view, whole, probes, points }: Wish): void {
    this.#points = points;
    const margin = lengthOf(view) / 2;
    const wide = { from: view.from - margin, to: view.to + margin };
    const level = levelFor(view);
    const near = tilesOver(view, level);
    const far = tilesOver(wide, level).filter(
      (place) => !near.some(({ index }) => index === place.index) && meets(spanOfTile(place), whole),
    );
    this.#queue = [near, far]
      .flatMap((places) => probes.flatMap((probe) => places.map((place) => ({ probe, place }))))
      .filter(({ probe, place }) => !this.#asked.has(keyOf(probe, place)));
    this.#go();
  }

  /** Asks anew for all that ends after a time. */
  forgetAfter(time: number): void {
    for (const key of [...this.#asked]) {
      const [, level, index] = key.split('/').map(Number);
      if (spanOfTile({ level: level ?? 0, index: index ?? 0 }).to > time) this.#asked.delete(key);
    }
  }

  /** Tries again what was not answered. */
  forgetFailure(): void {
    this.failed = undefined;
  }

  close(): void {
    this.#closed = true;
    this.#queue = [];
  }

  #go(): void {
    while (this.#running < AT_ONCE && this.#queue.length > 0 && this.failed === undefined) {
      const wanted = this.#queue.shift() as Wanted;
      this.#asked.add(keyOf(wanted.probe, wanted.place));
      this.#running += 1;
      void this.#fetch(wanted).finally(() => {
        this.#running -= 1;
        if (this.#closed) return;
        this.#go();
        this.#onChange();
      });
    }
  }

  async #fetch({ probe, place }: Wanted): Promise<void> {
    const key = keyOf(probe, place);
    try {
      const { probes, shade, note } = await this.#answer(probe, spanOfTile(place));
      this.#tiles.set(
        key,
        [...probes, ...shade].map((series) => columnsOf(series, note)),
      );
      for (const oldest of this.#tiles.keys()) {
        if (this.#tiles.size <= MOST_TILES) break;
        this.#tiles.delete(oldest);
        this.#asked.delete(oldest);
      }
    } catch (error) {
      this.#asked.delete(key);
      this.failed = error;
    }
  }

  async #answer(probe: string, { from, to }: Span): Promise<ReadingsAnswer> {
    const query = new URLSearchParams({
      ...{ probes: probe, from: textOf(from), to: textOf(to), points: String(this.#points) },
    });
    const path = `/api/beds/${this.#bed}/readings?${query}`;
    if (to - from < KEPT_FROM_ms) return ask<ReadingsAnswer>(path);
    try {
      return await askAndKeep<ReadingsAnswer>(path);
    } catch (error) {
      const seen = error instanceof NoNetwork ? await lastSeen<ReadingsAnswer>(path) : undefined;
      if (!seen) throw error;
      return seen.answer;
    }
  }
}

const meets = (one: Span, other: Span): boolean => one.from < other.to && one.to > other.from;

const textOf = (time: number): string => new Date(time).toISOString().replace('.000Z', 'Z');
