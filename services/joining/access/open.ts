/** Who may do what, for a service as it was started. */
import { isLoopback } from '../../http/index.js';
import type { Registry } from '../../registry/index.js';
import type { ServeSettings } from '../../settings.js';
import type { AccessFacts } from '../access.js';
import { isReached } from '../broker.js';
import type { Station } from '../station.js';
import type { Telling } from '../telling.js';
import type { Ways } from '../ways.js';
import { type Access, createAccess } from './access-ports.js';

interface OpenParts {
  readonly settings: ServeSettings;
  readonly station: Station;
  readonly registry: Registry;
  readonly telling: Telling;
  readonly ways: Ways;
}

export function openAccess({ settings, station, registry, telling, ways }: OpenParts): Access {
  const { listen, httpCredentials, publicUrl, passwordCost } = settings;
  return createAccess({
    ...{ registry, publicUrl, passwordCost, now: Date.now },
    isOpenBefore: isLoopback(listen.host) && httpCredentials === undefined,
    hasBed: (id) => station.directory.beds.has(id),
    hasPerson: (site, id) =>
      registry.sites
        .descriptions()
        .some((one) => one.site.id === site && one.people.some((person) => person.id === id)),
    hasWay: (via) => ways.has(via),
    onMessage: () => telling.kick(),
    onChange: () => station.changes.whole('access'),
  });
}

export const accessFacts = (
  settings: ServeSettings,
  { ports, devices }: Access,
  { ways }: Pick<OpenParts, 'ways'>,
): AccessFacts => ({
  standing: () => ports.standing(),
  httpCredentials: settings.httpCredentials !== undefined,
  broker: settings.broker === undefined ? 'built-in' : 'external',
  mqttCredentials: settings.mqttCredentials !== undefined,
  brokerIsReached: isReached(settings),
  deviceSecrets: () => devices.count(),
  links: settings.publicUrl !== undefined,
  shortMessages: ways.answers('sms'),
  gateway: settings.gateway?.receive !== undefined,
});

/** Where the first steward signs in; undefined where there is one. */
export function firstLink(access: Access, { publicUrl }: ServeSettings, httpUrl: string): string | undefined {
  const secret = access.firstLink();
  return secret === undefined ? undefined : `${(publicUrl ?? httpUrl).replace(/\/$/, '')}/sign-in#${secret}`;
}
