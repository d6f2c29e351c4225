/** Probes in the drawing, each with its name where nothing else is named. */
import type { Frame } from './cross-section-frame.js';
import { LETTER, WIDTH } from './cross-section-frame.js';
import { diamond, PROBE, text, widthOf } from './cross-section-marks.js';
import type { Plan } from './plan-types.js';

interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

interface Mark {
  readonly x: number;
  readonly y: number;
  readonly words: string;
}

/** Probes that lie one behind the other are one mark with all their names. */
function marksOf({ probes }: Plan, { x, y }: Frame): Mark[] {
  const marks = new Map<string, Mark>();
  for (const probe of probes) {
    const place = `${probe.x} ${probe.depth}`;
    const words = [marks.get(place)?.words, probe.id].filter(Boolean).join(' ');
    marks.set(place, { x: x(probe.x), y: y(probe.depth), words });
  }
  return [...marks.values()];
}

const overlap = (one: Box, other: Box): number =>
  Math.max(0, Math.min(one.left + one.width, other.left + other.width) - Math.max(one.left, other.left)) *
  Math.max(0, Math.min(one.top + one.height, other.top + other.height) - Math.max(one.top, other.top));

/** Places for the name of a mark: above, below, right, left; beside it a name might be taken for its neighbour's. */
function placesFor({ x, y, words }: Mark): Box[] {
  const [width, height, off] = [widthOf(words) + 6, LETTER, PROBE + 2];
  return [
    { left: x - width / 2, top: y - off - height, width, height },
    { left: x - width / 2, top: y + off, width, height },
    { left: x + off, top: y - height / 2, width, height },
    { left: x - off - width, top: y - height / 2, width, height },
  ];
}

const boxOf = ({ x, y }: Mark): Box => ({
  left: x - PROBE,
  top: y - PROBE,
  width: 2 * PROBE,
  height: 2 * PROBE,
});

/** The place that covers least of what is there already; the first of equals. */
function freest(places: readonly Box[], taken: readonly Box[]): Box {
  const covered = places.map((place) => taken.reduce((sum, box) => sum + overlap(place, box), 0));
  return places[covered.indexOf(Math.min(...covered))] as Box;
}

/** What lies above the sand and beside each step: names stay off it where they can. */
const outside = ({ x, y, steps }: Frame): Box[] => [
  { left: 0, top: 0, width: WIDTH, height: y(0) },
  ...steps.flatMap(({ left, right, top, bottom }) => {
    const band = { top: y(top), height: y(bottom) - y(top) };
    return [
      { ...band, left: 0, width: x(left) },
      { ...band, left: x(right), width: WIDTH - x(right) },
    ];
  }),
];

export function probesDrawn(plan: Plan, frame: Frame): string[] {
  const marks = marksOf(plan, frame);
  const taken = [...marks.map(boxOf), ...outside(frame)];
  const names = marks.map((mark) => {
    const box = freest(placesFor(mark), taken);
    taken.push(box);
    return [
      `<rect x="${box.left.toFixed(1)}" y="${box.top.toFixed(1)}" width="${box.width.toFixed(1)}" height="${box.height}" fill="#fff"/>`,
      text(box.left + box.width / 2, box.top + LETTER - 4, mark.words, { anchor: 'middle', bold: true }),
    ].join('');
  });
  return [...names, ...marks.map(({ x, y }) => diamond(x, y))];
}
