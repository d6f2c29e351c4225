/** Whether the service answers, and since when it does not. Told by every question that is asked. */
import { changes } from '../parts/changes.js';
import { useHeard } from '../parts/heard.js';

export interface Network {
  readonly answers: boolean;
  /** When the service last answered this device, ms; undefined where it never did. */
  readonly lastAnswerAt: number | undefined;
}

const KEPT = 'sandlarder.lastAnswerAt';

/** How often it is written down, ms: a page that is opened without network says since when. */
const KEEP_ms = 10_000;

const kept = Number(localStorage.getItem(KEPT) ?? Number.NaN);
let network: Network = { answers: true, lastAnswerAt: Number.isFinite(kept) ? kept : undefined };
let keptAt = 0;

export const networkChanged = changes<Network>();

export function answered(): void {
  const wasAway = !network.answers;
  const now = Date.now();
  network = { answers: true, lastAnswerAt: now };
  if (Math.abs(now - keptAt) >= KEEP_ms) {
    keptAt = now;
    localStorage.setItem(KEPT, String(now));
  }
  if (wasAway) networkChanged.tell(network);
}

export function notAnswered(): void {
  if (!network.answers) return;
  network = { ...network, answers: false };
  networkChanged.tell(network);
}

export function useNetwork(): Network {
  return useHeard(networkChanged, () => network);
}
