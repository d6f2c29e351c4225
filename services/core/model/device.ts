/** Devices with a secret of their own at a broker, and what the contract gives each of them to say and to hear. */

export const DEVICE_KINDS = ['probe', 'lamp'] as const;
export type DeviceKind = (typeof DEVICE_KINDS)[number];

export interface Device {
  readonly kind: DeviceKind;
  readonly site: string;
  /** Id of the probe; a name of the same form for a lamp or buzzer. */
  readonly id: string;
}

/** By which it connects: `ridge-station.p01`, `ridge-station.lamp.hut`. Ids hold no dot, so no two devices share one. */
export const deviceUser = ({ kind, site, id }: Device): string =>
  kind === 'probe' ? `${site}.${id}` : `${site}.${kind}.${id}`;

export interface DeviceTopics {
  /** Topics that it may publish on, its will among them. */
  readonly says: readonly string[];
  /** Filters that it may subscribe to, or any narrower one. */
  readonly hears: readonly string[];
}

export function topicsOf({ kind, site, id }: Device): DeviceTopics {
  const root = `sandlarder/v1/${site}`;
  if (kind === 'lamp') return { says: [], hears: [`${root}/beds/+/alarm`] };
  const own = [`${root}/probes/${id}/readings`, `${root}/probes/${id}/status`];
  return { says: own, hears: own };
}

export const maySay = (device: Device, topic: string): boolean => topicsOf(device).says.includes(topic);

/** Whether every topic that the filter matches is one that the device may hear. */
export const mayHear = (device: Device, filter: string): boolean =>
  topicsOf(device).hears.some((wider) => isWithin(filter.split('/'), wider.split('/')));

const isWithin = (levels: readonly string[], wider: readonly string[]): boolean =>
  levels.length === wider.length &&
  wider.every((level, at) => level === levels[at] || (level === '+' && levels[at] !== '#'));
