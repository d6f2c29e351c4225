/** Secrets of probes and lamps at the broker: made, shown once, renewed, taken away, and looked at when one connects. */
import { SandlarderError } from '../../core/errors.js';
import { type Device, deviceUser } from '../../core/model/device.js';
import { ID_PATTERN } from '../../core/model/id.js';
import type { DeviceSecretView, MadeSecretView } from '../../http/index.js';
import type { Speaker } from '../../intake/index.js';
import type { DeviceSecret, Registry } from '../../registry/index.js';
import { hashForBroker, isOfHash } from './device-hash.js';
import { newSecret } from './secrets.js';

/** As many as a site may have probes, and some lamps. */
const MOST_SECRETS = 25_000;

export class DeviceSecretDesk {
  readonly #registry: Pick<Registry, 'access' | 'sites'>;
  /** Wall clock, ms. */
  readonly #now: () => number;

  constructor(registry: Pick<Registry, 'access' | 'sites'>, now: () => number) {
    this.#registry = registry;
    this.#now = now;
  }

  /** @throws SandlarderError NOT_FOUND for a site that is none */
  list(site: string): DeviceSecretView[] {
    this.#requireSite(site);
    return this.#secrets
      .list()
      .filter((one) => one.site === site)
      .map(viewOf);
  }

  /**
   * A secret for a device, in the place of the one before where there was one.
   *
   * @throws SandlarderError BAD_REQUEST for an id that is none, NOT_FOUND for a site that is none, LIMIT_EXCEEDED
   */
  make(device: Device): MadeSecretView {
    const { site, kind, id } = device;
    const isDescribed = this.#requireSite(site).has(id);
    if (!ID_PATTERN.test(id))
      throw new SandlarderError(
        'BAD_REQUEST',
        `${kind}: expected 1 to 32 of a-z, 0-9 and "-", beginning with a letter or digit, got ${JSON.stringify(id)}`,
      );
    const secret = newSecret();
    const kept = {
      ...{ name: deviceUser(device), kind, site, device: id },
      ...{ hash: hashForBroker(secret), madeAt: this.#now() },
    };
    const isRenewal = this.#registry.access.atOnce(() => {
      const before = this.#secrets.get(kept.name);
      if (before === undefined && !(this.#secrets.count() < MOST_SECRETS))
        throw new SandlarderError(
          'LIMIT_EXCEEDED',
          `secrets of devices: expected at most ${MOST_SECRETS}, got one more`,
        );
      this.#secrets.put(kept);
      return before !== undefined;
    });
    return { ...viewOf(kept), secret, isRenewal, isDescribed: kind === 'lamp' || isDescribed };
  }

  /** @throws SandlarderError NOT_FOUND */
  revoke(device: Device): void {
    if (this.#secrets.remove(deviceUser(device))) return;
    throw new SandlarderError(
      'NOT_FOUND',
      `the ${device.kind} "${device.id}" of site "${device.site}" has no secret`,
    );
  }

  /** As whom a device connects; undefined where it has no secret, or another one. */
  admit(user: string | undefined, password: Uint8Array | undefined): Speaker | undefined {
    const kept = user === undefined ? undefined : this.#secrets.get(user);
    if (kept === undefined || password === undefined || !isOfHash(password, kept.hash)) return undefined;
    const { name, kind, site, device: id, hash } = kept;
    return { name, device: { kind, site, id }, kept: hash };
  }

  /** Whether there is a secret of this user name. */
  has(user: string | undefined): boolean {
    return user !== undefined && this.#secrets.get(user) !== undefined;
  }

  /** Whether somebody who was let in showed what is not kept any more. */
  isOver({ name, kept }: Speaker): boolean {
    return kept !== undefined && this.#secrets.get(name)?.hash !== kept;
  }

  /** Another text than before where any secret was changed since. */
  changes(): string {
    return this.#secrets.changes();
  }

  count(): number {
    return this.#secrets.count();
  }

  get #secrets() {
    return this.#registry.access.secrets;
  }

  /** @returns ids of its probes */
  #requireSite(id: string): ReadonlySet<string> {
    const site = this.#registry.sites.descriptions().find((one) => one.site.id === id);
    if (!site) throw new SandlarderError('NOT_FOUND', `no site has the id "${id}"`);
    return new Set(site.probes.map((probe) => probe.id));
  }
}

const viewOf = ({ name, kind, device, madeAt }: DeviceSecret): DeviceSecretView => ({
  ...{ user: name, kind, id: device, madeAt },
});
