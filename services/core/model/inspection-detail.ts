/**
 * What an inspection may tell beside the words of the contract: what hands and nose said, how many roots were looked
 * at and what was wrong with them, what was taken out. Every key may be left out; a body without them stays valid.
 */
import { z } from 'zod';
import type { Finding, InspectionBody } from './inspection.js';
import type { Problem } from './site.js';

export const HAND_WARMTHS = ['cool', 'same', 'warm', 'hot'] as const;
export const SMELLS = ['fresh', 'musty', 'rotten'] as const;
export const SAND_FEELS = ['dry', 'damp', 'wet'] as const;

/** What was done with roots that left a bed. */
export const OUT_REASONS = ['eaten', 'sold', 'seed', 'fed', 'thrown'] as const;
export type OutReason = (typeof OUT_REASONS)[number];

/** How roots were that left a bed, where that was written down. */
export const ROOT_STATES = ['sound', 'sprouted', 'mouldy', 'bitter', 'rotten', 'weevil', 'gnawed'] as const;
export type RootState = (typeof ROOT_STATES)[number];

/** What may be wrong with a root that was looked at; one root may have several. */
export const ROOT_COUNTS = ['rotten', 'weevil', 'rodent', 'termite', 'sproutsShort', 'sproutsLong'] as const;
export type RootCount = (typeof ROOT_COUNTS)[number];

/** Bounds of one inspection: they keep a mistyped body from filling the board. */
export const INSPECTION_LIMITS = { roots: 1_000_000, outs: 20, photos: 20, text: 2000 } as const;

const count = z.number().int().nonnegative().max(INSPECTION_LIMITS.roots);
const text = z.string().trim().min(1).max(INSPECTION_LIMITS.text);

const outSchema = z
  .strictObject({
    reason: z.enum(OUT_REASONS),
    roots: z.number().int().positive().max(INSPECTION_LIMITS.roots),
    were: z.enum(ROOT_STATES).optional(),
  })
  .readonly();

const PHOTO_NAME = /^[A-Za-z0-9][A-Za-z0-9._-]{0,99}$/;

/** Whether it is the name of a file, without a folder. */
export const isPhotoName = (text: string): boolean => PHOTO_NAME.test(text);

/** A name without a folder: pictures themselves are kept elsewhere. */
export const photoNameSchema = z.string().regex(PHOTO_NAME, 'expected the name of a file, without a folder');

/** Keys to be spread into the body of an inspection. */
export const inspectionDetailShape = {
  /** Given by the device that it was written on, so that what is sent twice is kept once. */
  id: z.uuid('expected a UUID').toLowerCase().optional(),
  /** A hand in the sand, against the sand or soil beside the bed at the same depth. */
  warmByHand: z.enum(HAND_WARMTHS).optional(),
  smell: z.enum(SMELLS).optional(),
  sandFeels: z.enum(SAND_FEELS).optional(),
  /** Roots looked at, those taken out among them: whoever takes a root out has looked at it. */
  looked: count.optional(),
  rotten: count.optional(),
  weevil: count.optional(),
  rodent: count.optional(),
  termite: count.optional(),
  /** Up to 15 mm, about a thumbnail (common practice, no source), and longer. */
  sproutsShort: count.optional(),
  sproutsLong: count.optional(),
  out: z.array(outSchema).min(1).max(INSPECTION_LIMITS.outs).readonly().optional(),
  photos: z.array(photoNameSchema).min(1).max(INSPECTION_LIMITS.photos).readonly().optional(),
  did: text.optional(),
  note: text.optional(),
};

export const inspectionDetailSchema = z.strictObject(inspectionDetailShape).readonly();

export type InspectionDetail = z.output<typeof inspectionDetailSchema>;

/** Roots that left the bed at an inspection for such reasons. */
export const rootsOut = ({ out = [] }: InspectionDetail, reasons: readonly OutReason[]): number =>
  out.filter(({ reason }) => reasons.includes(reason)).reduce((sum, { roots }) => sum + roots, 0);

/** Poisonous or carrying weevils: these are thrown away whole, never eaten, sold, planted or fed. */
const UNFIT: readonly RootState[] = ['mouldy', 'bitter', 'rotten', 'weevil'];

const USED: readonly OutReason[] = ['eaten', 'sold', 'seed', 'fed'];

/** What the body of the contract says of the same inspection. */
export type InspectionFrame = Pick<InspectionBody, 'opened' | 'found'>;

