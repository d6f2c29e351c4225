/** What the rest of the program may use of the intake. */
export { type BrokerAddress, parseBrokerUrl } from './broker-url.js';
export {
  type BuiltInBroker,
  type BuiltInBrokerOptions,
  startBuiltInBroker,
} from './built-in-broker.js';
export { Collector, type CollectorCounts, type CollectorOptions, type Timing } from './collector.js';
export { ANY_SPEAKER, type Authenticate, fromCredentials, type Speaker } from './credentials.js';
export { REFUSALS, type Refusal } from './door.js';
export { connectExternalBroker, type ExternalBroker, type ExternalBrokerOptions } from './external-broker.js';
export {
  BROKER_LIMITS,
  type BrokerLimits,
  COLLECTOR_LIMITS,
  type CollectorLimits,
  EXTERNAL_LIMITS,
  type ExternalLimits,
  MESSAGE_LIMITS,
  type MessageLimits,
} from './limits.js';
export {
  type Acknowledge,
  type Incoming,
  type Measured,
  type Message,
  REASONS,
  type ReadMessage,
  type Reason,
  type SetAside,
  type Sink,
} from './ports.js';
export { readMessage } from './read-message.js';
export {
  parseRecordTopic,
  RECORD_TOPIC_FILTER,
  type RecordKind,
  type RecordTopic,
  recordTopic,
} from './record-topic.js';
export { PROBE_TOPIC_FILTER, type ProbeTopic, parseTopic } from './topic.js';
