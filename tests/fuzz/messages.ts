/** Messages of probes, changed by chance, at the reader: it never throws, and what it measures can be stored. */
import { STORABLE } from '../../services/core/model/quantity.js';
import { MESSAGE_LIMITS } from '../../services/intake/limits.js';
import { REASONS, type ReadMessage } from '../../services/intake/ports.js';
import { readMessage } from '../../services/intake/read-message.js';
import { Chance, mutated } from './chance.js';
import { type Asked, Outcomes, type Tried, Unsound } from './part.js';

const RECEIVED_AT = Date.UTC(2026, 5, 1, 12);
const TOPICS = ['readings', 'status'].map((kind) => `sandlarder/v1/ridge-station/probes/p01/${kind}`);
/** A sentence of what was expected and came is never longer, characters. */
const SENTENCE = 1000;

const GOOD: readonly Buffer[] = [
  'online',
  '[{"bn":"urn:dev:ops:p01/","bt":1780300000,"n":"temperature","u":"Cel","v":21.4},{"n":"humidity","u":"%RH","v":61}]',
  '[{"n":"temperature","u":"K","v":294.5,"t":-600},{"n":"temperature","u":"K","v":294.6,"t":-1200}]',
  '[{"bn":"p01/","bt":1.7803e9,"bu":"V","bv":3,"bver":10},{"n":"battery","v":0.12,"s":1,"ut":60},{"n":"charge","u":"/","v":0.5}]',
].map((text) => Buffer.from(text));

const PACKS = GOOD.slice(1).map((text) => JSON.parse(text.toString('utf8')) as Record<string, unknown>[]);
const FIELDS = ['bn', 'bt', 'bu', 'bv', 'bs', 'bver', 'n', 'u', 'v', 'vs', 'vb', 'vd', 's', 't', 'ut', 'x_'];
/** What a field may come to hold: what belongs there, about its bounds, and anything else. */
const VALUES: readonly ((chance: Chance) => unknown)[] = [
  (chance) => -60 + 220 * chance.next(),
  (chance) => 1.7803e9 + 1e6 * (chance.next() - 0.5),
  (chance) => chance.of([0, -0, 2 ** 28, 2 ** 28 - 1, 9e15, 1e308, 85, -127, 273.15]),
  (chance) =>
    chance.of(['temperature', 'humidity', 'battery', 'charge', 'p01/temperature', '__proto__', '', '/']),
  (chance) => chance.of(['Cel', 'K', '%RH', '/', 'V', '%EL', 'degC', 'lon', 'constructor']),
  (chance) => chance.of([null, true, [], {}, 'x'.repeat(500), '\ud800', [1, [2, [3]]]]),
];

export function tryMessages({ cases, seed }: Asked): Tried {
  const chance = new Chance(seed);
  const outcomes = new Outcomes();
  for (let number = 0; number < cases; number += 1) {
    const payload = payloadOf(chance);
    const topic =
      chance.below(10) === 0
        ? mutated(chance, Buffer.from(chance.of(TOPICS)), GOOD).toString('utf8')
        : (TOPICS[chance.below(10) === 0 ? 1 : 0] as string);
    outcomes.add(outcomeOf(topic, payload, `messages: seed ${seed}, case ${number}`));
  }
  return { cases, outcomes: outcomes.counts };
}

/** Bytes, a good message with some of them changed, or a pack with other fields and values in it. */
function payloadOf(chance: Chance): Buffer {
  const kind = chance.below(10);
  if (kind === 0) return chance.bytes(chance.below(80));
  if (kind < 4) return mutated(chance, chance.of(GOOD), GOOD);
  const pack = structuredClone(chance.of(PACKS));
  for (let left = 1 + chance.below(3); left > 0; left -= 1)
    (pack[chance.below(pack.length)] as Record<string, unknown>)[chance.of(FIELDS)] =
      chance.of(VALUES)(chance);
  return Buffer.from(JSON.stringify(pack));
}

function outcomeOf(topic: string, payload: Buffer, name: string): string {
  let message: ReadMessage;
  try {
    message = readMessage({ topic, payload, receivedAt: RECEIVED_AT });
  } catch (error) {
    throw new Unsound(`${name}: expected an answer, got ${String(error)} for ${payload.toString('hex')}`);
  }
  const problem = problemOf(message);
  if (problem) throw new Unsound(`${name}: ${problem} for ${payload.toString('hex')}`);
  return message.setAside[0]?.reason ?? (message.online === undefined ? 'measured' : 'status');
}

function problemOf({ measured, setAside, online }: ReadMessage): string | undefined {
  const latest = RECEIVED_AT + MESSAGE_LIMITS.futureAllowance_ms;
  for (const { quantity, time, value } of measured) {
    const [low, high] = STORABLE[quantity];
    if (!(value >= low && value <= high)) return `expected a ${quantity} that can be stored, got ${value}`;
    if (!(Number.isInteger(time) && time >= MESSAGE_LIMITS.earliest_ms && time <= latest))
      return `expected a time that can be, got ${time}`;
  }
  for (const { reason, detail } of setAside)
    if (!REASONS.includes(reason) || !(detail.length > 0 && detail.length < SENTENCE))
      return `expected a reason in a sentence, got ${reason}, ${detail.length} characters`;
  return measured.length + setAside.length + (online === undefined ? 0 : 1) > 0
    ? undefined
    : 'expected something of every message, got nothing';
}
