/** A trial as it is typed, and what is sent of it. */
import type { OutcomeKind, TrialDesign } from '../../core/model/trial.js';
import type { Trial } from '../api/types/trial.js';
import { ifTyped, type Typed } from '../parts/typed.js';
import { idFrom, idProblem } from '../settings/machine-id.js';
import { say } from '../words/say.js';
import { zonedText } from '../words/zoned.js';

export const OUTCOMES = [
  'loss',
  'first-rot',
  'sound-mass',
  'highest-excess',
  'sprouted',
] as const satisfies readonly OutcomeKind[];

export interface TypedTreatment {
  readonly name: string;
  readonly done: string;
}

export interface TypedTrial {
  /** Short name for machines; empty where it follows from the name. */
  readonly ownId: string;
  readonly name: string;
  readonly question: string;
  readonly treatments: readonly TypedTreatment[];
  readonly design: TrialDesign;
  /** Ids of those that take part. */
  readonly beds: readonly string[];
  readonly blocks: Readonly<Record<string, string>>;
  readonly kind: string;
  readonly day: string;
  readonly from: string;
  readonly to: string;
  readonly note: string;
}

export const NO_TREATMENT: TypedTreatment = { name: '', done: '' };

export const EMPTY_TRIAL: TypedTrial = {
  ...{ ownId: '', name: '', question: '', treatments: [NO_TREATMENT, NO_TREATMENT], design: 'complete' },
  ...{ beds: [], blocks: {}, kind: 'loss', day: '90', from: '', to: '', note: '' },
};

/** As it stands, to be changed. */
export const typedFrom = (trial: Trial): TypedTrial => ({
  ...{ ownId: trial.trial, name: trial.name, question: trial.question ?? '', design: trial.design },
  treatments: trial.treatments.map((name) => ({ name, done: trial.described[name] ?? '' })),
  beds: trial.beds.map(({ bed }) => bed),
  blocks: Object.fromEntries(trial.beds.map(({ bed, block }) => [bed, block ?? ''])),
  ...{ kind: trial.outcome.kind, day: String(trial.outcome.day), note: trial.note ?? '' },
  from: zonedText(Date.parse(trial.from)),
  to: trial.to === null ? '' : zonedText(Date.parse(trial.to)),
});

export const shortName = ({ ownId, name }: TypedTrial): string => ownId || idFrom(name);

const DAYS = { least: 1, most: 400, whole: true };

/** The body without what stamps it. What is not as expected is gathered in `typed`, by the pointers of the service. */
export function trialBody(typed: Typed, trial: TypedTrial, taken: readonly string[]): object {
  const { name, question, design, kind, day, from, to, note } = trial;
  const short = shortName(trial);
  const wrongId = idProblem(short);
  const body = {
    ...{ trial: short, name: typed.text('name', name), ...ifTyped('question', question) },
    ...treatmentsBody(typed, trial),
    ...{ design, beds: bedsBody(typed, trial) },
    outcome: { kind, day: typed.number('outcome/day', day, DAYS) },
    from: typed.time('from', from),
    ...(to === '' ? {} : { to: typed.time('to', to) }),
    ...ifTyped('note', note),
  };
  if (name.trim() !== '' && wrongId !== undefined) typed.wrong('trial', wrongId);
  if (taken.includes(short)) typed.wrong('trial', say('trialForms.idTaken'));
  return body;
}

function treatmentsBody(typed: Typed, { treatments }: TypedTrial): object {
  const names = treatments.map(({ name }, at) => typed.text(`treatments/${at}`, name));
  names.forEach((name, at) => {
    if (name !== '' && names.indexOf(name) < at)
      typed.wrong(`treatments/${at}`, say('trialForms.treatmentTwice'));
  });
  const described = treatments
    .map(({ name, done }) => [name.trim(), done.trim()] as const)
    .filter(([, done]) => done !== '');
  return { treatments: names, ...(described.length > 0 && { described: Object.fromEntries(described) }) };
}

function bedsBody(typed: Typed, { beds, blocks, design }: TypedTrial): object[] {
  if (beds.length < 2) typed.wrong('beds', say('trialForms.bedsFew'));
  return beds.map((bed, at) =>
    design === 'blocks' ? { bed, block: typed.text(`beds/${at}/block`, blocks[bed] ?? '') } : { bed },
  );
}

/** How beds can be shared out among treatments, in words; a line for each block that cannot. */
export function sharedOut({ beds, blocks, design, treatments: { length } }: TypedTrial): string[] {
  if (beds.length === 0) return [];
  const values = { beds: beds.length, treatments: length };
  const named = [...new Set(beds.map((bed) => (blocks[bed] ?? '').trim()))].filter((block) => block !== '');
  const uneven =
    design === 'blocks'
      ? named
          .map((block) => ({ block, many: beds.filter((bed) => blocks[bed]?.trim() === block).length }))
          .filter(({ many }) => many % length !== 0)
          .map(({ block, many }) => say('trialForms.unevenBlock', { block, beds: many, treatments: length }))
      : [];
  if (uneven.length > 0) return uneven;
  if (beds.length % length !== 0) return [say('trialForms.unevenly', values)];
  return [say('trialForms.evenly', { ...values, each: beds.length / length })];
}
