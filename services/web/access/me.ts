/** Who uses this page, as the service says; asked at the start, and again when it does not know them any more. */
import { ask, unknownHere } from '../api/client.js';
import { store } from '../api/store.js';
import type { Me } from '../api/types/access.js';
import { changes } from '../parts/changes.js';
import { useHeard } from '../parts/heard.js';
import { keep, keptNow } from '../parts/kept.js';

const KEPT = 'me';

let now: Me | undefined = keptNow<Me | undefined>(KEPT, undefined);
const meChanged = changes<Me | undefined>();

export function setMe(me: Me): void {
  now = me;
  keep(KEPT, me);
  meChanged.tell(me);
}

/** Asks the service; without network the page goes by what it said last. */
export async function askMe(): Promise<void> {
  try {
    setMe(await ask<Me>('/api/me'));
  } catch {
    // Whoever cannot be asked says nothing new.
  }
}

export function useMe(): Me | undefined {
  return useHeard(meChanged, () => now);
}

/** Asks at the start and whenever an answer was refused because nobody is signed in. */
export function followMe(): void {
  void askMe();
  unknownHere.hear(() => void askMe());
}

/** Ends the session, and what this device has seen goes: it was not for whoever comes next. */
export async function signOut(): Promise<void> {
  await ask('/api/sign-out', { method: 'POST', body: {} });
  await (await store()).clear('seen').catch(() => undefined);
  await askMe();
}
