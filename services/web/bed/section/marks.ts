/** Where the marks of a drawing go, and the labels that name them. */
import { celsiusMore } from '../../words/numbers.js';
import { say } from '../../words/say.js';
import { EDGE, type Frame } from './frame.js';
import { type Box, type Labelled, placeLabels, spread } from './labels.js';
import type { ProbeThen } from './then.js';
import { beforeCut, type Point } from './views.js';

/** Half of a mark, and between two marks, points. */
export const HALF = 12;
const APART = 22;
/** Of a label: about how wide a letter is, and how high a line, of the letters' size. */
const LETTER = 0.66;
const LINE = 1.25;
/** Longer names of probes are cut. */
const MOST_LETTERS = 8;

export interface ProbeDrawn {
  readonly probe: ProbeThen;
  /** Where its mark goes, points, and where it lies. */
  readonly x: number;
  readonly y: number;
  readonly trueX: number;
  readonly label: Box;
  readonly name: string;
  readonly value: string;
  /** cm; see `beforeCut`. */
  readonly before_cm: number;
}

const shortName = (id: string): string =>
  id.length > MOST_LETTERS ? `${id.slice(0, 4)}…${id.slice(-3)}` : id;

const excessOf = ({ excess_C }: ProbeThen): string =>
  excess_C === null ? say('bed.unknown') : celsiusMore(excess_C);

/** Something round that has a place and a radius: a likely source, a blind spot, a place for a probe. */
export interface Round extends Point {
  readonly key: string;
  /** cm. */
  readonly radius: number;
  readonly kind: 'source' | 'blind' | 'next';
  /** Its name; a blind spot's stands in its middle. */
  readonly name: string;
}

/** With its label; none where the name stands in its middle. */
export interface RoundPlaced {
  readonly round: Round;
  readonly x: number;
  readonly y: number;
  readonly label: Box | undefined;
  /** cm; see `beforeCut`. */
  readonly before_cm: number;
}

export interface Marks {
  readonly probes: readonly ProbeDrawn[];
  readonly rounds: readonly RoundPlaced[];
}

const pointOf = ({ view, x, y }: Frame, at: Point) => ({ x: x(at[view.right]), y: y(at[view.down]) });

/** Probes with their marks apart, then what has a radius: labels off all marks, and off one another. */
export function marksIn(
  frame: Frame,
  cut: Point,
  probes: readonly ProbeThen[],
  rounds: readonly Round[],
): Marks {
  const named = rounds.filter(({ kind }) => kind !== 'blind');
  const places = spread(
    probes.map((probe) => pointOf(frame, probe)),
    APART,
  );
  const texts = probes.map((probe) => [shortName(probe.id), excessOf(probe)] as const);
  const labels = placeLabels(
    [
      ...places.map((place, index) => labelled(place, texts[index] ?? [], frame.letters)),
      ...named.map((round) => ({
        ...labelled(pointOf(frame, round), [round.name], frame.letters),
        half: keptFree(round, frame),
      })),
    ],
    { left: EDGE.left - 8, top: 16, width: frame.width - EDGE.left + 8, height: frame.height - 40 },
  );
  return {
    probes: probes.map((probe, index) => ({
      ...{ probe, ...(places[index] ?? { x: 0, y: 0 }) },
      trueX: pointOf(frame, probe).x,
      label: labels[index] as Box,
      name: texts[index]?.[0] ?? '',
      value: texts[index]?.[1] ?? '',
      before_cm: beforeCut(frame.view, probe, cut),
    })),
    rounds: rounds.map((round) => ({
      ...{ round, ...pointOf(frame, round) },
      label: round.kind === 'blind' ? undefined : labels[probes.length + named.indexOf(round)],
      before_cm: beforeCut(frame.view, round, cut),
    })),
  };
}

/** What is round stays in sight, or its middle where it fills the drawing, points. */
const MOST_FREE = 36;

const keptFree = ({ kind, radius }: Round, { scale }: Frame): number =>
  kind === 'source' ? Math.min(MOST_FREE, Math.max(HALF, radius * scale)) : HALF;

const labelled = (
  { x, y }: { x: number; y: number },
  lines: readonly string[],
  letters: number,
): Labelled => ({
  ...{ x, y, half: HALF, height: lines.length * LINE * letters + 2 },
  width: Math.max(...lines.map(({ length }) => length)) * LETTER * letters,
});
