/** How lines are told apart: by colour and by stroke, so that either is enough. */

/** Strokes, in pixels drawn and left out. Colour and stroke repeat after different counts. */
const STROKES: readonly (readonly number[])[] = [
  [],
  [9, 3],
  [2, 3],
  [9, 3, 2, 3],
  [14, 5],
  [5, 2, 1, 2, 1, 2],
];

export const COLOURS = 8;

export interface LineLook {
  /** Name of the colour in series.css. */
  readonly colour: string;
  readonly stroke: readonly number[];
}

/** @param at place of the probe in the list */
export const lookOf = (at: number): LineLook => ({
  colour: `--plot-${(at % COLOURS) + 1}`,
  stroke: STROKES[at % STROKES.length] ?? [],
});

/** Colours as they are in force now. */
export function palette(element: Element): (name: string) => string {
  const style = getComputedStyle(element);
  const known = new Map<string, string>();
  return (name) => {
    const colour = known.get(name) ?? style.getPropertyValue(name).trim();
    known.set(name, colour);
    return colour;
  };
}
