/** The built-in broker or the station's own, as one thing. */
import { randomBytes } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { partitionPrefix, partitionSession } from '../core/model/partition.js';
import { formatAddress, isLoopback, type Metrics } from '../http/index.js';
import {
  ANY_SPEAKER,
  type Authenticate,
  connectExternalBroker,
  type ExternalBrokerOptions,
  fromCredentials,
  type Message,
  PROBE_TOPIC_FILTER,
  RECORD_TOPIC_FILTER,
  type Refusal,
  type Sink,
  startBuiltInBroker,
} from '../intake/index.js';
import type { Log } from '../log.js';
import type { Registry } from '../registry/index.js';
import type { ServeSettings } from '../settings.js';
import { DeviceSecretDesk } from './access/device-secrets.js';
import type { TlsFiles } from './tls-files.js';

export interface Broker {
  readonly kind: 'built-in' | 'external';
  readonly url: string;
  connected(): boolean;
  /** What it said last while there is no connection; undefined where it said nothing. */
  trouble(): string | undefined;
  /** What was refused of those who connected, since the start; nothing is known of it at an external broker. */
  readonly refused: Readonly<Record<Refusal, number>> | null;
  /** Ends the connections of devices whose secret is another by now, or none. */
  look(): void;
  publish(message: Message): Promise<void>;
  close(): Promise<void>;
}

export interface BrokerParts {
  readonly settings: ServeSettings;
  readonly sink: Sink;
  readonly registry: Registry;
  readonly log: Log;
  readonly metrics: Metrics;
  /** Certificate and key in use, where it also listens by TLS. */
  readonly tls?: TlsFiles | undefined;
  /** Called at every new connection. */
  readonly onConnected: () => void;
}

/** @throws SandlarderError LISTEN_REFUSED or WRONG_USAGE */
export function openBroker(parts: BrokerParts): Promise<Broker> {
  const { broker } = parts.settings;
  return broker === undefined ? builtIn(parts) : Promise.resolve(external(broker, parts));
}

async function builtIn({ settings, sink, registry, log, metrics, tls }: BrokerParts): Promise<Broker> {
  const { mqttListen, transport } = settings;
  const { mqttsListen } = transport;
  const devices = new DeviceSecretDesk(registry, Date.now);
  requireListening(settings, devices);
  let seen = devices.changes();
  const refused: Record<Refusal, number> = { connect: 0, publish: 0, subscribe: 0 };
  const broker = await startBuiltInBroker({
    ...{ ...mqttListen, sink, authenticate: doorOf(settings, devices) },
    ...(mqttsListen && tls && { tls: { ...mqttsListen, ...tls.pair } }),
    onWarning: log,
    onRefused: (what, sentence) => {
      refused[what] += 1;
      metrics.brokerRefused.inc({ what });
      log(sentence, `mqtt ${what}`);
    },
  });
  tls?.onNew((pair) => broker.renew(pair));
  if (mqttsListen && broker.tlsPort !== undefined)
    log(`MQTT by TLS at mqtts://${formatAddress({ host: mqttsListen.host, port: broker.tlsPort })}`);
  return {
    ...{ kind: 'built-in', refused },
    url: `mqtt://${formatAddress({ host: mqttListen.host, port: broker.port })}`,
    connected: () => true,
    trouble: () => undefined,
    look: () => {
      try {
        const changes = devices.changes();
        if (changes === seen) return;
        broker.endWhere((speaker) => devices.isOver(speaker));
        seen = changes;
      } catch (error) {
        log(`secrets of probes cannot be looked at: ${(error as Error).message}`, 'device secrets');
      }
    },
    publish: (message) => broker.publish(message),
    close: () => broker.close(),
  };
}

/** Whether other machines reach the built-in broker. */
export const isReached = ({ mqttListen, transport: { mqttsListen } }: ServeSettings): boolean =>
  [mqttListen, mqttsListen].some((one) => one !== undefined && !isLoopback(one.host));

/**
 * User and password of the station, and devices with their secrets. Where only this machine reaches the broker and the
 * station has no password, nobody is asked who shows no device's name.
 */
function doorOf(settings: ServeSettings, devices: DeviceSecretDesk): Authenticate {
  const { mqttCredentials } = settings;
  const isStation: Authenticate = mqttCredentials
    ? fromCredentials(new Map([[mqttCredentials.user, mqttCredentials.password]]))
    : () => undefined;
  const isOpen = !mqttCredentials && !isReached(settings);
  return (user, password) =>
    isStation(user, password) ??
    devices.admit(user, password) ??
    (isOpen && !devices.has(user) ? ANY_SPEAKER : undefined);
}

/** @throws SandlarderError LISTEN_REFUSED */
function requireListening(settings: ServeSettings, devices: DeviceSecretDesk): void {
  const { mqttListen, mqttCredentials, transport } = settings;
  const { mqttsListen, plainPasswords } = transport;
  if (!mqttCredentials && devices.count() === 0 && isReached(settings))
    throw new SandlarderError(
      'LISTEN_REFUSED',
      `refused to listen for MQTT on ${formatAddress(isLoopback(mqttListen.host) && mqttsListen ? mqttsListen : mqttListen)}, which other machines can reach, without SANDLARDER_MQTT_USER and SANDLARDER_MQTT_PASSWORD, or the secret of a probe ("sandlarder probe secret")`,
    );
  if (!isLoopback(mqttListen.host) && !plainPasswords)
    throw new SandlarderError(
      'LISTEN_REFUSED',
      `refused to listen for MQTT on ${formatAddress(mqttListen)}, which other machines can reach, while passwords would travel in the clear: listen there by TLS (--mqtts-listen), or say --plain-passwords on a network of your own`,
    );
}

/** The name of the session is that of the partition, whichever worker has it, or else this service's own. */
function sessionOf(
  { partition }: ServeSettings,
  registry: Registry,
): Pick<ExternalBrokerOptions, 'clientId' | 'prefix' | 'filters'> {
  if (partition)
    return {
      clientId: partitionSession(partition.group, partition.number),
      prefix: partitionPrefix(partition.group, partition.number),
      filters: [PROBE_TOPIC_FILTER, RECORD_TOPIC_FILTER],
    };
  const make = (): string => `sandlarder-${randomBytes(6).toString('hex')}`;
  return { clientId: registry.own.getOrMake('mqtt-client-id', make) };
}

function external(url: string, { settings, sink, registry, log, onConnected }: BrokerParts): Broker {
  const { mqttCredentials } = settings;
  let said: string | undefined;
  const broker = connectExternalBroker({
    url,
    ...mqttCredentials,
    ...sessionOf(settings, registry),
    sink,
    expectSession: registry.own.get('mqtt-session-at') === url,
    onWarning: (warning) => {
      said = warning.replace(/^broker \S+: /, '');
      log(warning, warning.slice(0, 40));
    },
    onConnected: (connected) => {
      if (!connected) return;
      said = undefined;
      log(`connected to the broker at ${url}`, 'connected to the broker');
      registry.own.set('mqtt-session-at', url);
      onConnected();
    },
  });
  return {
    ...{ kind: 'external', url, refused: null },
    connected: () => broker.connected(),
    trouble: () => said,
    look: () => undefined,
    publish: (message) => broker.publish(message),
    close: () => broker.close(),
  };
}
