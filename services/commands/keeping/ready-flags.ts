/** Answers of a hand, from flags or a file. */
import { SandlarderError } from '../../core/errors.js';
import { BAD_ROOTS } from '../../core/model/readiness.js';
import { textOf } from '../../files.js';
import { readNumber } from '../numbers.js';
import { type SandFlags, samplesFromFlags } from './sand-flags.js';

export interface AnswerFlags extends SandFlags {
  readonly answers?: string;
  readonly yes?: readonly string[];
  readonly not?: readonly string[];
  readonly curedDays?: string;
  readonly curedAt?: string;
  readonly curedHumidity?: string;
  readonly sorted?: string;
  readonly pitOpen?: string;
  readonly inSand?: readonly string[];
  readonly nextLook?: string;
  readonly nextBy?: string;
}

export type RawAnswers = Readonly<Record<string, unknown>>;

/** Questions that are answered with yes or no, by the id of their item. */
export const YES_OR_NO: Readonly<Record<string, string>> = {
  'wounds-healed': 'woundsHealed',
  'roots-cooled': 'rootsCooled',
  roof: 'roofOver',
  ditch: 'ditchDug',
  poles: 'polesFirm',
  'sand-grains': 'sandSieved',
  rodents: 'rodentsKeptOut',
};

const wrong = (message: string): SandlarderError => new SandlarderError('WRONG_USAGE', message);

/**
 * @returns undefined where nothing was answered
 * @throws SandlarderError WRONG_USAGE
 */
export function answersFromFlags(flags: AnswerFlags): RawAnswers | undefined {
  const { answers: file, pitOpen, inSand } = flags;
  const answers: RawAnswers = {
    ...(file !== undefined && fromFile(file)),
    ...yesAndNo(flags),
    ...curing(flags),
    ...(flags.sorted !== undefined && { rootsSorted: sortedOut(flags.sorted) }),
    ...(pitOpen !== undefined && { pitOpen_days: readNumber('--pit-open', pitOpen, 0, 3650) }),
    ...samples(flags),
    ...(inSand !== undefined && { probesInSand: inSand }),
    ...nextLook(flags),
  };
  return Object.keys(answers).length === 0 ? undefined : answers;
}

function fromFile(file: string): RawAnswers {
  let parsed: unknown;
  try {
    parsed = JSON.parse(textOf(file, { flag: '--answers' }));
  } catch (error) {
    if (error instanceof SandlarderError) throw error;
    throw wrong(`${file}: expected JSON, got ${(error as Error).message}`);
  }
  if (parsed === null || typeof parsed !== 'object' || Array.isArray(parsed))
    throw wrong(`${file}: expected an object of answers such as {"roofOver": true}`);
  return parsed as RawAnswers;
}

function yesAndNo({ yes, not }: AnswerFlags): RawAnswers {
  const [said, denied] = [yesOrNo('--yes', yes, true), yesOrNo('--not', not, false)];
  const both = Object.entries(YES_OR_NO).find(([, key]) => key in said && key in denied);
  if (both) throw wrong(`--yes and --not: expected each item once, got ${both[0]} in both`);
  return { ...said, ...denied };
}

function yesOrNo(flag: string, ids: readonly string[] = [], said: boolean): RawAnswers {
  return Object.fromEntries(
    ids
      .flatMap((text) => text.split(','))
      .map((id) => {
        const key = YES_OR_NO[id.trim()];
        if (key === undefined)
          throw wrong(
            `${flag}: expected some of ${Object.keys(YES_OR_NO).join(', ')}, got ${JSON.stringify(id)}`,
          );
        return [key, said];
      }),
  );
}

function curing({ curedDays, curedAt, curedHumidity }: AnswerFlags): RawAnswers {
  if (curedDays === undefined) {
    if (curedAt === undefined && curedHumidity === undefined) return {};
    throw wrong('--cured-days: expected how many days the roots were cured, got none');
  }
  return {
    curing: {
      days: readNumber('--cured-days', curedDays, 0, 365),
      ...(curedAt !== undefined && { temperature_C: readNumber('--cured-at', curedAt, -10, 60) }),
      ...(curedHumidity !== undefined && {
        humidity_RH: readNumber('--cured-humidity', curedHumidity, 0, 100),
      }),
    },
  };
}

/** `all`, or those kinds of bad roots that were looked for in every root and taken out. */
export function sortedOut(text: string): string[] {
  if (text.trim() === 'all') return [...BAD_ROOTS];
  const kinds = text
    .split(',')
    .map((kind) => kind.trim())
    .filter((kind) => kind !== '');
  const strange = kinds.find((kind) => !(BAD_ROOTS as readonly string[]).includes(kind));
  if (strange !== undefined)
    throw wrong(`--sorted: expected all, or some of ${BAD_ROOTS.join(', ')}, got ${JSON.stringify(strange)}`);
  return kinds;
}

/** Sieving and weighing as in `sandlarder sand`; of warmth the sand's own, since probes tell the shade's. */
function samples(flags: AnswerFlags): RawAnswers {
  const { sandTemperature } = flags;
  return {
    ...samplesFromFlags(flags),
    ...(sandTemperature !== undefined && {
      sandTemperature_C: readNumber('--sand-temperature', sandTemperature, -20, 80),
    }),
  };
}

function nextLook({ nextLook: at, nextBy: by }: AnswerFlags): RawAnswers {
  if (at === undefined && by === undefined) return {};
  if (at === undefined || by === undefined)
    throw wrong('--next-look and --next-by: expected when, and who looks, got one of them');
  return { nextLook: { by, at } };
}
