/** Nobody is asked, and nothing is noted: the doors of the HTTP edge are tested over real stores. */
import type { AccessPorts } from '../../services/http/ports.js';

export const accessInMemory = (change: Partial<AccessPorts> = {}): AccessPorts =>
  ({
    standing: () => 'open',
    ofSession: () => undefined,
    ofToken: () => undefined,
    bedOfAlarm: () => undefined,
    bedOfInspection: () => undefined,
    began: () => 0,
    ended: () => undefined,
    refused: () => undefined,
    sendsLinks: false,
    ...change,
  }) as AccessPorts;
