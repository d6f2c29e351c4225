/** What the plots show now, and what they are drawn from. Changes are told once for each picture that is drawn. */
import { useEffect, useState } from 'preact/hooks';
import { changes } from '../../parts/changes.js';
import type { Cursor } from '../cursor.js';
import { isSame, lengthOf, type Span, within } from './span.js';
import { pointsFor } from './tile-places.js';
import { type Piece, Tiles } from './tiles.js';

export const PLOTS = ['temperature', 'excess', 'humidity', 'swing', 'shade'] as const;
export type PlotName = (typeof PLOTS)[number];

export interface Choice {
  /** The probe that is drawn heavily, and told of. */
  readonly front: string;
  /** Whether the others are drawn thinly behind it. */
  readonly others: boolean;
  readonly plots: readonly PlotName[];
}

export interface SeriesSite {
  readonly bed: string;
  /** From the filling to the newest reading. */
  readonly whole: Span;
  /** In the order in which they are listed. */
  readonly probes: readonly string[];
  readonly shade: readonly string[];
}

/** A view is settled when it has not moved for so long, ms: then what takes longer follows. */
const SETTLED_ms = 250;

/** Views that can be gone back to. */
const MOST_BEFORE = 30;

export class SeriesModel {
  readonly tiles: Tiles;
  readonly drawn = changes<void>();
  readonly settled = changes<void>();
  site: SeriesSite;
  choice: Choice;
  view: Span;
  /** The view at which the page rests. */
  settledView: Span;
  /** Where the crosshair stands, ms; undefined where it was not put anywhere yet. */
  pointed: number | undefined;
  width_px = 320;
  /** Grows when what is drawn is another: pointing draws nothing anew. */
  edition = 0;
  readonly #cursor: Cursor;
  readonly #stopCursor: () => void;
  #before: Span[] = [];
  #frame: number | undefined;
  #restsAnew = false;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(site: SeriesSite, choice: Choice, cursor: Cursor) {
    const { at, window } = cursor.now();
    this.site = site;
    this.choice = choice;
    this.view = window ? within(window, site.whole) : site.whole;
    this.settledView = this.view;
    this.pointed = at;
    this.tiles = new Tiles(site.bed, () => this.#renew(true));
    this.#cursor = cursor;
    this.#stopCursor = cursor.hear(({ at: looked }) => this.#follow(looked));
  }

  /** What is looked at elsewhere on the page is pointed at here, and brought into view. */
  #follow(at: number | undefined): void {
    if (at === this.pointed) return;
    this.pointed = at;
    const { from, to } = this.view;
    if (at !== undefined && !(at >= from && at <= to)) {
      const half = lengthOf(this.view) / 2;
      this.show({ from: at - half, to: at + half });
    }
    this.touch();
  }

  get canGoBack(): boolean {
    return this.#before.length > 0;
  }

  /** Shows another span; a step is one that can be gone back over, other than the many of one drag. */
  show(span: Span, isStep = true): void {
    const next = within(span, this.site.whole);
    if (isSame(next, this.view)) return;
    if (isStep) this.remember();
    this.view = next;
    this.#renew();
    this.#settleSoon();
  }

  /** Keeps the view as one to go back to. */
  remember(): void {
    this.#before = [...this.#before, this.view].slice(-MOST_BEFORE);
  }

  back(): void {
    const last = this.#before.pop();
    if (last) this.show(last, false);
  }

  point(at: number): void {
    this.pointed = Math.round(Math.min(Math.max(at, this.view.from), this.view.to));
    this.#cursor.lookAt(this.pointed);
    this.touch();
  }

  choose(choice: Partial<Choice>): void {
    this.choice = { ...this.choice, ...choice };
    this.want();
    this.#renew(true);
  }

  /** The season has grown; what shows its end goes on showing it. */
  grow(site: SeriesSite): void {
    const before = this.site.whole;
    this.site = site;
    this.tiles.forgetAfter(before.to);
    if (this.view.to >= before.to) {
      const more = site.whole.to - before.to;
      this.view = within({ from: this.view.from + more, to: this.view.to + more }, site.whole);
    }
    this.#settleSoon();
    this.#renew();
  }

  /** The plots are as wide from now on, px. */
  resize(width_px: number): void {
    if (!(width_px > 0) || width_px === this.width_px) return;
    this.width_px = width_px;
    this.touch();
  }

  want(): void {
    const { front, others, plots } = this.choice;
    const { probes, shade } = this.site;
    const behind = others ? probes.filter((id) => id !== front) : [];
    this.tiles.want({
      ...{ view: this.view, whole: this.site.whole, points: pointsFor(this.width_px) },
      probes: [front, ...behind, ...(plots.includes('shade') ? shade : [])],
    });
  }

  pieces(probe: string, view: Span = this.view): Piece[] {
    return this.tiles.pieces(probe, view);
  }

  /** @param rests whether what follows a view that rests is another, too */
  #renew(rests = false): void {
    this.edition += 1;
    this.#restsAnew ||= rests;
    this.touch();
  }

  /** Tells of a change with the next picture. */
  touch(): void {
    this.#frame ??= requestAnimationFrame(() => {
      this.#frame = undefined;
      this.drawn.tell();
      if (!this.#restsAnew) return;
      this.#restsAnew = false;
      this.settled.tell();
    });
  }

  #settleSoon(): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => {
      this.settledView = this.view;
      this.#cursor.show(isSame(this.view, this.site.whole) ? undefined : this.view);
      this.want();
      this.settled.tell();
    }, SETTLED_ms);
    // While it moves, what is nearest is asked for already.
    if (!this.tiles.busy) this.want();
  }

  close(): void {
    this.#stopCursor();
    clearTimeout(this.#timer);
    if (this.#frame !== undefined) cancelAnimationFrame(this.#frame);
    this.tiles.close();
  }
}

/** Draws a component anew with every picture of the plots. */
export function useDrawn(model: SeriesModel): void {
  const [, set] = useState(0);
  useEffect(() => model.drawn.hear(() => set((count) => count + 1)), [model]);
}

/** Draws a component anew when the plots have come to rest, and when parts that were asked for are there. */
export function useSettled(model: SeriesModel): void {
  const [, set] = useState(0);
  useEffect(() => model.settled.hear(() => set((count) => count + 1)), [model]);
}
