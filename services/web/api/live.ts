/** The service's stream of what changes (server-sent events, WHATWG HTML 9.2). */
import { unknownHere } from './client.js';
import { answered, notAnswered } from './network.js';

/** What a change is of. */
const LIVE_KINDS = ['readings', 'alarms', 'beds', 'site', 'probes', 'bench', 'access', 'health'] as const;
export type LiveKind = (typeof LIVE_KINDS)[number];

export interface LiveEvent {
  readonly kind: LiveKind;
  /** Beds that it concerns; absent where it concerns all. */
  readonly beds?: readonly string[];
  readonly ids?: readonly string[];
}

type Listener = (event: LiveEvent) => void;

/** No part of the page asks again sooner than this after it last did, ms. */
const REST_ms = 1_000;

/** Wait before a stream that was refused is tried again, ms: the browser itself retries one that broke off. */
const RETRY_ms = 15_000;

const listeners = new Set<Listener>();
let source: EventSource | undefined;

/** Hears every event; gives what stops that. */
function onEvent(listener: Listener): () => void {
  listeners.add(listener);
  open();
  return () => listeners.delete(listener);
}

/** Calls after events of these kinds that concern the bed, at most once in a second. */
export function onLive(kinds: readonly LiveKind[], call: () => void, bed?: string): () => void {
  if (kinds.length === 0) return () => undefined;
  let timer: ReturnType<typeof setTimeout> | undefined;
  const stop = onEvent(({ kind, beds }) => {
    if (!kinds.includes(kind) || timer !== undefined) return;
    if (bed !== undefined && beds !== undefined && !beds.includes(bed)) return;
    timer = setTimeout(() => {
      timer = undefined;
      call();
    }, REST_ms);
  });
  return () => {
    stop();
    clearTimeout(timer);
  };
}

function open(): void {
  if (source !== undefined) return;
  const stream = new EventSource('/api/stream');
  source = stream;
  stream.onopen = () => answered();
  stream.onerror = () => {
    if (stream.readyState !== EventSource.CLOSED) {
      notAnswered();
      return;
    }
    // Refused: perhaps whoever is here is signed in no more.
    unknownHere.tell();
    setTimeout(() => {
      source = undefined;
      if (listeners.size > 0) open();
    }, RETRY_ms);
  };
  // More happened than the service has kept for us.
  stream.addEventListener('missed', () => {
    for (const kind of LIVE_KINDS) tellAll({ kind });
  });
  for (const kind of LIVE_KINDS)
    stream.addEventListener(kind, ({ data }) => {
      tellAll({ kind, ...(JSON.parse(String(data)) as object) });
    });
}

function tellAll(event: LiveEvent): void {
  for (const listener of [...listeners]) listener(event);
}
