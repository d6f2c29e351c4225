/** What is typed for a plan, as it is typed, and the question that it comes to. */
import type { Measures, PlanQuestion } from '../../api/types/plan.js';
import { NotAsExpected } from '../../parts/form.js';
import type { BedShape } from '../../parts/steps-in-url.js';
import { typedNumber } from '../../parts/typed-number.js';
import { say } from '../../words/say.js';
import { type TypedMeasures, typedMeasures } from './own-measures.js';

export interface TypedStep {
  readonly length: string;
  readonly width: string;
  readonly height: string;
}

export interface TypedPlan {
  readonly kind: 'stepped-pit' | 'box';
  readonly from: 'roots' | 'mass' | 'space';
  readonly roots: string;
  readonly mass: string;
  readonly steps: readonly TypedStep[];
  readonly root_kg: string;
  readonly bucket_L: string;
  readonly ground_C: string;
  readonly probes: boolean;
}

export const EMPTY_STEP: TypedStep = { length: '', width: '', height: '' };

export const EMPTY_PLAN: TypedPlan = {
  kind: 'stepped-pit',
  from: 'roots',
  roots: '',
  mass: '',
  steps: [EMPTY_STEP],
  ...{ root_kg: '', bucket_L: '', ground_C: '' },
  probes: true,
};

type Wrongs = Record<string, string>;

const isAbove0 = (value: number | undefined): value is number => value !== undefined && value > 0;

/** @throws NotAsExpected, with every field that is not */
export function questionOf(typed: TypedPlan, own: TypedMeasures): PlanQuestion {
  const wrongs: Wrongs = {};
  const question: PlanQuestion = {
    kind: typed.kind,
    ...askedFor(typed, wrongs),
    ...optional('root_kg', typed.root_kg, wrongs, '0.3'),
    ...optional('bucket_L', typed.bucket_L, wrongs, '10'),
    ...ground(typed.ground_C, wrongs),
    ...measured(own, wrongs),
    ...(typed.probes ? {} : { probes: 0 }),
  };
  if (Object.keys(wrongs).length > 0) throw new NotAsExpected(wrongs);
  return question;
}

function askedFor(typed: TypedPlan, wrongs: Wrongs): Partial<PlanQuestion> {
  if (typed.from === 'roots') return { roots: count(typed.roots, wrongs) };
  if (typed.from === 'mass') return { roots_kg: above0('roots_kg', typed.mass, wrongs, '110') };
  const steps = typed.kind === 'box' ? typed.steps.slice(0, 1) : typed.steps;
  return {
    steps: steps.map((step, index) => ({
      length: above0(`steps/${index}/length`, step.length, wrongs, '150'),
      width: above0(`steps/${index}/width`, step.width, wrongs, '60'),
      height: above0(`steps/${index}/height`, step.height, wrongs, '25'),
    })),
    ...(typed.roots.trim() === '' ? {} : { roots: count(typed.roots, wrongs) }),
  };
}

function count(text: string, wrongs: Wrongs): number {
  const value = typedNumber(text);
  if (isAbove0(value) && Number.isInteger(value)) return value;
  wrongs['roots'] = say('planning.expectedCount', { example: '400' });
  return 1;
}

function above0(name: string, text: string, wrongs: Wrongs, example: string): number {
  const value = typedNumber(text);
  if (isAbove0(value)) return value;
  wrongs[name] = say('planning.expectedNumber', { example });
  return 1;
}

function optional(
  name: 'root_kg' | 'bucket_L',
  text: string,
  wrongs: Wrongs,
  example: string,
): Partial<PlanQuestion> {
  return text.trim() === '' ? {} : { [name]: above0(name, text, wrongs, example) };
}

function ground(text: string, wrongs: Wrongs): Partial<PlanQuestion> {
  const value = typedNumber(text);
  if (value === undefined) return {};
  if (value >= 0 && value <= 40) return { ground_C: value };
  wrongs['ground_C'] = say('planning.expectedDegrees');
  return {};
}

function measured(own: TypedMeasures, wrongs: Wrongs): { measures?: Measures } {
  const { measures, wrongs: found } = typedMeasures(own);
  Object.assign(wrongs, found);
  return { measures };
}

/** The form as it stands for a given shape. */
export const typedShape = ({ steps }: BedShape): readonly TypedStep[] =>
  steps.map(({ length, width, height }) => ({
    length: String(length),
    width: String(width),
    height: String(height),
  }));
