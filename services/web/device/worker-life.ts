/** Has the browser keep the page, and says when a newer version waits. */
import { changes } from '../parts/changes.js';
import { useHeard } from '../parts/heard.js';

/** How often a page that stays open asks for a newer version, ms. */
const ASK_ms = 3_600_000;

let waiting: ServiceWorker | undefined;
let isTaking = false;

const newerChanged = changes<ServiceWorker | undefined>();

/** After the page is shown, so that keeping it does not hold it up. Without a worker the page works as before. */
export function keepPage(): void {
  const { serviceWorker } = navigator;
  if (!serviceWorker || !import.meta.env.PROD) return;
  serviceWorker.addEventListener('controllerchange', () => {
    if (isTaking) location.reload();
  });
  const begin = (): void => {
    serviceWorker.register('/worker.js').then(follow, () => undefined);
  };
  if (document.readyState === 'complete') begin();
  else addEventListener('load', begin, { once: true });
}

function follow(registration: ServiceWorkerRegistration): void {
  const look = (): void => {
    // The first one ever takes over by itself: only a later one is newer than what is shown.
    if (registration.waiting && navigator.serviceWorker.controller) tell(registration.waiting);
  };
  const watch = (): void => {
    registration.installing?.addEventListener('statechange', look);
  };
  look();
  // It may have been found before this was asked.
  watch();
  registration.addEventListener('updatefound', watch);
  const ask = (): void => {
    registration.update().catch(() => undefined);
  };
  // Registering what is there already asks for nothing newer [Service Workers, Register].
  ask();
  setInterval(ask, ASK_ms);
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) ask();
  });
}

function tell(worker: ServiceWorker): void {
  waiting = worker;
  newerChanged.tell(worker);
}

/** Whether a newer version of the page waits. */
export function useNewer(): boolean {
  return useHeard(newerChanged, () => waiting) !== undefined;
}

/** Loads the page anew, in its newer version. */
export function takeNewer(): void {
  isTaking = true;
  waiting?.postMessage('take-over');
}
