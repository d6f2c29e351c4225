/** What in the body of a trial does not hold together. */
import type { Problem } from './site.js';
import type { TrialBody } from './trial.js';

type Checked = Pick<
  TrialBody,
  'from' | 'to' | 'design' | 'treatments' | 'described' | 'beds' | 'supersedes' | 'reason'
>;

/** What in a trial does not hold together, each as a key and a sentence; none where all does. */
export function trialProblems(body: Checked): Problem[] {
  return [
    ...[...spanProblems(body), ...twiceProblems(body), ...describedProblems(body), ...bedProblems(body)],
    ...reasonProblems(body),
  ];
}

const spanProblems = ({ from, to }: Checked): Problem[] =>
  to === undefined || to > from ? [] : [{ path: ['to'], message: 'expected a time after from' }];

function twiceProblems({ treatments, beds }: Checked): Problem[] {
  const ids = beds.map(({ bed }) => bed);
  return [
    ...repeated(treatments).map((at) => ({
      path: ['treatments', at],
      message: `expected each treatment once, got ${JSON.stringify(treatments[at])} again`,
    })),
    ...repeated(ids).map((at) => ({
      path: ['beds', at, 'bed'],
      message: `expected each bed once, got "${ids[at]}" again`,
    })),
  ];
}

function describedProblems({ described = {}, treatments }: Checked): Problem[] {
  return Object.keys(described)
    .filter((treatment) => !treatments.includes(treatment))
    .map((treatment) => ({
      path: ['described', treatment],
      message: `expected ${oneOf(treatments)}, got ${JSON.stringify(treatment)}`,
    }));
}

const oneOf = (treatments: readonly string[]): string =>
  treatments.map((one) => JSON.stringify(one)).join(' or ');

const repeated = (items: readonly string[]): number[] =>
  items.flatMap((item, at) => (items.indexOf(item) === at ? [] : [at]));

function bedProblems({ design, treatments, beds }: Checked): Problem[] {
  const given = beds.some(({ treatment }) => treatment !== undefined);
  return beds.flatMap(({ block, treatment }, at): Problem[] => [
    ...((block === undefined) === (design === 'complete')
      ? []
      : [
          {
            path: ['beds', at, 'block'],
            message:
              design === 'blocks'
                ? 'expected the block of each bed, as the design is blocks, got nothing'
                : `expected no block, as the design is complete, got ${JSON.stringify(block)}`,
          },
        ]),
    ...(given && treatment === undefined
      ? [
          {
            path: ['beds', at, 'treatment'],
            message: 'expected a treatment of every bed, or of none, to be drawn',
          },
        ]
      : []),
    ...(treatment !== undefined && !treatments.includes(treatment)
      ? [
          {
            path: ['beds', at, 'treatment'],
            message: `expected ${oneOf(treatments)}, got ${JSON.stringify(treatment)}`,
          },
        ]
      : []),
  ]);
}

const reasonProblems = ({ supersedes, reason }: Checked): Problem[] =>
  (supersedes === undefined) === (reason === undefined)
    ? []
    : [
        {
          path: [supersedes === undefined ? 'supersedes' : 'reason'],
          message: 'expected both what is corrected and why, or neither',
        },
      ];
