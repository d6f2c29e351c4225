/**
 * Every limit of the intake, with its unit and what it protects. All are finite, and all can be set by whoever
 * starts the service; these are the defaults.
 */
import { EARLIEST_TIME_ms, MINUTE_ms } from '../core/model/time.js';

/** What one message may be. */
export interface MessageLimits {
  readonly topic_chars: number;
  readonly payload_bytes: number;
  readonly records: number;
  /** How far past its arrival a reading may say that it was measured, ms. */
  readonly futureAllowance_ms: number;
  /** Event times before this are a broken clock, ms since the epoch. */
  readonly earliest_ms: number;
}

export const MESSAGE_LIMITS: MessageLimits = Object.freeze({
  // The longest topic of the contract, with two ids of 32 characters, has 95.
  topic_chars: 128,
  // A logger that was a week out of reach sends 3,024 records (three quantities every ten minutes), which is
  // 140 KiB written tersely and 300 KiB written in full. Parsing 512 KiB holds the process for about 10 ms.
  payload_bytes: 512 * 1024,
  records: 5000,
  // Covers a probe's clock that runs ahead; a reading from further off would put the watch ahead of the world.
  futureAllowance_ms: 10 * MINUTE_ms,
  earliest_ms: EARLIEST_TIME_ms,
});

/** How messages are gathered into one commit, and what may wait for it. */
export interface CollectorLimits {
  /** Messages that make a group. */
  readonly group_messages: number;
  /** Payload of its messages that makes one too: buffers of a day are a hundred times a reading, and a group is read at once. */
  readonly group_bytes: number;
  /** Longest that the first message of a group waits, ms. */
  readonly group_ms: number;
  /** Messages and payload bytes that may wait while the store fails: they bound the memory. */
  readonly waiting_messages: number;
  readonly waiting_bytes: number;
  /** First and longest pause before a failed commit is tried again, ms. */
  readonly retryFirst_ms: number;
  readonly retryLongest_ms: number;
}

export const COLLECTOR_LIMITS: CollectorLimits = Object.freeze({
  group_messages: 1000,
  group_bytes: 512 * 1024,
  group_ms: 50,
  waiting_messages: 20_000,
  waiting_bytes: 64 * 1024 * 1024,
  retryFirst_ms: 100,
  retryLongest_ms: 5000,
});

/** What the built-in broker takes from the network. */
export interface BrokerLimits {
  /** Longest MQTT packet, bytes. Above the payload limit, so that a payload too long is told apart and counted. */
  readonly packet_bytes: number;
  readonly connections: number;
  /** From the connection to a complete CONNECT, ms. */
  readonly connect_ms: number;
  /** How long a client may leave its receive buffer full, ms. */
  readonly drain_ms: number;
  /** Idle time after which TCP asks whether the other end still lives, ms. */
  readonly tcpKeepAlive_ms: number;
  /** Unacknowledged messages that a client may have under way. */
  readonly inflight_messages: number;
  /** Topics with a retained message: they stay in memory. */
  readonly retained_topics: number;
}

export const BROKER_LIMITS: BrokerLimits = Object.freeze({
  packet_bytes: 1024 * 1024,
  connections: 2000,
  connect_ms: 10_000,
  drain_ms: 30_000,
  tcpKeepAlive_ms: 60_000,
  inflight_messages: 1000,
  retained_topics: 20_000,
});

/** How the service keeps its connection to a broker of the station's own. */
export interface ExternalLimits {
  /** Unacknowledged messages that the broker may have under way to the service [MQTT5-3.1.2.11.3]. */
  readonly inflight_messages: number;
  /** Longest packet that the service takes [MQTT5-3.1.2.11.4], bytes. */
  readonly packet_bytes: number;
  readonly keepAlive_s: number;
  readonly connect_ms: number;
  /** For the broker to take what is on its way to it when the service leaves, ms: a broker that hangs does not keep it. */
  readonly close_ms: number;
  /** First and longest pause between attempts to connect, ms. */
  readonly reconnectFirst_ms: number;
  readonly reconnectLongest_ms: number;
}

export const EXTERNAL_LIMITS: ExternalLimits = Object.freeze({
  // Below the collector's waiting_messages: this broker alone can never overfill it.
  inflight_messages: 1000,
  packet_bytes: 1024 * 1024,
  keepAlive_s: 30,
  connect_ms: 20_000,
  close_ms: 5_000,
  reconnectFirst_ms: 500,
  reconnectLongest_ms: 30_000,
});
