/** The topics that probes publish on: `sandlarder/v1/{site}/probes/{probe}/readings` and `.../status`. */
import { z } from 'zod';
import { ID_PATTERN, idSchema } from '../core/model/id.js';
import { clip } from './sentence.js';

/** What the service asks a broker for: matches the probe topics and nothing else of the contract. */
export const PROBE_TOPIC_FILTER = 'sandlarder/v1/+/probes/+/+';

const ID = ID_PATTERN.source.slice(1, -1);
const PROBE_TOPIC = new RegExp(`^sandlarder/v1/(${ID})/probes/(${ID})/(readings|status)$`);

/** The levels of a probe topic, one by one: says which of them is wrong. */
const levelsSchema = z.tuple([
  z.literal('sandlarder', 'expected "sandlarder"'),
  z.literal('v1', 'expected "v1"'),
  idSchema,
  z.literal('probes', 'expected "probes"'),
  idSchema,
  z.enum(['readings', 'status'], 'expected "readings" or "status"'),
]);

export interface ProbeTopic {
  readonly site: string;
  readonly probe: string;
  readonly kind: 'readings' | 'status';
}

/** The probe topic, or undefined where the text is none: levels and ids exactly as the contract has them. */
export function parseTopic(topic: string): ProbeTopic | undefined {
  const [, site, probe, kind] = PROBE_TOPIC.exec(topic) ?? [];
  if (site === undefined || probe === undefined) return undefined;
  if (kind !== 'readings' && kind !== 'status') return undefined;
  return { site, probe, kind };
}

/** Why a text is no probe topic: the first level that is wrong, what was expected there and what came. */
export function explainTopic(topic: string): string {
  const levels = topic.split('/', levelsSchema.def.items.length + 1);
  const [issue] = levelsSchema.safeParse(levels).error?.issues ?? [];
  const at = issue?.path[0];
  if (issue === undefined || typeof at !== 'number')
    return `expected sandlarder/v1/{site}/probes/{probe}/readings or .../status, got ${clip(topic)}`;
  return `level ${at + 1} of the topic: ${issue.message}, got ${clip(levels[at])} in ${clip(topic)}`;
}
