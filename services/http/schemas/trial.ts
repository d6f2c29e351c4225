/** Trials in answers. */
import { z } from 'zod';
import { idSchema } from '../../core/model/id.js';
import { formatTime } from '../../core/model/time.js';
import { OUTCOMES, TRIAL_DESIGNS, type Trial } from '../../core/model/trial.js';
import type { TrialResult } from '../../core/trials/index.js';
import type { TrialReportView } from '../ports.js';
import { timeTextSchema } from './time.js';

export const trialPathSchema = z.strictObject({ trial: idSchema });

const bedsSchema = z.array(
  z.object({ bed: z.string(), block: z.string().nullable(), treatment: z.string().nullable() }),
);

export const trialSchema = z
  .object({
    trial: z.string(),
    version: z.string().meta({ description: 'Of this version: what a correction names as supersedes' }),
    name: z.string(),
    question: z.string().nullable(),
    ...{ at: timeTextSchema, by: z.string(), from: timeTextSchema, to: timeTextSchema.nullable() },
    design: z.enum(TRIAL_DESIGNS),
    treatments: z.array(z.string()),
    described: z.record(z.string(), z.string()).meta({
      description: 'What is done to the beds of a treatment, by its name',
    }),
    beds: bedsSchema,
    outcome: z.object({ kind: z.enum(OUTCOMES), day: z.int() }),
    assigned: z
      .object({
        how: z.enum(['chance', 'hand']),
        seed: z.int().nullable(),
        at: timeTextSchema.nullable(),
        by: z.string().nullable(),
      })
      .nullable()
      .meta({ description: 'How treatments came to beds; null while none has one' }),
    drawn: z.object({ seed: z.int(), at: timeTextSchema, by: z.string(), beds: bedsSchema }).nullable().meta({
      description: 'What was drawn and shown and is not in force yet; no other is drawn while it stands',
    }),
    note: z.string().nullable(),
    supersedes: z.string().nullable(),
    reason: z.string().nullable(),
  })
  .meta({ id: 'Trial', description: 'A version of a trial; never changed, what corrects it supersedes it' });
export type TrialAnswer = z.output<typeof trialSchema>;

export const trialAnswer = (trial: Trial): TrialAnswer => ({
  ...{ trial: trial.trial, version: trial.id, name: trial.name, question: trial.question ?? null },
  ...{ at: formatTime(trial.at), by: trial.by },
  ...{ from: formatTime(trial.from), to: trial.to === undefined ? null : formatTime(trial.to) },
  ...{ design: trial.design, treatments: [...trial.treatments], outcome: trial.outcome },
  described: { ...trial.described },
  beds: bedsAnswer(trial.beds),
  assigned: assignedAnswer(trial.assigned),
  drawn: trial.drawn
    ? { ...trial.drawn, at: formatTime(trial.drawn.at), beds: bedsAnswer(trial.drawn.beds) }
    : null,
  ...{ note: trial.note ?? null, supersedes: trial.supersedes ?? null, reason: trial.reason ?? null },
});

const bedsAnswer = (beds: Trial['beds']): TrialAnswer['beds'] =>
  beds.map(({ bed, block = null, treatment = null }) => ({ bed, block, treatment }));

const assignedAnswer = (assigned: Trial['assigned']): TrialAnswer['assigned'] => {
  if (assigned === null) return null;
  if (assigned.how === 'hand') return { how: 'hand', seed: null, at: null, by: null };
  return { how: 'chance', seed: assigned.seed, at: formatTime(assigned.at), by: assigned.by };
};

const ends = { low: z.number(), high: z.number() };
const interval = z.object({ estimate: z.number(), ...ends });

const wordsSchema = z.object({
  treatments: z.array(z.string()),
  differences: z.array(z.string()),
  effects: z.array(z.string()),
  tests: z.array(z.string()),
  assumptions: z.array(z.string()),
  meaning: z.array(z.string()),
});

const comparisonSchema = z.object({
  design: z.string(),
  beds: z.int(),
  blocks: z.int().nullable(),
  treatments: z.array(
    z.object({
      treatment: z.string(),
      beds: z.int(),
      mean: z.number(),
      sd: z.number().nullable(),
      median: z.number(),
      interval: z.object(ends).nullable(),
    }),
  ),
  differences: z.array(
    z.object({
      from: z.string(),
      to: z.string(),
      difference: interval,
      g: interval.nullable(),
      p: z.number(),
    }),
  ),
  correction: z.string().nullable(),
  effects: z.array(z.object({ name: z.string(), value: z.number() })),
  tests: z.array(
    z.object({
      name: z.string(),
      statistic: z.string(),
      value: z.number(),
      df: z.array(z.number()),
      p: z.number(),
    }),
  ),
  assumptions: z.array(z.object({ about: z.string(), said: z.string(), p: z.number().nullable() })),
});

