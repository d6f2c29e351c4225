/**
 * The topics on which an edge machine tells a centre what was written down and found there:
 * `sandlarder/v1/{site}/records/{kind}`.
 */
import { ID_PATTERN } from '../core/model/id.js';

export const RECORD_KINDS = ['site', 'inspection', 'alarm'] as const;
export type RecordKind = (typeof RECORD_KINDS)[number];

export const RECORD_TOPIC_FILTER = 'sandlarder/v1/+/records/+';

const ID = ID_PATTERN.source.slice(1, -1);
const RECORD_TOPIC = new RegExp(`^sandlarder/v1/(${ID})/records/([a-z]+)$`);

export interface RecordTopic {
  readonly site: string;
  readonly kind: RecordKind;
}

export const recordTopic = ({ site, kind }: RecordTopic): string => `sandlarder/v1/${site}/records/${kind}`;

/** Undefined where the text is no topic of a record. */
export function parseRecordTopic(topic: string): RecordTopic | undefined {
  const [, site, kind] = RECORD_TOPIC.exec(topic) ?? [];
  const known = RECORD_KINDS.find((one) => one === kind);
  return site === undefined || known === undefined ? undefined : { site, kind: known };
}
