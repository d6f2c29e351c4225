/** `sandlarder trial power`: how many beds a trial needs; needs no service. */
import { SandlarderError } from '../../core/errors.js';
import { TRIAL_DESIGNS } from '../../core/model/trial.js';
import { type PowerQuestion, type TrialSize, trialSize } from '../../core/trials/index.js';
import { readNumber, readWhole } from '../numbers.js';
import { onOutput, type Say } from '../say.js';

export interface PowerFlags {
  readonly difference: string;
  readonly sd: string;
  readonly treatments: string;
  readonly design: string;
  readonly alpha: string;
  readonly power: string;
  readonly beds?: string;
  readonly json?: boolean;
}

/** @throws SandlarderError WRONG_USAGE, and LIMIT_EXCEEDED for a difference that no number of beds would show */
export function power(flags: PowerFlags, say: Say = onOutput): void {
  const question = questionOf(flags);
  const wanted = readNumber('--power', flags.power, 0.5, 0.999);
  const size = trialSize(
    question,
    flags.beds === undefined ? { power: wanted } : { beds: readWhole('--beds', flags.beds, 2, 10_000) },
  );
  if (flags.json) {
    say(JSON.stringify({ ...question, ...size }));
    return;
  }
  for (const line of powerLines(question, size)) say(line);
}

function questionOf({ difference, sd, treatments, design, alpha }: PowerFlags): PowerQuestion {
  const by = TRIAL_DESIGNS.find((one) => one === design);
  if (by === undefined)
    throw new SandlarderError(
      'WRONG_USAGE',
      `--design: expected ${TRIAL_DESIGNS.join(' or ')}, got ${JSON.stringify(design)}`,
    );
  return {
    by,
    treatments: readWhole('--treatments', treatments, 2, 20),
    difference: readNumber('--difference', difference, Number.MIN_VALUE, 1e9),
    sd: readNumber('--sd', sd, Number.MIN_VALUE, 1e9),
    alpha: readNumber('--alpha', alpha, 1e-6, 0.5),
  };
}

function powerLines(
  { by, treatments, difference, sd, alpha }: PowerQuestion,
  { bedsOfEach: beds, bedsInAll, power }: TrialSize,
): string[] {
  const share = (100 * power).toFixed(power > 0.99 ? 1 : 0);
  return [
    `${beds} beds of each of ${treatments} treatments${by === 'blocks' ? ` (${beds} blocks)` : ''}, ${bedsInAll} in all.`,
    `Where two treatments truly differ by ${difference} and beds of one treatment scatter by ${sd} (standard deviation${by === 'blocks' ? ' within blocks' : ''}), such a trial finds it in ${share} of 100; where none differ, it cries wolf in ${Number((100 * alpha).toFixed(4))} of 100.`,
    ...(treatments > 2
      ? ['All other treatments are taken to lie midway: no other arrangement is harder to see.']
      : []),
    'It stands and falls with the scatter: take it from beds that were kept, not from a hope. Beds that are lost on the way are to be added.',
  ];
}
