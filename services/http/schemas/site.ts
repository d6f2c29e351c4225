/** Site descriptions in answers, as a site file has them, and what is asked of a change. */
import { z } from 'zod';
import { idSchema } from '../../core/model/id.js';
import { groupSchema } from '../../core/model/people.js';
import { bedSchema, personSchema, probeSchema, SITE_LIMITS, siteShapeSchema } from '../../core/model/site.js';
import { formatTime } from '../../core/model/time.js';
import { whoSchema } from '../../core/model/who.js';
import { ENTRY_KINDS, type SiteChangeView } from '../ports.js';
import { countQuerySchema } from './query.js';
import { timeTextSchema } from './time.js';

export const sitePathSchema = z.strictObject({ site: idSchema });
export const entryPathSchema = z.strictObject({ site: idSchema, id: idSchema });

/** Bodies of a change: who changes, and the entry whole. */
export const ENTRY_BODIES = {
  site: z.strictObject({ by: whoSchema, site: siteShapeSchema.shape.site }),
  bed: z.strictObject({ by: whoSchema, bed: bedSchema }),
  probe: z.strictObject({ by: whoSchema, probe: probeSchema }),
  person: z.strictObject({ by: whoSchema, person: personSchema }),
  group: z.strictObject({ by: whoSchema, group: groupSchema }),
} as const;

export const takeBodySchema = z.strictObject({ by: whoSchema, description: siteShapeSchema });

const placementSchema = z
  .object({
    bed: idSchema.optional(),
    x: z.number().optional(),
    y: z.number().optional(),
    depth: z.number().optional(),
    ambient: z.literal(true).optional().meta({ description: 'In the shade outside, in the place of a bed' }),
    from: timeTextSchema,
    to: timeTextSchema.optional(),
  })
  .meta({
    description: 'cm from the north-west corner of the opening; to the next placement where no end is given',
  });

const steps = z.array(
  z.object({
    ...{ length: z.number(), width: z.number(), height: z.number() },
    ...{ x: z.number().optional(), y: z.number().optional() },
  }),
);

/** Entries as a site file has them: those that are read with a change of form have it back here. */
export const ENTRY_ANSWERS = {
  site: z.object({ ...siteShapeSchema.shape.site.shape }).meta({ id: 'DescribedSite' }),
  bed: z
    .object({ ...bedSchema.shape, steps, filled: timeTextSchema.optional() })
    .meta({ id: 'DescribedBed' }),
  probe: z
    .object({ ...probeSchema.shape, placements: z.array(placementSchema).max(SITE_LIMITS.placements) })
    .meta({ id: 'DescribedProbe' }),
  person: z.object({ ...personSchema.shape }).meta({ id: 'DescribedPerson' }),
  group: z.object({ ...groupSchema.shape }).meta({ id: 'DescribedGroup' }),
} as const;

export const descriptionSchema = z
  .object({
    version: z.literal(1),
    site: ENTRY_ANSWERS.site,
    beds: z.array(ENTRY_ANSWERS.bed),
    probes: z.array(ENTRY_ANSWERS.probe),
    people: z.array(ENTRY_ANSWERS.person),
    groups: z.array(ENTRY_ANSWERS.group),
  })
  .meta({ id: 'SiteDescription', description: 'As a site file: what is saved from here can be loaded' });

export const siteListSchema = z
  .object({
    id: z.string(),
    name: z.string(),
    timezone: z.string(),
    version: z.number().int().meta({ description: 'What the ETag of the description says' }),
    ...{ beds: z.number().int(), probes: z.number().int() },
    ...{ people: z.number().int(), groups: z.number().int() },
  })
  .meta({ id: 'Site' });

const follows = z
  .array(z.string())
  .meta({ description: 'What follows for the watch and for people, in words' });

/** What became of a change; `entry` as it stands now. */
export const changedSchema = (entry: z.ZodType) =>
  z.object({
    version: z.number().int(),
    changed: z.boolean().meta({ description: 'false where it stood like this already' }),
    entry,
    follows,
  });

const countsSchema = z.object({
  added: z.number().int(),
  changed: z.number().int(),
  same: z.number().int(),
});

export const takenSchema = z
  .object({
    site: z.string(),
    version: z.number().int(),
    counts: z.record(z.string(), countsSchema),
    follows,
  })
  .meta({ id: 'TakenDescription' });

export const changesQuerySchema = z.strictObject({ limit: countQuerySchema(1, 500).prefault(50) });

export const changeSchema = z
  .object({
    version: z.number().int(),
    at: timeTextSchema,
    by: z.string().nullable().meta({ description: 'null where a file was loaded by the command' }),
    kind: z.enum(ENTRY_KINDS),
    id: z.string(),
    isNew: z.boolean(),
  })
  .meta({ id: 'SiteChange' });

export const changeAnswer = ({ at, ...rest }: SiteChangeView): z.output<typeof changeSchema> => ({
  ...rest,
  at: formatTime(at),
});
