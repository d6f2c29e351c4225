/** Whether the service answers, and since when it does not. Told by every question that is asked. */
import { useEffect, useState } from 'preact/hooks';
import { changes } from '../parts/changes.js';

export interface Network {
  readonly answers: boolean;
  /** When the service last answered, ms; undefined where it never did since the page was opened. */
  readonly lastAnswerAt: number | undefined;
}

let network: Network = { answers: true, lastAnswerAt: undefined };

export const networkChanged = changes<Network>();

export function answered(): void {
  const wasAway = !network.answers;
  network = { answers: true, lastAnswerAt: Date.now() };
  if (wasAway) networkChanged.tell(network);
}

export function notAnswered(): void {
  if (!network.answers) return;
  network = { ...network, answers: false };
  networkChanged.tell(network);
}

export const networkNow = (): Network => network;

export function useNetwork(): Network {
  const [now, set] = useState(network);
  useEffect(() => networkChanged.hear(set), []);
  return now;
}
