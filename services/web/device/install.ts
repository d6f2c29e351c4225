/** Whether the browser offers to keep the page as a program of its own (Web App Manifest; the offer is Chromium's own). */
import { changes } from '../parts/changes.js';
import { useHeard } from '../parts/heard.js';

interface Offer extends Event {
  prompt(): Promise<unknown>;
}

let offer: Offer | undefined;
const offerChanged = changes<Offer | undefined>();

function set(next: Offer | undefined): void {
  offer = next;
  offerChanged.tell(next);
}

/** Call at the start: the offer is made once. */
export function hearOffer(): void {
  addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault();
    set(event as Offer);
  });
  addEventListener('appinstalled', () => set(undefined));
}

export function useOffer(): (() => Promise<void>) | undefined {
  const now = useHeard(offerChanged, () => offer);
  if (!now) return undefined;
  return async () => {
    await now.prompt();
    set(undefined);
  };
}
