/**
 * What became of a message: each record is a measured value, or set aside with its reason. Pure: no clock, no
 * socket, and whatever the bytes, it never throws.
 */
import { type Quantity, STORABLE, STORED_UNIT, UNIT_RULES, type UnitRule } from '../core/model/quantity.js';
import { MESSAGE_LIMITS, type MessageLimits } from './limits.js';
import type { Incoming, Measured, ReadMessage, Reason, SetAside } from './ports.js';
import { NAME_PATTERN, type ResolvedRecord, resolvePack } from './senml.js';
import { clip, sayTime } from './sentence.js';
import { explainTopic, type ProbeTopic, parseTopic } from './topic.js';

/**
 * Reads one message.
 *
 * @returns for `readings`, one entry in `measured` or `setAside` for each record that states something, in the
 * order of the pack, or one entry in `setAside` where the whole payload had to be refused
 */
export function readMessage(incoming: Incoming, limits: MessageLimits = MESSAGE_LIMITS): ReadMessage {
  const topic = incoming.topic.length <= limits.topic_chars ? parseTopic(incoming.topic) : undefined;
  if (topic === undefined)
    return { kind: 'other', site: '', probe: '', measured: [], setAside: [unknownTopic(incoming, limits)] };
  const { payload } = incoming;
  if (payload.length === 0) return refused(topic, 'payload-empty', 'expected a payload, got none');
  if (!(payload.length <= limits.payload_bytes))
    return refused(
      topic,
      'payload-too-long',
      `expected at most ${limits.payload_bytes} bytes, got ${payload.length}`,
    );
  return topic.kind === 'status' ? readStatus(topic, payload) : readReadings(topic, incoming, limits);
}

function unknownTopic({ topic }: Incoming, limits: MessageLimits): SetAside {
  if (topic.length <= limits.topic_chars) return { reason: 'topic-unknown', detail: explainTopic(topic) };
  const detail = `expected a topic of at most ${limits.topic_chars} characters, got ${topic.length}: ${clip(topic)}`;
  return { reason: 'topic-unknown', detail };
}

function refused({ kind, site, probe }: ProbeTopic, reason: Reason, detail: string): ReadMessage {
  return { kind, site, probe, measured: [], setAside: [{ reason, detail }] };
}

const toText = (payload: Uint8Array): string =>
  Buffer.from(payload.buffer, payload.byteOffset, payload.byteLength).toString('utf8');

function readStatus(topic: ProbeTopic, payload: Uint8Array): ReadMessage {
  const text = toText(payload);
  if (text !== 'online' && text !== 'offline')
    return refused(topic, 'status-unknown', `expected online or offline, got ${clip(text)}`);
  const { site, probe } = topic;
  return { kind: 'status', site, probe, measured: [], online: text === 'online', setAside: [] };
}

function readReadings(topic: ProbeTopic, incoming: Incoming, limits: MessageLimits): ReadMessage {
  const text = toText(incoming.payload);
  let pack: unknown;
  try {
    pack = JSON.parse(text);
  } catch {
    return refused(topic, 'not-json', `expected a SenML pack in JSON, got ${clip(text)}`);
  }
  if (Array.isArray(pack) && !(pack.length <= limits.records))
    return refused(
      topic,
      'too-many-records',
      `expected at most ${limits.records} records, got ${pack.length}`,
    );
  const resolved = resolvePack(pack, incoming.receivedAt);
  if (!resolved.ok) return refused(topic, 'not-senml', resolved.problem);
  return sortRecords(topic, resolved.records, incoming.receivedAt, limits);
}

function sortRecords(
  { kind, site, probe }: ProbeTopic,
  records: readonly ResolvedRecord[],
  receivedAt: number,
  limits: MessageLimits,
): ReadMessage {
  const measured: Measured[] = [];
  const setAside: SetAside[] = [];
  const latest_ms = receivedAt + limits.futureAllowance_ms;
  for (const record of records) {
    const rule = findRule(record);
    const value = typeof record.value === 'number' && rule ? rule.convert(record.value) : Number.NaN;
    if (rule && record.fault === undefined && isBelievable(rule, value, record.time, limits, latest_ms))
      measured.push({ quantity: rule.quantity, time: record.time, value });
    else setAside.push(explain(record, rule, limits, latest_ms));
  }
  return { kind, site, probe, measured, setAside };
}

/** By the last part of the name, then by unit: maps, so that no sender reaches an inherited property. */
const RULES = new Map(
  Object.entries(UNIT_RULES).map(([name, units]) => [name, new Map(Object.entries(units))]),
);

const lastPart = (name: string): string => name.slice(name.lastIndexOf('/') + 1);

function findRule({ name, unit }: ResolvedRecord): UnitRule | undefined {
  if (unit === undefined || !NAME_PATTERN.test(name)) return undefined;
  return RULES.get(lastPart(name))?.get(unit);
}

function isBelievable(
  { quantity }: UnitRule,
  value: number,
  time: number,
  limits: MessageLimits,
  latest_ms: number,
): boolean {
  const [low, high] = STORABLE[quantity];
  return value >= low && value <= high && time >= limits.earliest_ms && time <= latest_ms;
}

/** Why a record was not taken: the first thing that is wrong with it. */
function explain(
  record: ResolvedRecord,
  rule: UnitRule | undefined,
  limits: MessageLimits,
  latest_ms: number,
): SetAside {
  const { fault, value, time } = record;
  if (fault !== undefined) return aside('not-senml', record, fault);
  if (rule === undefined) return explainRule(record);
  if (typeof value !== 'number')
    return aside('value-missing', record, `expected a number in v, got ${sayValue(value)}`);
  const range = explainRange(rule.quantity, rule.convert(value));
  if (range !== undefined) return aside('value-out-of-range', record, range);
  if (!(time >= limits.earliest_ms))
    return aside('time-too-early', record, expectedTime(limits.earliest_ms, 'later', time));
  return aside('time-in-future', record, expectedTime(latest_ms, 'earlier', time));
}

function explainRule(record: ResolvedRecord): SetAside {
  const { name, unit } = record;
  if (!NAME_PATTERN.test(name))
    return aside('name-unknown', record, `expected a name of A-Z a-z 0-9 - : . / _, got ${clip(name)}`);
  const units = RULES.get(lastPart(name));
  if (units === undefined)
    return aside('name-unknown', record, `expected a last part ${anyOf(RULES)}, got ${clip(name)}`);
  return aside('unit-unknown', record, `expected the unit ${anyOf(units)}, got ${clip(unit)}`);
}

const anyOf = (table: ReadonlyMap<string, unknown>): string => [...table.keys()].join(' or ');

const expectedTime = (bound: number, side: string, time: number): string =>
  `expected ${sayTime(bound)} or ${side}, got ${sayTime(time)}`;

const sayValue = (value: ResolvedRecord['value']): string =>
  value instanceof Uint8Array ? `${value.length} octets` : clip(value);

function explainRange(quantity: Quantity, value: number): string | undefined {
  const [low, high] = STORABLE[quantity];
  if (value >= low && value <= high) return undefined;
  return `expected ${low} to ${high} ${STORED_UNIT[quantity]}, got ${value}`;
}

function aside(reason: Reason, { index, name }: ResolvedRecord, problem: string): SetAside {
  return { reason, detail: `record ${index + 1} (${clip(name)}): ${problem}` };
}
