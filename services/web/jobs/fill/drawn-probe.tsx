/** A probe on a drawing: a pin with its name; crossed where it lies outside the sand. */

export interface Marked {
  readonly id: string;
  /** cm; NaN where it is not typed yet. */
  readonly x: number;
  readonly y: number;
  readonly depth: number;
  readonly isOutside: boolean;
}

interface DrawnParts {
  readonly probe: Marked;
  /** Down the drawing, cm. */
  readonly at: number;
  /** Height of text, cm. */
  readonly text: number;
  readonly isChosen: boolean;
}

export function DrawnProbe({ probe: { id, x, isOutside }, at, text, isChosen }: DrawnParts) {
  if (!(Number.isFinite(x) && Number.isFinite(at))) return null;
  const reach = 0.45 * text;
  return (
    <g class="probe" data-chosen={isChosen} transform={`translate(${x} ${at})`}>
      {isOutside ? (
        <path
          d={`M${-reach} ${-reach} ${reach} ${reach}M${-reach} ${reach} ${reach} ${-reach}`}
          stroke-width={text / 5}
        />
      ) : (
        <circle r={reach} stroke-width={text / 6} />
      )}
      <text x={0} y={-0.8 * text} text-anchor="middle">
        {id}
      </text>
    </g>
  );
}
