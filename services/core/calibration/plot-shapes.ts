/** Shapes that a plot is made of, and its legend: whoever draws them needs to know nothing of calibrations. */
export interface Position {
  readonly x: number;
  readonly y: number;
}

/**
 * - `used` filled disc
 * - `outlier` open diamond
 * - `left-out` cross
 * - `beyond-above`, `beyond-below` open triangle that points to where the point lies
 */
export type Mark = 'used' | 'outlier' | 'left-out' | 'beyond-above' | 'beyond-below';

export type Shape =
  | { readonly kind: 'area'; readonly points: readonly Position[] }
  | { readonly kind: 'line'; readonly points: readonly Position[]; readonly dashed: boolean }
  | { readonly kind: 'mark'; readonly mark: Mark; readonly at: Position }
  | {
      readonly kind: 'text';
      readonly text: string;
      /** Of the base line. */
      readonly at: Position;
      readonly anchor: 'start' | 'middle' | 'end';
      /** Reads upwards. */
      readonly turned: boolean;
    };

/** Letters, and half a mark, in the units of the plane. */
export const LETTER = 12;
export const DISC = 3.6;
export const ARM = 5;

/** A grey that prints, and that black on it stays readable against (11 to 1). */
export const AREA_GREY = '#d0d0d0';

/** Corners of a mark that has any, about its middle; the cross is two lines, the disc has none. */
export const CORNERS: Readonly<Record<'outlier' | 'beyond-above' | 'beyond-below', readonly Position[]>> = {
  outlier: [
    { x: 0, y: -ARM - 1 },
    { x: ARM + 1, y: 0 },
    { x: 0, y: ARM + 1 },
    { x: -ARM - 1, y: 0 },
  ],
  'beyond-above': [
    { x: 0, y: -ARM },
    { x: ARM, y: ARM },
    { x: -ARM, y: ARM },
  ],
  'beyond-below': [
    { x: 0, y: ARM },
    { x: ARM, y: -ARM },
    { x: -ARM, y: -ARM },
  ],
};

/** Lines of the cross, about its middle. */
export const CROSS: readonly (readonly [Position, Position])[] = [
  [
    { x: -ARM, y: -ARM },
    { x: ARM, y: ARM },
  ],
  [
    { x: -ARM, y: ARM },
    { x: ARM, y: -ARM },
  ],
];

export const lineThrough = (...points: readonly Position[]): Shape => ({
  kind: 'line',
  points,
  dashed: false,
});

const LEGEND: readonly (readonly [mark: Mark, text: string, column: number, row: number])[] = [
  ['used', 'used; bar: standard uncertainty (k = 1)', 0, 0],
  ['outlier', 'outlier, used', 1, 0],
  ['left-out', 'left out', 2, 0],
  ['beyond-above', 'left out, beyond the axis: nr and value', 1, 1],
];
const COLUMNS = [8, 290, 430] as const;
const ROW = 20;

/** What each shape means; two rows from `corner` downwards. */
export function legendOf(corner: Position): Shape[] {
  const label = (text: string, x: number, y: number): Shape => ({
    kind: 'text',
    text,
    at: { x: x + 12, y: y + 4 },
    anchor: 'start',
    turned: false,
  });
  const marks = LEGEND.flatMap(([mark, text, column, row]): Shape[] => {
    const at = { x: corner.x + (COLUMNS[column] ?? 0), y: corner.y + row * ROW };
    return [{ kind: 'mark', mark, at }, label(text, at.x, at.y)];
  });
  return [
    ...marks,
    ...bandKey({ x: corner.x, y: corner.y + ROW }),
    label('U of the fitted correction (k = 2)', corner.x + 8, corner.y + ROW),
  ];
}

function bandKey({ x, y }: Position): Shape[] {
  const [left, right, top, bottom] = [x, x + 16, y - 6, y + 6];
  const edge = (at: number): Shape => ({
    kind: 'line',
    points: [
      { x: left, y: at },
      { x: right, y: at },
    ],
    dashed: true,
  });
  const corners = [
    { x: left, y: top },
    { x: right, y: top },
    { x: right, y: bottom },
    { x: left, y: bottom },
  ];
  return [{ kind: 'area', points: corners }, edge(top), edge(bottom)];
}
