/** What all CAP messages of a site have in common. */
import type { CapScope } from '../core/alarms/cap.js';

/** As a sender must be: no blanks, and unlike others of the world as far as a station's own id is. */
export const capSenderOf = (site: string): string => `${site}.sandlarder.invalid`;

export const CAP_SCOPE: CapScope = {
  type: 'Restricted',
  restriction: 'for those who look after the site',
};
