/** Records that were written down here and wait to be sent: in order, each once, until the service has taken them. */
import { useEffect, useState } from 'preact/hooks';
import { changes } from '../parts/changes.js';
import { useHeard } from '../parts/heard.js';
import { ask, isForLater, Refusal } from './client.js';
import { networkChanged } from './network.js';
import { store, type Waiting } from './store.js';

export type { Waiting } from './store.js';

const outboxChanged = changes<readonly Waiting[]>();

/** A record that waited here and was sent. */
export type SentRecord = Pick<Waiting, 'id' | 'title' | 'madeAt'>;

/** Named at once, at the most: more are as many as anybody reads. */
const MOST_NAMED = 20;

let sent: readonly SentRecord[] = [];
const sentChanged = changes<readonly SentRecord[]>();

/** Records that waited here and were sent since the page was opened, the oldest first. */
export const useSent = (): readonly SentRecord[] => useHeard(sentChanged, () => sent);

export const forgetSent = (): void => noteSent([]);

function noteSent(next: readonly SentRecord[]): void {
  sent = next.slice(-MOST_NAMED);
  sentChanged.tell(sent);
}

/** Wait before a service that did not answer is tried again, ms. */
const RETRY_ms = 20_000;

let sending: Promise<void> | undefined;
let timer: ReturnType<typeof setTimeout> | undefined;

/** Everything that waits, the oldest first; empty where the browser keeps nothing. */
export async function waitingNow(): Promise<readonly Waiting[]> {
  try {
    return await (await store()).getAllFromIndex('outbox', 'madeAt');
  } catch {
    return [];
  }
}

/** Keeps a record on the device and tries to send it. Rejects where the browser keeps nothing. */
export async function putInOutbox(record: Omit<Waiting, 'madeAt'>): Promise<void> {
  await (await store()).put('outbox', { ...record, madeAt: Date.now() });
  await changed();
  // Nobody waits for it: the service may not answer for long.
  void flushAgain();
}

/** Throws a record away that was not sent, with what was to follow it. */
export const throwAway = (id: string): Promise<void> =>
  drop((record) => record.id === id || record.after === id);

/** What was to follow a record is no longer to. */
export const dropFollowers = (id: string): Promise<void> => drop(({ after }) => after === id);

async function drop(which: (record: Waiting) => boolean): Promise<void> {
  const database = await store();
  for (const record of (await waitingNow()).filter(which)) await database.delete('outbox', record.id);
  await changed();
}

/** Takes a record back that was not sent yet. */
export async function takeBack(id: string): Promise<void> {
  await (await store()).delete('outbox', id);
  await changed();
}

/** Sends what waits, as far as the service answers. Two calls at once are one. */
export function flush(): Promise<void> {
  sending ??= sendAll().finally(() => {
    sending = undefined;
  });
  return sending;
}

/** What is being sent now does not know of what was put in since, nor that the network is back. */
const flushAgain = (): Promise<void> => (sending ?? Promise.resolve()).then(flush);

async function sendAll(): Promise<void> {
  const waiting = await waitingNow();
  const there = new Set(waiting.map(({ id }) => id));
  // Of one moment a picture may stand before its record.
  for (const record of [...waiting.filter(isFirst), ...waiting.filter((one) => !isFirst(one))]) {
    if (record.refusal !== undefined || (record.after !== undefined && there.has(record.after))) continue;
    const outcome = await sendOne(record);
    if (outcome === 'away') {
      later();
      return;
    }
    if (outcome === 'sent') there.delete(record.id);
  }
}

const isFirst = ({ after }: Waiting): boolean => after === undefined;

async function sendOne(record: Waiting): Promise<'sent' | 'refused' | 'away'> {
  const { path, method, body, blob } = record;
  const type = blob ? { headers: { 'content-type': blob.type } } : {};
  try {
    await ask(path, { method, ...(blob ? { blob } : { body }), ...type });
    await takeBack(record.id);
    // A picture is told of by its record.
    if (record.after === undefined) noteSentEverywhere(record);
    return 'sent';
  } catch (error) {
    if (isForLater(error)) return 'away';
    await (await store()).put('outbox', { ...record, refusal: reasonOf(error) });
    await changed();
    return 'refused';
  }
}

/** All that the service found wrong: nobody sees the fields when it says so. */
export const reasonOf = (error: unknown): string =>
  error instanceof Refusal
    ? [
        error.message,
        ...error.errors.map(({ detail }) => detail).filter((one) => !isSaidIn(error.message, one)),
      ].join(' ')
    : String((error as Error).message);

/** A sentence by itself begins with a capital. */
const isSaidIn = (message: string, part: string): boolean =>
  message.toLowerCase().includes(part.toLowerCase());

function later(): void {
  clearTimeout(timer);
  timer = setTimeout(() => void flush(), RETRY_ms);
}

/** Other windows of this device have the same outbox, and any of them may send it. */
const windows = typeof BroadcastChannel === 'undefined' ? undefined : new BroadcastChannel('outbox');
windows?.addEventListener('message', ({ data }: MessageEvent<SentRecord | 'changed'>) => {
  if (data === 'changed') void tellHere();
  else noteOneSent(data);
});

function noteSentEverywhere({ id, title, madeAt }: SentRecord): void {
  windows?.postMessage({ id, title, madeAt });
  noteOneSent({ id, title, madeAt });
}

/** Two windows may send the same at once, which the service keeps once: it is told once too. */
function noteOneSent(record: SentRecord): void {
  if (!sent.some(({ id }) => id === record.id)) noteSent([...sent, record]);
}

const tellHere = async (): Promise<void> => outboxChanged.tell(await waitingNow());

async function changed(): Promise<void> {
  windows?.postMessage('changed');
  await tellHere();
}

/** What waits, as it changes. */
export function useOutbox(): readonly Waiting[] {
  const [waiting, set] = useState<readonly Waiting[]>([]);
  useEffect(() => {
    void waitingNow().then(set);
    return outboxChanged.hear(set);
  }, []);
  return waiting;
}

/** Tries when the page is opened, when the network is back and when the page is looked at again. */
export function keepSending(): void {
  networkChanged.hear(({ answers }) => {
    if (answers) void flushAgain();
  });
  addEventListener('online', () => void flushAgain());
  document.addEventListener('visibilitychange', () => {
    if (!document.hidden) void flush();
  });
  void flush();
}
