/** What is answered by hand, as it is typed; what is absent was not touched. */
import type { BadRoot, HandAnswers } from '../../api/types/readiness.js';
import { NotAsExpected } from '../../parts/form.js';
import { typedTime } from '../../parts/time-field.js';
import { typedNumber } from '../../parts/typed-number.js';
import { say } from '../../words/say.js';

/** Points that are answered with yes or no, by the name of their answer. */
export const YES_OR_NO = {
  'wounds-healed': 'woundsHealed',
  'roots-cooled': 'rootsCooled',
  roof: 'roofOver',
  ditch: 'ditchDug',
  poles: 'polesFirm',
  'sand-grains': 'sandSieved',
  rodents: 'rodentsKeptOut',
} as const;
export type YesOrNo = (typeof YES_OR_NO)[keyof typeof YES_OR_NO];

export interface TypedReady {
  readonly yesOrNo: Readonly<Partial<Record<YesOrNo, boolean>>>;
  readonly curingDays?: string;
  readonly curingC?: string;
  readonly curingRH?: string;
  readonly sorted?: readonly BadRoot[];
  readonly pitDays?: string;
  readonly sandC?: string;
  readonly nextBy?: string;
  readonly nextAt?: string;
  readonly inSand?: readonly string[];
}

export const NOTHING: TypedReady = { yesOrNo: {} };

export const isTouched = (typed: TypedReady): boolean =>
  Object.keys(typed.yesOrNo).length > 0 || Object.keys(typed).length > 1;

type Wrongs = Record<string, string>;

/** @throws NotAsExpected with every field that is not, by its pointer in the body */
export function answersOf(typed: TypedReady): HandAnswers {
  const wrongs: Wrongs = {};
  const answers: HandAnswers = {
    ...typed.yesOrNo,
    ...curingOf(typed, wrongs),
    ...(typed.sorted && typed.sorted.length > 0 ? { rootsSorted: typed.sorted } : {}),
    ...numberOf('pitOpen_days', typed.pitDays, isDays, say('ready.expectedDays', { example: '4' }), wrongs),
    ...numberOf(
      'sandTemperature_C',
      typed.sandC,
      Number.isFinite,
      say('ready.expectedDegrees', { example: '22' }),
      wrongs,
    ),
    ...(typed.inSand ? { probesInSand: typed.inSand } : {}),
    ...nextOf(typed, wrongs),
  };
  if (Object.keys(wrongs).length > 0) throw new NotAsExpected(wrongs);
  return answers;
}

const isDays = (value: number): boolean => value >= 0;

function numberOf<Name extends string>(
  name: Name,
  text: string | undefined,
  isOne: (value: number) => boolean,
  wrong: string,
  wrongs: Wrongs,
): Partial<Record<Name, number>> {
  const value = typedNumber(text ?? '');
  if (value === undefined) return {};
  if (!isOne(value)) wrongs[`answers/${name}`] = wrong;
  return { [name]: value } as Record<Name, number>;
}

function curingOf(typed: TypedReady, wrongs: Wrongs): Pick<HandAnswers, 'curing'> {
  const { curingDays = '', curingC = '', curingRH = '' } = typed;
  if ((curingDays + curingC + curingRH).trim() === '') return {};
  const days = typedNumber(curingDays);
  if (!(days !== undefined && isDays(days)))
    wrongs['answers/curing/days'] = say('ready.expectedDays', { example: '5' });
  const air = {
    ...numberOf(
      'curing/temperature_C',
      curingC,
      Number.isFinite,
      say('ready.expectedDegrees', { example: '30' }),
      wrongs,
    ),
    ...numberOf(
      'curing/humidity_RH',
      curingRH,
      (value) => value >= 0 && value <= 100,
      say('ready.expectedPercent'),
      wrongs,
    ),
  };
  const [temperature_C, humidity_RH] = [air['curing/temperature_C'], air['curing/humidity_RH']];
  return {
    curing: {
      days: days ?? 0,
      ...(temperature_C === undefined ? {} : { temperature_C }),
      ...(humidity_RH === undefined ? {} : { humidity_RH }),
    },
  };
}

function nextOf({ nextBy = '', nextAt = '' }: TypedReady, wrongs: Wrongs): Pick<HandAnswers, 'nextLook'> {
  if ((nextBy + nextAt).trim() === '') return {};
  const at = typedTime(nextAt);
  if (nextBy.trim() === '') wrongs['answers/nextLook/by'] = say('ready.expectedNext');
  if (at === undefined) wrongs['answers/nextLook/at'] = say('ready.expectedTime');
  return { nextLook: { by: nextBy.trim(), at: at ?? '' } };
}
