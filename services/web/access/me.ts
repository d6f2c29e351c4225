/** Who uses this page, as the service says; asked at the start, and again when it does not know them any more. */
import { ask, unknownHere } from '../api/client.js';
import { onLive } from '../api/live.js';
import { store } from '../api/store.js';
import type { Me } from '../api/types/access.js';
import { changes } from '../parts/changes.js';
import { useHeard } from '../parts/heard.js';
import { keep, keptNow } from '../parts/kept.js';
import { rememberPerson } from '../parts/person.js';

const KEPT = 'me';

let now: Me | undefined = keptNow<Me | undefined>(KEPT, undefined);
const meChanged = changes<Me | undefined>();

export function setMe(me: Me): void {
  if (now?.name != null && now.name !== me.name) void forgetSeen();
  // Whoever signs in writes down in their own name, unless they say otherwise.
  if (me.access === 'sign-in' && me.shown !== null && now?.name !== me.name) rememberPerson(me.shown);
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

/** Asks at the start, when it may be otherwise, and whenever an answer was refused for who asked. */
export function followMe(): void {
  void askMe();
  unknownHere.hear(() => void askMe());
  let stop: (() => void) | undefined;
  const follow = (me: Me | undefined): void => {
    if (me?.isIn && !stop) stop = onLive(['access'], () => void askMe());
    if (me?.isIn === false) {
      stop?.();
      stop = undefined;
    }
  };
  follow(now);
  meChanged.hear(follow);
}

/** What this device has seen was not for whoever comes next. */
async function forgetSeen(): Promise<void> {
  try {
    await (await store()).clear('seen');
  } catch {
    // A browser that keeps nothing has nothing to forget.
  }
}

/** Ends the session, and what this device has seen goes. */
export async function signOut(): Promise<void> {
  await ask('/api/sign-out', { method: 'POST', body: {} });
  await forgetSeen();
  await askMe();
}
