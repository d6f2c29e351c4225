/**
 * A bed's shape in the query of an address, so that one page can hand it to another:
 * `?kind=stepped-pit&steps=150x60x25,100x60x25`, as `sandlarder plan` takes it. Each step is length x width x height in
 * cm, the top one first; `kind` is `stepped-pit` or `box`. The form of a new bed stands at `/settings/beds/new`.
 */
export type BedKind = 'stepped-pit' | 'box';

/** cm. */
export interface StepSides {
  readonly length: number;
  readonly width: number;
  readonly height: number;
}

export interface BedShape {
  readonly kind: BedKind;
  /** From the top down. */
  readonly steps: readonly StepSides[];
}

/** Without its question mark. */
export function shapeInQuery({ kind, steps }: BedShape): string {
  const sides = steps.map(({ length, width, height }) => `${length}x${width}x${height}`);
  return `kind=${kind}&steps=${sides.join(',')}`;
}

const SIDES = /^(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)x(\d+(?:\.\d+)?)$/;

/** @returns undefined where the query holds no shape that can be read; a kind that it does not say is a pit's */
export function shapeOfQuery(query: URLSearchParams | string): BedShape | undefined {
  const asked = new URLSearchParams(query);
  const steps = (asked.get('steps') ?? '').split(',').map(stepOf);
  if (!steps.every((step) => step !== undefined)) return undefined;
  return { kind: asked.get('kind') === 'box' ? 'box' : 'stepped-pit', steps };
}

function stepOf(text: string): StepSides | undefined {
  const [, length, width, height] = SIDES.exec(text.trim()) ?? [];
  const step = { length: Number(length), width: Number(width), height: Number(height) };
  return step.length > 0 && step.width > 0 && step.height > 0 ? step : undefined;
}