const survivalSchema = z.object({
  beds: z.int(),
  roots: z
    .number()
    .meta({ description: 'A fraction where shares were carried over to the fewest roots looked at' }),
  clustered: z.boolean(),
  commonTime: z.number(),
  treatments: z.array(
    z.object({
      treatment: z.string(),
      beds: z.int(),
      roots: z.number(),
      lost: z.number(),
      expected: z.number(),
      median: z.number().nullable(),
      kept: z.number(),
      interval: z.object(ends).nullable(),
      steps: z.array(
        z.object({
          time: z.number(),
          atRisk: z.number(),
          lost: z.number(),
          survival: z.number(),
          standardError: z.number().nullable(),
          low: z.number().nullable(),
          high: z.number().nullable(),
        }),
      ),
    }),
  ),
  differences: z.array(
    z.object({
      from: z.string(),
      to: z.string(),
      difference: z.object({ estimate: z.number(), low: z.number().nullable(), high: z.number().nullable() }),
      ratio: interval.nullable(),
      p: z.number(),
    }),
  ),
  logRank: z.object({ chiSquare: z.number(), df: z.int(), p: z.number() }),
  byBed: z.object({ p: z.number(), draws: z.int(), seed: z.int(), ways: z.number() }).nullable(),
});

export const trialResultSchema = z
  .object({
    trial: z.string(),
    version: z.string(),
    rows: z.array(
      z.object({
        bed: z.string(),
        treatment: z.string(),
        block: z.string().nullable(),
        value: z.number().nullable(),
        day: z.number().nullable(),
        reached: z.boolean().nullable(),
        missing: z.string().nullable(),
      }),
    ),
    comparison: comparisonSchema.nullable(),
    survival: survivalSchema.nullable(),
    words: wordsSchema.nullable(),
    survivalWords: wordsSchema.nullable(),
    missing: z.array(z.string()).meta({ description: 'What could not be compared, and why' }),
  })
  .meta({ id: 'TrialResult', description: 'What a trial has come to by now, each bed with one number' });
export type TrialResultAnswer = z.output<typeof trialResultSchema>;

/** Schemas take lists that may be changed; those of core may not, and are the same otherwise. */
export const trialResultAnswer = ({ trial, id }: Trial, result: TrialResult): TrialResultAnswer => ({
  ...{ trial, version: id },
  ...(structuredClone(result) as unknown as Omit<TrialResultAnswer, 'trial' | 'version'>),
});

export const reportQuerySchema = z.strictObject({
  format: z.enum(['html', 'pdf', 'json']).optional().meta({
    description: 'What the header Accept asks for where absent; html where that asks for nothing of these',
  }),
});

const cells = z.array(z.string());

export const trialReportSchema = z
  .object({
    title: z.string(),
    warnings: cells,
    statement: cells,
    sections: z.array(
      z.object({
        heading: z.string(),
        rows: z.array(cells),
        tables: z.array(z.object({ caption: z.string(), columns: cells, rows: z.array(cells) })),
        figures: z.array(z.object({ title: z.string(), description: z.string(), caption: z.string() })),
        notes: cells,
      }),
    ),
    footer: z.string(),
    versions: z.array(trialSchema),
    result: trialResultSchema,
    valuesCsv: z.string().meta({ description: 'What `sandlarder trial test` reads' }),
    rootsCsv: z.string().meta({ description: 'The same with `--design survival`' }),
  })
  .meta({
    id: 'TrialReport',
    description: 'The report of a trial as data; its figures are drawn in the page and the file',
  });
export type TrialReportAnswer = z.output<typeof trialReportSchema>;

export function trialReportAnswer({
  versions,
  document,
  result,
  valuesCsv,
  rootsCsv,
}: TrialReportView): TrialReportAnswer {
  const { title, warnings, statement, sections, footer } = document;
  return {
    ...{ title, warnings: [...warnings], statement: [...statement], footer, valuesCsv, rootsCsv },
    sections: sections.map(({ heading, rows, tables, figures = [], notes }) => ({
      heading,
      rows: rows.map((row) => [...row]),
      tables: tables.map(({ caption, columns, rows: lines }) => ({
        ...{ caption, columns: columns.map(({ head }) => head), rows: lines.map((line) => [...line]) },
      })),
      figures: figures.map(({ plot, caption }) => ({
        title: plot.title,
        description: plot.description,
        caption,
      })),
      notes: [...notes],
    })),
    versions: versions.map(trialAnswer),
    result: trialResultAnswer(versions[0], result),
  };
}
