/** `sandlarder plan`: a bed before it is dug. */
import { SandlarderError } from '../core/errors.js';
import {
  BUCKET_L,
  crossSectionSvg,
  GROUND_C,
  MEASURE_LIMITS,
  type Measures,
  MOST_ASKED,
  type Plan,
  type PlanKind,
  type PlanStep,
  planBed,
  ROOT_MASS_kg,
  USUAL_MEASURES,
} from '../core/keeping/index.js';
import { MOST_PROBES, type OnPlaced } from '../core/watch/coverage/index.js';
import { writeFile } from '../files.js';
import { readNumber, readWhole } from './numbers.js';
import { planInLines } from './plan-lines.js';
import { createProgress } from './progress.js';
import { onOutput, type Say } from './say.js';

export interface PlanFlags {
  readonly kind: string;
  readonly steps?: string;
  readonly roots?: string;
  readonly rootMass?: string;
  readonly rootKg?: string;
  readonly bucket?: string;
  readonly hand?: string;
  readonly span?: string;
  readonly forearm?: string;
  readonly stride?: string;
  readonly probes?: string;
  readonly ground?: string;
  readonly svg?: string;
  readonly json?: boolean;
}

const KINDS: readonly PlanKind[] = ['stepped-pit', 'box'];

/** Sides that are read at all, cm; what a bed may have is said by the plan itself. */
const SIDE_READ_cm = { low: 0.1, high: 100_000 } as const;

/** @throws SandlarderError WRONG_USAGE, LIMIT_EXCEEDED */
export function plan(flags: PlanFlags, say: Say = onOutput): void {
  const planned = shownWhilePlacing((onPlaced) => answerTo(flags, onPlaced));
  if (flags.svg !== undefined) writeFile(flags.svg, crossSectionSvg(planned), { flag: '--svg' });
  if (flags.json) {
    say(JSON.stringify(planned));
    return;
  }
  for (const line of planInLines(planned)) say(line);
  if (flags.svg !== undefined) say(`Drawing: ${flags.svg}`);
}

/** On a terminal, from a second on. */
const SHOWN_AFTER_ms = 1000;

function shownWhilePlacing(
  make: (onPlaced: OnPlaced) => Plan,
  stream = process.stderr,
  now = Date.now,
): Plan {
  const progress = createProgress(stream, now);
  const begun = now();
  try {
    return make((placed, most) => {
      if (stream.isTTY && now() - begun >= SHOWN_AFTER_ms)
        progress.show(`placing probes: ${placed} of ${most} at the most`);
    });
  } finally {
    progress.clear();
  }
}

function answerTo(flags: PlanFlags, onPlaced: OnPlaced): Plan {
  const { kind, steps, roots, rootMass, rootKg, bucket, probes, ground } = flags;
  if (steps === undefined && roots === undefined && rootMass === undefined)
    throw wrong('plan: expected --roots, --root-mass or --steps, got none of them');
  if (roots !== undefined && rootMass !== undefined)
    throw wrong('plan: expected --roots or --root-mass, got both');
  const given = <Value>(text: string | undefined, read: (text: string) => Value): Value | undefined =>
    text === undefined ? undefined : read(text);
  return asUsage(() =>
    planBed(
      {
        kind: kindOf(kind),
        steps: given(steps, stepsOf),
        roots: given(roots, (text) => readWhole('--roots', text, 1, MOST_ASKED)),
        roots_kg: given(rootMass, (text) => readNumber('--root-mass', text, ROOT_MASS_kg.low, MOST_ASKED)),
        root_kg: given(rootKg, (text) => readNumber('--root-kg', text, ROOT_MASS_kg.low, ROOT_MASS_kg.high)),
        bucket_L: given(bucket, (text) => readNumber('--bucket', text, BUCKET_L.low, BUCKET_L.high)),
        measures: measuresOf(flags),
        probes: given(probes, (text) => readWhole('--probes', text, 0, MOST_PROBES)),
        ground_C: given(ground, (text) => readNumber('--ground', text, GROUND_C.low, GROUND_C.high)),
      },
      onPlaced,
    ),
  );
}

const wrong = (message: string): SandlarderError => new SandlarderError('WRONG_USAGE', message);

/** What a plan cannot be made of was given on the command line. */
function asUsage(make: () => Plan): Plan {
  try {
    return make();
  } catch (error) {
    if (error instanceof SandlarderError && error.code === 'OUT_OF_DOMAIN') throw wrong(error.message);
    throw error;
  }
}

function kindOf(text: string): PlanKind {
  const kind = KINDS.find((one) => one === text);
  if (!kind) throw wrong(`--kind: expected ${KINDS.join(' or ')}, got ${JSON.stringify(text)}`);
  return kind;
}

/** `150x60x25,100x60x25`: length, width and height of each step in cm, the top step first. */
function stepsOf(text: string): PlanStep[] {
  return text.split(',').map((part, index) => {
    const sides = part.trim().split(/[x×]/i);
    if (sides.length !== 3)
      throw wrong(
        `--steps: expected LENGTHxWIDTHxHEIGHT in cm such as 150x60x25 for step ${index + 1}, got ${JSON.stringify(part)}`,
      );
    const [length, width, height] = sides.map((side) =>
      readNumber(`--steps, step ${index + 1}`, side, SIDE_READ_cm.low, SIDE_READ_cm.high),
    ) as [number, number, number];
    return { length, width, height };
  });
}

function measuresOf(flags: PlanFlags): Measures {
  const read = (name: 'hand' | 'span' | 'forearm' | 'stride'): number => {
    const key = `${name}_cm` as const;
    const text = flags[name];
    const { low, high } = MEASURE_LIMITS[key];
    return text === undefined ? USUAL_MEASURES[key] : readNumber(`--${name}`, text, low, high);
  };
  return {
    hand_cm: read('hand'),
    span_cm: read('span'),
    forearm_cm: read('forearm'),
    stride_cm: read('stride'),
  };
}
