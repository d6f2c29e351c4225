/** Which probes and lamps have a secret of their own at the broker; asked by whoever may see to it. */
import { useMay } from '../../access/may.js';
import { useMe } from '../../access/me.js';
import { type SeenAnswer, useSeen } from '../../api/seen.js';
import type { DeviceSecret } from '../../api/types/access.js';
import { siteAddress } from '../of-site.js';

export interface Secrets {
  /** `others`: somebody else may; `nobody`: there is no steward yet. */
  readonly seenBy: 'here' | 'others' | 'nobody';
  readonly seen: SeenAnswer<readonly DeviceSecret[]>;
}

export function useSecrets(site: string): Secrets {
  const me = useMe();
  const may = useMay('administer') && me !== undefined;
  const seen = useSeen<readonly DeviceSecret[]>(may ? `${siteAddress(site)}/secrets` : undefined, {
    live: ['access'],
  });
  return { seenBy: may ? 'here' : me?.access === 'open' ? 'nobody' : 'others', seen };
}