/** What in an inspection does not hold together, each as a key and a sentence; none where all does. */
export function inspectionProblems(detail: InspectionDetail, frame: InspectionFrame): Problem[] {
  return [
    ...openedProblems(detail, frame),
    ...countProblems(detail),
    ...unfitProblems(detail),
    ...foundProblems(detail, frame),
  ];
}

function openedProblems(detail: InspectionDetail, { opened }: InspectionFrame): Problem[] {
  if (opened || ((detail.looked ?? 0) === 0 && detail.out === undefined)) return [];
  return [
    {
      path: ['opened'],
      message: 'expected true where roots were looked at or taken out: they lie in the bed, got false',
    },
  ];
}

function countProblems(detail: InspectionDetail): Problem[] {
  const counted = ROOT_COUNTS.filter((name) => detail[name] !== undefined);
  const out = rootsOut(detail, OUT_REASONS);
  const { looked } = detail;
  if (looked === undefined)
    return counted.slice(0, 1).map((name) => ({
      path: ['looked'],
      message: `expected how many roots were looked at, as ${detail[name]} are given as ${name}, got nothing`,
    }));
  const over = counted.filter((name) => !((detail[name] ?? 0) <= looked));
  return [
    ...over.map((name) => ({
      path: [name],
      message: `expected at most the ${looked} roots that were looked at, got ${detail[name]}`,
    })),
    ...(out <= looked
      ? []
      : [
          {
            path: ['looked'],
            message: `expected at least the ${out} roots that were taken out, as whoever takes one out looks at it, got ${looked}`,
          },
        ]),
  ];
}

/** By their state where it is given, and by the counts: what is rotten or has weevils cannot have been put to use. */
function unfitProblems(detail: InspectionDetail): Problem[] {
  const wrong = (detail.out ?? []).flatMap(({ reason, were }, at) =>
    were === undefined || reason === 'thrown' || !UNFIT.includes(were)
      ? []
      : [
          {
            path: ['out', at, 'reason'],
            message: `expected "thrown" for ${WORDS[were]}: they are never eaten, sold, planted or fed to animals, got "${reason}"`,
          },
        ],
  );
  const { looked } = detail;
  const unfit = Math.max(detail.rotten ?? 0, detail.weevil ?? 0);
  const used = rootsOut(detail, USED);
  if (looked === undefined || !(unfit > 0 && unfit <= looked) || used <= looked - unfit) return wrong;
  return [
    ...wrong,
    {
      path: ['out'],
      message: `expected at most ${looked - unfit} roots eaten, sold, kept for seed or fed, as ${unfit} of the ${looked} looked at were rotten or had weevils and can only be thrown away, got ${used}`,
    },
  ];
}

const WORDS: Readonly<Record<RootState, string>> = {
  sound: 'sound roots',
  sprouted: 'sprouted roots',
  mouldy: 'mouldy roots',
  bitter: 'bitter roots',
  rotten: 'rotten roots',
  weevil: 'roots with weevils',
  gnawed: 'gnawed roots',
};

/** One way only: somebody may have seen rot or a weevil without having counted one. */
function foundProblems(detail: InspectionDetail, { found }: InspectionFrame): Problem[] {
  const missing = findingsOf(detail).filter((finding) => finding !== 'nothing' && !found.includes(finding));
  return missing.map((finding) => ({
    path: ['found'],
    message: `expected "${finding}" among what was found, as ${REASONS[finding]}, got ${JSON.stringify(found)}`,
  }));
}

const REASONS: Readonly<Record<Finding, string>> = {
  rot: 'rotten roots were counted or smelled',
  damp: 'the sand felt damp or wet',
  sprouts: 'sprouts were counted',
  weevils: 'roots with weevils were counted',
  nothing: 'nothing else was found',
};

/**
 * What was found, in the words of the contract.
 *
 * @returns empty where the detail tells nothing of it: nothing was counted, felt or smelled. What the contract has no
 * word for, rodents and termites, stands in the counts alone
 */
export function findingsOf(detail: InspectionDetail): Finding[] {
  const { rotten = 0, weevil = 0, sproutsShort = 0, sproutsLong = 0, smell, sandFeels } = detail;
  const found: Finding[] = [];
  if (rotten > 0 || smell === 'rotten') found.push('rot');
  if (sandFeels === 'damp' || sandFeels === 'wet') found.push('damp');
  if (sproutsShort + sproutsLong > 0) found.push('sprouts');
  if (weevil > 0) found.push('weevils');
  const tells = (detail.looked ?? 0) > 0 || smell !== undefined || sandFeels !== undefined;
  return found.length > 0 ? found : tells ? ['nothing'] : [];
}
