/** What one version of a trial changed of the one before, a line each. */
import type { Trial } from '../api/types/trial.js';
import { say, wordFor } from '../words/say.js';
import { wholeTime } from '../words/times.js';

/** @param nameOf gives the name of a bed */
export function historyLines(
  now: Trial,
  before: Trial | undefined,
  nameOf: (bed: string) => string,
): string[] {
  if (before === undefined)
    return [say('trialForms.written'), ...(now.assigned === null ? [] : [say('trialForms.handThen')])];
  return [...factLines(now, before), ...bedLines(now, before, nameOf), ...givenLines(now, before, nameOf)];
}

/** What is compared, as it is read: its label, and the text of a version. */
const FACTS: readonly (readonly [label: () => string, text: (trial: Trial) => string])[] = [
  [() => say('trialForms.name'), ({ name }) => name],
  [() => say('trialForms.question'), ({ question }) => question ?? ''],
  [() => say('trials.treatment'), ({ treatments }) => treatments.join(', ')],
  [
    () => say('trialForms.treatmentDone'),
    ({ described }) =>
      Object.entries(described)
        .map(([treatment, text]) => say('trialForms.bedWith', { bed: treatment, treatment: text }))
        .join('; '),
  ],
  [() => say('trialForms.design'), ({ design }) => say(`trialForms.${design}`)],
  [() => say('trialForms.measure'), ({ outcome: { kind } }) => wordFor('outcomes', kind) ?? kind],
  [() => say('trialForms.day'), ({ outcome: { day } }) => String(day)],
  [() => say('trialForms.from'), ({ from }) => wholeTime(from)],
  [() => say('trialForms.to'), ({ to }) => (to === null ? '' : wholeTime(to))],
  [() => say('trialForms.note'), ({ note }) => note ?? ''],
];

const factLines = (now: Trial, before: Trial): string[] =>
  FACTS.flatMap(([label, text]) => {
    const [after, earlier] = [text(now), text(before)];
    return after === earlier ? [] : [instead(label(), after, earlier)];
  });

const instead = (what: string, after: string, before: string): string =>
  say('trialForms.instead', {
    ...{ what, after: after || say('parts.none'), before: before || say('parts.none') },
  });

function bedLines(now: Trial, before: Trial, nameOf: (bed: string) => string): string[] {
  const lacking = (of: Trial, other: Trial): string =>
    of.beds
      .filter(({ bed }) => !other.beds.some((one) => one.bed === bed))
      .map(({ bed }) => nameOf(bed))
      .join(', ');
  const [out, into] = [lacking(before, now), lacking(now, before)];
  return [
    ...(out === '' ? [] : [say('trialForms.out', { beds: out })]),
    ...(into === '' ? [] : [say('trialForms.into', { beds: into })]),
    ...changed('block', now, before).map(([bed, after, earlier]) =>
      instead(say('trialForms.blockOf', { bed: nameOf(bed) }), after, earlier),
    ),
  ];
}

/** Beds of both that have another. */
function changed(key: 'block' | 'treatment', now: Trial, before: Trial): [string, string, string][] {
  const had = new Map(before.beds.map((one) => [one.bed, one[key]]));
  return now.beds
    .filter((one) => had.has(one.bed) && had.get(one.bed) !== one[key])
    .map((one) => [one.bed, one[key] ?? '', had.get(one.bed) ?? '']);
}

function givenLines(now: Trial, before: Trial, nameOf: (bed: string) => string): string[] {
  const { assigned, drawn } = now;
  if (drawn !== null && drawn.seed !== before.drawn?.seed)
    return [say('trialForms.drawnThen', { seed: String(drawn.seed) })];
  if (assigned === null) return [];
  if (before.assigned === null)
    return [
      assigned.how === 'hand'
        ? say('trialForms.handThen')
        : say('trialForms.putThen', { seed: String(assigned.seed) }),
    ];
  return changed('treatment', now, before).map(([bed, after, earlier]) =>
    instead(say('trialForms.treatmentOf', { bed: nameOf(bed) }), after, earlier),
  );
}
