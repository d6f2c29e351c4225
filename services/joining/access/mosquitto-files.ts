/** The two files by which a Mosquitto lets devices in and holds them to their topics (mosquitto.conf(5), acl_file). */
import { SandlarderError } from '../../core/errors.js';
import { deviceUser, topicsOf } from '../../core/model/device.js';
import { PROBE_TOPIC_FILTER } from '../../intake/index.js';
import type { DeviceSecret } from '../../registry/index.js';
import { hashForBroker } from './device-hash.js';

/** What a person chose is guessed sooner than a device's secret: some hundredths of a second for each try. */
const PASSWORD_ITERATIONS = 20_000;

export interface MosquittoFiles {
  readonly acl: string;
  readonly passwords: string;
}

interface ServiceUser {
  readonly user: string;
  readonly password: string;
}

/**
 * @param secrets of all devices, as they are kept
 * @param service the user by which the service itself connects
 * @throws SandlarderError WRONG_USAGE for a user name that these files cannot hold, or that is a device's
 */
export function mosquittoFiles(
  secrets: readonly DeviceSecret[],
  { user, password }: ServiceUser,
): MosquittoFiles {
  if (!/^[^\s:#]+$/.test(user) || secrets.some(({ name }) => name === user))
    throw new SandlarderError(
      'WRONG_USAGE',
      `SANDLARDER_MQTT_USER: expected a name without blanks, ":" and "#" that is no device's, got ${JSON.stringify(user)}`,
    );
  return {
    acl: [HEAD, ...serviceLines(user), ...secrets.flatMap(deviceLines), ''].join('\n'),
    passwords: [
      `${user}:${hashForBroker(password, PASSWORD_ITERATIONS)}`,
      ...secrets.map(({ name, hash }) => `${name}:${hash}`),
      '',
    ].join('\n'),
  };
}

const HEAD =
  '# Written by "sandlarder probe mosquitto", which writes it anew: put rules of your own into another place.';

/** The service reads all that probes say, shows which beds have alarms, tells a centre, and hears how many messages the broker dropped. */
const serviceLines = (user: string): string[] => [
  '',
  `user ${user}`,
  `topic read ${PROBE_TOPIC_FILTER}`,
  'topic readwrite sandlarder/v1/+/beds/+/alarm',
  'topic write sandlarder/v1/+/records/+',
  'topic read $SYS/broker/#',
];

function deviceLines({ kind, site, device }: DeviceSecret): string[] {
  const { says, hears } = topicsOf({ kind, site, id: device });
  const access = (topic: string): string => {
    const [isSaid, isHeard] = [says.includes(topic), hears.includes(topic)];
    return isSaid && isHeard ? 'readwrite' : isSaid ? 'write' : 'read';
  };
  const lines = [...new Set([...says, ...hears])].map((topic) => `topic ${access(topic)} ${topic}`);
  return ['', `user ${deviceUser({ kind, site, id: device })}`, ...lines];
}
