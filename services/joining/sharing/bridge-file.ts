/** The configuration by which the Mosquitto of an edge machine forwards its site to a centre (mosquitto.conf(5), "Bridges"). */
import { SandlarderError } from '../../core/errors.js';
import { partitionName, partitionOf, partitionPrefix } from '../../core/model/partition.js';
import type { BrokerAddress } from '../../intake/index.js';

export interface BridgeAsked {
  readonly site: string;
  readonly centre: BrokerAddress;
  readonly group: string;
  readonly partitions: number;
  /** Of the site at the centre's broker. */
  readonly user?: string | undefined;
  readonly password?: string | undefined;
  /** File of the authority that signed the centre's certificate; what the system knows where absent. */
  readonly authority?: string | undefined;
}

export interface BridgeFile {
  readonly partition: string;
  readonly text: string;
  /** What the site's user may do at the centre's broker, as a line of its acl_file. */
  readonly acl: string;
}

/** Where Debian and its kin keep the authorities that the system knows. */
const AUTHORITIES = '/etc/ssl/certs';

/** Between attempts to reach the centre, s, drawn at random from the first on: edges do not all come back at once. */
const RETRY_s = { least: 5, most: 300 } as const;

const KEEPALIVE_s = 60;

/** @throws SandlarderError WRONG_USAGE for what such a file cannot hold, and a password that would travel in the clear */
export function bridgeFile(asked: BridgeAsked): BridgeFile {
  requireFit(asked);
  const { site, centre, group, partitions } = asked;
  const partition = partitionOf(site, partitions);
  const prefix = partitionPrefix(group, partition);
  const own = `sandlarder/v1/${site}/`;
  const forward = (topic: string): string => `topic ${topic} out 1 ${own} ${prefix}${own}`;
  return {
    partition: partitionName(partition),
    text: [
      `# Written by "sandlarder bridge" for site ${site}, partition ${partitionName(partition)} of ${partitions} of ${group}.`,
      '# What the centre has not acknowledged waits here on disk: the lines of mosquitto.example.conf belong beside this.',
      `connection sandlarder-${group}-${site}`,
      `address ${centre.host}:${centre.port}`,
      ...tlsLines(asked),
      ...userLines(asked),
      `remote_clientid sandlarder-edge-${group}-${site}`,
      `local_clientid sandlarder-bridge-${group}-${site}`,
      'bridge_protocol_version mqttv311',
      'cleansession false',
      'notifications false',
      'start_type automatic',
      `restart_timeout ${RETRY_s.least} ${RETRY_s.most}`,
      `keepalive_interval ${KEEPALIVE_s}`,
      ...['probes/+/readings', 'probes/+/status', 'records/+'].map(forward),
      '',
    ].join('\n'),
    acl: `topic write ${prefix}${own}#`,
  };
}

const tlsLines = ({ centre, authority }: BridgeAsked): string[] =>
  centre.tls ? [authority === undefined ? `bridge_capath ${AUTHORITIES}` : `bridge_cafile ${authority}`] : [];

const userLines = ({ user, password }: BridgeAsked): string[] =>
  user === undefined ? [] : [`remote_username ${user}`, `remote_password ${password}`];

/** One line of the file for each value, without blanks at its ends. */
const isOneLine = (text: string): boolean => /^\S(?:[^\p{Cc}]*\S)?$/u.test(text);

function requireFit({ centre, user, password, authority }: BridgeAsked): void {
  for (const [name, value] of [
    ['SANDLARDER_BRIDGE_USER', user] as const,
    ['SANDLARDER_BRIDGE_PASSWORD', password] as const,
    ['--authority', authority] as const,
  ])
    if (value !== undefined && !isOneLine(value))
      throw wrong(`${name}: expected one line without blanks at its ends, got another text`);
  if ((user === undefined) !== (password === undefined))
    throw wrong(
      'expected SANDLARDER_BRIDGE_USER and SANDLARDER_BRIDGE_PASSWORD together, got only one of them',
    );
  if (authority !== undefined && !centre.tls)
    throw wrong('--authority: expected a centre at mqtts://, got one without TLS');
  if (password !== undefined && !centre.tls && !isHere(centre.host))
    throw wrong(`--centre: expected mqtts:// where a password travels, got mqtt://${centre.host}`);
}

const isHere = (host: string): boolean => host === 'localhost' || host === '::1' || host.startsWith('127.');

const wrong = (message: string): SandlarderError => new SandlarderError('WRONG_USAGE', message);
