/** A look into a bed, as it is sent and as the service answers. */
import type { Alarm } from './alarm.js';

export type Finding = 'rot' | 'damp' | 'sprouts' | 'weevils' | 'nothing';

export interface OutEntry {
  readonly reason: string;
  readonly roots: number;
  readonly were?: string;
}

/** What was not looked at is left out. */
export interface LookBody {
  readonly id: string;
  /** RFC 3339. */
  readonly at: string;
  readonly by: string;
  readonly opened: boolean;
  readonly repacked: boolean;
  readonly found: readonly Finding[];
  readonly warmByHand?: string;
  readonly smell?: string;
  readonly sandFeels?: string;
  readonly looked?: number;
  readonly rotten?: number;
  readonly weevil?: number;
  readonly rodent?: number;
  readonly termite?: number;
  readonly sproutsShort?: number;
  readonly sproutsLong?: number;
  readonly out?: readonly OutEntry[];
  readonly photos?: readonly string[];
  readonly note?: string;
}

export interface LookAnswer extends LookBody {
  readonly advice: readonly { readonly about: string; readonly text: string; readonly source: string }[];
  readonly cautions: readonly string[];
  readonly alarms: readonly (Alarm & { readonly foundOut: { readonly verdict: string } | null })[];
  /** Ids of alarms that are over with it. */
  readonly ended: readonly string[];
  /** False where the bed is judged again from there in a while. */
  readonly judged: boolean;
  /** Roots by the ledger; null where it is not kept. */
  readonly left: number | null;
  readonly notes: readonly string[];
  /** False where it had been sent before. */
  readonly isNew: boolean;
}
