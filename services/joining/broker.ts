/** The built-in broker or the station's own, as one thing. */
import { randomBytes } from 'node:crypto';
import { SandlarderError } from '../core/errors.js';
import { formatAddress, isLoopback } from '../http/index.js';
import {
  connectExternalBroker,
  fromCredentials,
  type Message,
  type Sink,
  startBuiltInBroker,
} from '../intake/index.js';
import type { Log } from '../log.js';
import type { Registry } from '../registry/index.js';
import type { ServeSettings } from '../settings.js';
import type { TlsFiles } from './tls-files.js';

export interface Broker {
  readonly kind: 'built-in' | 'external';
  readonly url: string;
  connected(): boolean;
  /** What it said last while there is no connection; undefined where it said nothing. */
  trouble(): string | undefined;
  publish(message: Message): Promise<void>;
  close(): Promise<void>;
}

export interface BrokerParts {
  readonly settings: ServeSettings;
  readonly sink: Sink;
  readonly registry: Registry;
  readonly log: Log;
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

async function builtIn({ settings, sink, log, tls }: BrokerParts): Promise<Broker> {
  const { mqttListen, mqttCredentials, transport } = settings;
  const { mqttsListen } = transport;
  if (!mqttCredentials && [mqttListen, mqttsListen].some((one) => one && !isLoopback(one.host)))
    throw new SandlarderError(
      'LISTEN_REFUSED',
      `refused to listen for MQTT on ${formatAddress(isLoopback(mqttListen.host) && mqttsListen ? mqttsListen : mqttListen)}, which other machines can reach, without SANDLARDER_MQTT_USER and SANDLARDER_MQTT_PASSWORD`,
    );
  if (!isLoopback(mqttListen.host) && !transport.plainPasswords)
    throw new SandlarderError(
      'LISTEN_REFUSED',
      `refused to listen for MQTT on ${formatAddress(mqttListen)}, which other machines can reach, while passwords would travel in the clear: listen there by TLS (--mqtts-listen), or say --plain-passwords on a network of your own`,
    );
  const broker = await startBuiltInBroker({
    ...{ ...mqttListen, sink },
    ...(mqttsListen && tls && { tls: { ...mqttsListen, ...tls.pair } }),
    onWarning: (warning) => log(warning, warning.slice(0, 40)),
    ...(mqttCredentials && {
      authenticate: fromCredentials(new Map([[mqttCredentials.user, mqttCredentials.password]])),
    }),
  });
  tls?.onNew((pair) => broker.renew(pair));
  if (mqttsListen && broker.tlsPort !== undefined)
    log(`MQTT by TLS at mqtts://${formatAddress({ host: mqttsListen.host, port: broker.tlsPort })}`);
  return {
    kind: 'built-in',
    url: `mqtt://${formatAddress({ host: mqttListen.host, port: broker.port })}`,
    connected: () => true,
    trouble: () => undefined,
    publish: (message) => broker.publish(message),
    close: () => broker.close(),
  };
}

function external(url: string, { settings, sink, registry, log, onConnected }: BrokerParts): Broker {
  const { mqttCredentials } = settings;
  let said: string | undefined;
  const broker = connectExternalBroker({
    url,
    ...mqttCredentials,
    clientId: registry.own.getOrMake('mqtt-client-id', () => `sandlarder-${randomBytes(6).toString('hex')}`),
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
    kind: 'external',
    url,
    connected: () => broker.connected(),
    trouble: () => said,
    publish: (message) => broker.publish(message),
    close: () => broker.close(),
  };
}
