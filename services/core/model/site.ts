/**
 * The site description, version 1 (`SITE.json`): what stands where, and who keeps it.
 * Unknown keys are refused by name, so that a misspelling is not silently ignored.
 */
import { z } from 'zod';
import { blocksOf, holdsPoint } from './bed.js';
import { idSchema } from './id.js';
import { keepingProblem } from './keeping-threshold.js';
import { LANGUAGE_CODES } from './languages.js';
import {
  bedTellingShape,
  type Escalation,
  type Group,
  groupsSchema,
  personTellingShape,
  siteTellingShape,
} from './people.js';
import { peopleProblems } from './people-problems.js';
import {
  type ThresholdOverrides,
  thresholdOverridesSchema,
  thresholdProblem,
  thresholdsInForce,
} from './threshold.js';
import { timeSchema } from './time.js';

/** Bounds of one description: they keep a mistyped file from filling the board. */
export const SITE_LIMITS = { beds: 1000, probes: 20_000, placements: 1000, people: 2000, steps: 10 } as const;

const nameSchema = z.string().trim().min(1).max(200);
const centimetres = z.number().positive().max(10_000);

/** Whether the runtime knows the IANA time zone name. */
function isTimeZone(name: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: name });
    return true;
  } catch {
    return false;
  }
}

const stepSchema = z.strictObject({
  length: centimetres,
  width: centimetres,
  height: centimetres,
  x: z.number().min(-10_000).max(10_000).optional(),
  y: z.number().min(-10_000).max(10_000).optional(),
});

export const bedSchema = z
  .strictObject({
    id: idSchema,
    name: nameSchema,
    kind: z.enum(['stepped-pit', 'box']),
    steps: z.array(stepSchema).min(1).max(SITE_LIMITS.steps),
    filled: timeSchema.optional(),
    roots: z
      .strictObject({
        count: z.number().int().nonnegative().max(1_000_000).optional(),
        mass_kg: z.number().nonnegative().max(1_000_000).optional(),
      })
      .optional(),
    keeper: idSchema.optional(),
    thresholds: thresholdOverridesSchema.optional(),
    ...bedTellingShape,
  })
  .refine((bed) => bed.kind !== 'box' || bed.steps.length === 1, {
    path: ['steps'],
    message: 'expected exactly one step for a box',
  });

const inBedSchema = z.strictObject({
  ambient: z.undefined().optional(),
  bed: idSchema,
  x: z.number(),
  y: z.number(),
  depth: z.number(),
  from: timeSchema,
  to: timeSchema.optional(),
});
const inShadeSchema = z.strictObject({
  ambient: z.literal(true),
  from: timeSchema,
  to: timeSchema.optional(),
});
/** A probe at a point of a bed, or in the shade outside, from one time to another (to the next placement where no end is given). */
export const placementSchema = z.discriminatedUnion('ambient', [inBedSchema, inShadeSchema], {
  error: 'expected { bed, x, y, depth, from } or { ambient: true, from }',
});

export const probeSchema = z.strictObject({
  id: idSchema,
  model: nameSchema.optional(),
  /** None of a probe that lies on the shelf. */
  placements: z.array(placementSchema).max(SITE_LIMITS.placements).default([]),
});

export const personSchema = z.strictObject({
  id: idSchema,
  name: nameSchema,
  /** A language that messages are written in, with a region or without: `sw`, `fr-CM`. */
  language: z.string().min(2).max(35).default('en'),
  ...personTellingShape,
});

/** The shape of a site file alone; what it refers to may have been loaded before. */
export const siteShapeSchema = z
  .strictObject({
    version: z.literal(1),
    site: z.strictObject({
      id: idSchema,
      name: nameSchema,
      timezone: z.string().refine(isTimeZone, 'expected an IANA time zone such as Africa/Lusaka'),
      thresholds: thresholdOverridesSchema.optional(),
      ...siteTellingShape,
    }),
    beds: z.array(bedSchema).max(SITE_LIMITS.beds).default([]),
    probes: z.array(probeSchema).max(SITE_LIMITS.probes).default([]),
    people: z.array(personSchema).max(SITE_LIMITS.people).default([]),
    groups: groupsSchema.default([]),
  })
  .superRefine(checkUnique);

