/** A planned bed cut along its length, to scale, as SVG: black on white, to stand in a page or by itself. */
import { escaped } from '../calibration/markup.js';
import { type Frame, frameOf, LETTER, LINE, WIDTH } from './cross-section-frame.js';
import { diamond, ellipse, line, measured, short, text, widthOf } from './cross-section-marks.js';
import { probesDrawn } from './cross-section-probes.js';
import { bedDrawn, PATTERNS, undersideOf } from './cross-section-sand.js';
import { inHands, inMeasures } from './measures.js';
import type { Plan } from './plan-types.js';

const MARGIN = 16;
const INDENTED = 50;
const whole = (value: number): string => String(Math.round(value));
const few = (value: number): string => String(Math.round(value * 10) / 10);
const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? '' : 's'}`;

export const KIND_IN_WORDS = { 'stepped-pit': 'Stepped pit', box: 'Box' } as const;

const headingOf = ({ kind, beds, volume_L }: Plan): string =>
  `${beds > 1 ? `${beds} times: ` : ''}${KIND_IN_WORDS[kind]} of ${whole(volume_L.total)} L, cut along its length`;

const contentsOf = ({ roots, courses, buckets, bucket_L, sand_L }: Plan): string[] => [
  `${plural(roots, 'root')} in ${plural(courses.length, 'course')};`,
  `${whole(sand_L)} L of sand: ${plural(buckets, 'bucket')} of ${few(bucket_L)} L`,
];

/** Right of the bed: the height of each step, pushed down where the one above needs the room. */
function heights({ steps, measures }: Plan, frame: Frame): string[] {
  const at = frame.x(frame.length_cm) + 32;
  let lowest = Number.NEGATIVE_INFINITY;
  return steps.map((step, index) => {
    const { top = 0, bottom = 0 } = frame.steps[index] ?? {};
    const y = Math.max((frame.y(top) + frame.y(bottom)) / 2 + LETTER / 3, lowest + LINE);
    lowest = y;
    const words = `${few(step.height_cm)} cm, ${inHands(step.height_cm, measures)}`;
    return measured(at, frame.y(top), at, frame.y(bottom)) + text(at + 10, y, words);
  });
}

/** Left of the bed: how many roots lie on each step's floor. */
function rootsBeside({ steps, courses }: Plan, frame: Frame): string[] {
  let lowest = Number.NEGATIVE_INFINITY;
  return steps.map((_, index) => {
    const own = courses.filter(({ step }) => step === index + 1).reduce((sum, { roots }) => sum + roots, 0);
    const { top = 0, bottom = 0 } = frame.steps[index] ?? {};
    const y = Math.max((frame.y(top) + frame.y(bottom)) / 2 + LETTER / 3, lowest + LINE);
    lowest = y;
    return text(frame.x(0) - 30, y, plural(own, 'root'), { anchor: 'end' });
  });
}

/** Under the middle of the bed, or of the drawing where the words would reach beyond its edge. */
function middleFor(words: string, frame: Frame): number {
  const middle = frame.x(frame.length_cm / 2);
  return widthOf(words) / 2 <= middle - MARGIN ? middle : WIDTH / 2;
}

/** Below the bed: length and width of each step. */
function lengths({ steps, measures }: Plan, frame: Frame, from: number): string[] {
  return steps.map((step, index) => {
    const { left = 0, right = 0 } = frame.steps[index] ?? {};
    const y = from + index * 2.2 * LINE;
    const inOwn = [step.length_cm, step.width_cm].map((cm) => inMeasures(cm, measures)).join(' by ');
    const words = `step ${index + 1}: ${few(step.length_cm)} by ${few(step.width_cm)} cm; ${inOwn}`;
    return (
      measured(frame.x(left), y, frame.x(right), y) +
      text(middleFor(words, frame), y + LINE, words, { anchor: 'middle' })
    );
  });
}

/** What the shapes mean. */
function legend(kind: Plan['kind'], y: number, hasProbes: boolean): string {
  const swatch = (x: number, fill: string): string =>
    `<rect x="${x}" y="${short(y - 16)}" width="30" height="18" fill="${fill}" stroke="#000"/>`;
  return [
    ellipse(MARGIN + 16, y - 7, 16, 9) + text(MARGIN + 40, y, 'root'),
    swatch(130, 'url(#plan-sand)') + text(170, y, 'sand'),
    ...(kind === 'box' ? [line(252, y - 7, 282, y - 7, 7)] : [swatch(252, 'url(#plan-ground)')]),
    text(292, y, kind === 'box' ? 'board' : 'ground'),
    ...(hasProbes ? [diamond(400, y - 7), text(416, y, 'probe')] : []),
  ].join('');
}

interface Note {
  readonly words: string;
  readonly indented?: boolean;
}

/** Two lines for each probe: in centimetres, and in the user's measures. */
function probeNotes({ probes, measures }: Plan): Note[] {
  if (probes.length === 0) return [];
  const own = (cm: number): string => (cm < 5 ? 'a finger' : inMeasures(cm, measures));
  return [
    { words: 'Probes, from the north-west corner of the opening:' },
    ...probes.flatMap(({ id, x, y, depth }) => [
      { words: `${id}: ${whole(x)} cm along, ${whole(y)} cm across, ${whole(depth)} cm deep` },
      { words: `${own(x)}; ${own(y)}; ${own(depth)}`, indented: true },
    ]),
  ];
}

function notesOf(plan: Plan): Note[] {
  const { hand_cm, span_cm, forearm_cm, stride_cm } = plan.measures;
  const laid = `Roots by course from the floor up: ${plan.courses.map(({ roots }) => roots).join(', ')}`;
  const own = `A hand is ${few(hand_cm)} cm, a span ${few(span_cm)}, a forearm ${few(forearm_cm)}, a stride ${few(stride_cm)}.`;
  return [
    ...['Steps are given by length and width.', laid, own].flatMap(wrapped).map((words) => ({ words })),
    ...probeNotes(plan),
  ];
}

/** Letters that a line of the drawing takes. */
const LETTERS = 60;

function wrapped(words: string): string[] {
  const lines = [''];
  for (const word of words.split(' ')) {
    const last = lines.at(-1) as string;
    if (last === '') lines[lines.length - 1] = word;
    else if (`${last} ${word}`.length <= LETTERS) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function descriptionOf(plan: Plan): string {
  const steps = plan.steps.map(
    ({ length_cm, width_cm, height_cm }) => `${few(length_cm)} by ${few(width_cm)} by ${few(height_cm)} cm`,
  );
  return [
    `Steps from the top: ${steps.join(', ')}.`,
    `${contentsOf(plan).join(' ')}.`,
    ...notesOf(plan).map(({ words }) => words),
  ].join(' ');
}

/**
 * The drawing: steps with their sizes in centimetres and in the user's measures, courses, sand, probes with their names.
 * It is 640 units wide and shrinks to what it stands in.
 */
export function crossSectionSvg(plan: Plan): string {
  const frame = frameOf(plan);
  const from = undersideOf(frame) + LINE;
  const legendAt = from + plan.steps.length * 2.2 * LINE + LINE;
  const notes = notesOf(plan);
  const height = legendAt + (notes.length + 2) * LINE;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${short(height)}" width="${WIDTH}" height="${short(height)}" style="max-width:100%;height:auto" role="img" aria-labelledby="plan-title plan-description" font-family="system-ui, Noto Sans, sans-serif" font-size="${LETTER}">`,
    `<title id="plan-title">${escaped(headingOf(plan))}</title>`,
    `<desc id="plan-description">${escaped(descriptionOf(plan))}</desc>`,
    PATTERNS,
    `<rect width="${WIDTH}" height="${short(height)}" fill="#fff"/>`,
    text(MARGIN, 30, headingOf(plan), { bold: true }),
    ...contentsOf(plan).map((words, index) => text(MARGIN, 30 + (index + 1) * LINE, words)),
    ...bedDrawn(plan, frame),
    ...probesDrawn(plan, frame),
    ...heights(plan, frame),
    ...rootsBeside(plan, frame),
    ...lengths(plan, frame, from),
    legend(plan.kind, legendAt, plan.probes.length > 0),
    ...notes.map(({ words, indented }, index) =>
      text(indented ? INDENTED : MARGIN, legendAt + (index + 1.5) * LINE, words),
    ),
    '</svg>',
    '',
  ].join('\n');
}
