/** Fingers, mouse and keys on the plots. */
import type { SeriesModel } from './model.js';
import { LEFT_px, RIGHT_px } from './plot.js';
import { lengthOf, moved, type Span, zoomed } from './span.js';

/** A finger that has moved less has pointed, px. */
const STILL_px = 8;

/** A turn of the wheel by 100 makes the span longer or shorter by a fifth. */
const WHEEL = 0.002;

const CLOSER = 0.6;
const FURTHER_SHARE = 0.25;

interface Held {
  x: number;
  readonly startX: number;
}

/** Follows what is done on the element that holds the plots; gives what stops that. */
export function followGestures(element: HTMLElement, model: SeriesModel): () => void {
  const hand = new Hand(element, model);
  const stops = [
    on(element, 'pointerdown', (event) => hand.down(event)),
    on(element, 'pointermove', (event) => hand.move(event)),
    on(element, 'pointerup', (event) => hand.up(event)),
    on(element, 'pointercancel', (event) => hand.drop(event)),
    on(element, 'wheel', (event) => hand.wheel(event)),
    on(element, 'keydown', (event) => {
      if (event.target === element && keyOn(model, event.key)) event.preventDefault();
    }),
  ];
  return () => stops.forEach((stop) => void stop());
}

function on<Name extends keyof HTMLElementEventMap>(
  element: HTMLElement,
  name: Name,
  call: (event: HTMLElementEventMap[Name]) => void,
): () => void {
  element.addEventListener(name, call, { passive: false });
  return () => element.removeEventListener(name, call);
}

/** Whether the key was one for the plots. */
export function keyOn(model: SeriesModel, key: string): boolean {
  const { view, site } = model;
  const middle = model.pointed ?? (view.from + view.to) / 2;
  const spans: Readonly<Record<string, () => Span>> = {
    ArrowLeft: () => moved(view, -FURTHER_SHARE, site.whole),
    ArrowRight: () => moved(view, FURTHER_SHARE, site.whole),
    '+': () => zoomed(view, CLOSER, middle, site.whole),
    '=': () => zoomed(view, CLOSER, middle, site.whole),
    '-': () => zoomed(view, 1 / CLOSER, middle, site.whole),
    Home: () => ({ from: site.whole.from, to: site.whole.from + lengthOf(view) }),
    End: () => ({ from: site.whole.to - lengthOf(view), to: site.whole.to }),
  };
  if (key === 'Backspace') {
    model.back();
    return true;
  }
  const next = spans[key];
  if (!next) return false;
  model.show(next());
  return true;
}

class Hand {
  readonly #element: HTMLElement;
  readonly #model: SeriesModel;
  readonly #held = new Map<number, Held>();
  /** The view when the last finger came or went. */
  #start: Span;
  #hasMoved = false;

  constructor(element: HTMLElement, model: SeriesModel) {
    this.#element = element;
    this.#model = model;
    this.#start = model.view;
  }

  /** Where a place on the screen lies between the edges of the plots, 0 to 1. */
  #share(x: number): number {
    const { left, width } = this.#element.getBoundingClientRect();
    return (x - left - LEFT_px) / Math.max(1, width - LEFT_px - RIGHT_px);
  }

  #timeAt(x: number, { from, to }: Span): number {
    return from + this.#share(x) * (to - from);
  }

  down(event: PointerEvent): void {
    if (event.button !== 0 || (event.target as Element).closest('button, a, input, .strip-open')) return;
    if (this.#held.size === 0) this.#hasMoved = false;
    this.#held.set(event.pointerId, { x: event.clientX, startX: event.clientX });
    this.#begin();
  }

  #begin(): void {
    this.#start = this.#model.view;
    for (const [id, { x }] of this.#held) this.#held.set(id, { x, startX: x });
  }

  move(event: PointerEvent): void {
    const held = this.#held.get(event.pointerId);
    if (!held) {
      if (event.pointerType === 'mouse' && event.buttons === 0)
        this.#model.point(this.#timeAt(event.clientX, this.#model.view));
      return;
    }
    held.x = event.clientX;
    if (!this.#hasMoved && Math.abs(held.x - held.startX) < STILL_px && this.#held.size === 1) return;
    if (!this.#hasMoved) {
      this.#hasMoved = true;
      this.#model.remember();
      this.#element.setPointerCapture(event.pointerId);
    }
    this.#follow();
  }

  /** One finger moves the time under it; two keep the times under them. */
  #follow(): void {
    const [one, two] = [...this.#held.values()];
    const { site } = this.#model;
    if (!one) return;
    const length = lengthOf(this.#start);
    if (!two) {
      const shift = this.#share(one.x) - this.#share(one.startX);
      this.#model.show(moved(this.#start, -shift, site.whole), false);
      return;
    }
    const before = Math.abs(this.#share(one.startX) - this.#share(two.startX));
    const now = Math.max(0.02, Math.abs(this.#share(one.x) - this.#share(two.x)));
    const at = this.#timeAt((one.startX + two.startX) / 2, this.#start);
    const share = this.#share((one.x + two.x) / 2);
    const longer = zoomed(this.#start, Math.max(0.02, before) / now, at, site.whole);
    const drift = at - share * lengthOf(longer) - longer.from;
    this.#model.show(length > 0 ? moved(longer, drift / lengthOf(longer), site.whole) : longer, false);
  }

  up(event: PointerEvent): void {
    const held = this.#held.get(event.pointerId);
    if (held && !this.#hasMoved) this.#model.point(this.#timeAt(event.clientX, this.#model.view));
    this.drop(event);
  }

  drop(event: PointerEvent): void {
    this.#held.delete(event.pointerId);
    this.#begin();
  }

  /** The wheel turns the page unless somebody works with the plots, or pinches on a pad. */
  wheel(event: WheelEvent): void {
    const isMeant = event.ctrlKey || event.metaKey || this.#element.contains(document.activeElement);
    if (!isMeant) return;
    event.preventDefault();
    const { view, site } = this.#model;
    const along = event.shiftKey ? event.deltaX || event.deltaY : event.deltaX;
    if (Math.abs(along) > Math.abs(event.shiftKey ? 0 : event.deltaY)) {
      this.#model.show(moved(view, along / this.#element.clientWidth, site.whole), false);
      return;
    }
    const factor = Math.exp(event.deltaY * WHEEL * (event.ctrlKey ? 4 : 1));
    this.#model.show(zoomed(view, factor, this.#timeAt(event.clientX, view), site.whole), false);
  }
}