/** A whole site: all that is referred to is in it. */
export const siteDescriptionSchema = siteShapeSchema.superRefine((site, context) => {
  for (const { path, message } of referenceProblems(site))
    context.addIssue({ code: 'custom', path, message });
});

export type SiteDescription = z.output<typeof siteDescriptionSchema>;
export type Site = SiteDescription['site'];
export type Bed = SiteDescription['beds'][number];
export type Probe = SiteDescription['probes'][number];
export type Placement = Probe['placements'][number];
export type BedPlacement = z.output<typeof inBedSchema>;
export type Person = SiteDescription['people'][number];
export type { Group } from './people.js';

type Checked = { beds: { id: string }[]; probes: { id: string }[]; people: { id: string }[] };
type Issues = { addIssue: (issue: { code: 'custom'; path: (string | number)[]; message: string }) => void };

function checkUnique(site: Checked, context: Issues): void {
  for (const list of ['beds', 'probes', 'people'] as const) {
    const seen = new Map<string, number>();
    site[list].forEach(({ id }, index) => {
      const first = seen.get(id);
      if (first === undefined) seen.set(id, index);
      else
        context.addIssue({
          code: 'custom',
          path: [list, index, 'id'],
          message: `expected an id of its own, got ${JSON.stringify(id)}, which ${list}[${first}] has`,
        });
    });
  }
}

interface Referring {
  readonly site?:
    | { readonly thresholds?: ThresholdOverrides | undefined; readonly escalation?: Escalation | undefined }
    | undefined;
  readonly beds: readonly Bed[];
  readonly probes: readonly Probe[];
  readonly people: readonly Person[];
  readonly groups?: readonly Group[] | undefined;
}

/** What in a site description does not hold, and where. */
export interface Problem {
  readonly path: (string | number)[];
  readonly message: string;
}

/** Keepers and placements must point at what the site has; a placement must lie in its bed's sand. */
export function referenceProblems(site: Referring, known: Referring = site): Problem[] {
  const beds = new Map([...known.beds, ...site.beds].map((bed) => [bed.id, bed]));
  const problems: Problem[] = peopleProblems(site, LANGUAGE_CODES, known);
  site.beds.forEach((bed, index) => {
    const set = [site.site?.thresholds, bed.thresholds] as const;
    const unordered = thresholdProblem(thresholdsInForce(...set)) ?? keepingProblem(...set);
    if (unordered) problems.push({ path: ['beds', index, 'thresholds'], message: unordered });
  });
  site.probes.forEach((probe, index) => {
    probe.placements.forEach((placement, at) => {
      const problem = placementProblem(placement, probe.placements[at - 1], beds);
      if (problem)
        problems.push({
          path: ['probes', index, 'placements', at, ...problem.path],
          message: problem.message,
        });
    });
  });
  return problems;
}

function placementProblem(
  placement: Placement,
  previous: Placement | undefined,
  beds: ReadonlyMap<string, Bed>,
): { path: string[]; message: string } | undefined {
  if (placement.to !== undefined && !(placement.to > placement.from))
    return { path: ['to'], message: 'expected a time after "from"' };
  if (previous && !(placement.from >= (previous.to ?? previous.from + 1)))
    return {
      path: ['from'],
      message: 'expected a time after the placement before it: placements run in order and do not overlap',
    };
  if (placement.ambient) return undefined;
  const bed = beds.get(placement.bed);
  if (!bed)
    return { path: ['bed'], message: `expected the id of one of beds, got ${JSON.stringify(placement.bed)}` };
  const { x, y, depth } = placement;
  if (!holdsPoint(blocksOf(bed.steps), x, y, depth))
    return {
      path: [],
      message: `expected a point inside bed ${JSON.stringify(bed.id)}, got x ${x}, y ${y}, depth ${depth} cm`,
    };
  return undefined;
}
