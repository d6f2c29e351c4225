/** What this device keeps: answers that were seen, and records that wait to be sent. */
import { type DBSchema, type IDBPDatabase, openDB } from 'idb';

/** An answer as it was last seen. */
export interface Seen {
  readonly path: string;
  readonly answer: unknown;
  /** Wall clock, ms. */
  readonly seenAt: number;
}

/** A record that waits to be sent. */
export interface Waiting {
  /** A UUID, the record's own: the service takes it once. */
  readonly id: string;
  readonly path: string;
  readonly method: 'POST' | 'PUT';
  readonly body?: unknown;
  /** Sent as it is instead of `body`: a picture. */
  readonly blob?: Blob;
  /** Sent only once that one is gone. */
  readonly after?: string;
  /** What it is, in the words of the page at that time. */
  readonly title: string;
  /** Address in this page where it can be mended. */
  readonly opens?: string;
  /** Wall clock, ms. */
  readonly madeAt: number;
  /** What the service said where it did not take it. */
  readonly refusal?: string;
}

interface Kept extends DBSchema {
  seen: { key: string; value: Seen; indexes: { seenAt: number } };
  outbox: { key: string; value: Waiting; indexes: { madeAt: number } };
}

const VERSION = 1;

let opened: Promise<IDBPDatabase<Kept>> | undefined;

/** Rejects where the browser keeps nothing (a private window): callers go on without. */
export function store(): Promise<IDBPDatabase<Kept>> {
  opened ??= openDB<Kept>('sandlarder', VERSION, {
    upgrade(database) {
      database.createObjectStore('seen', { keyPath: 'path' }).createIndex('seenAt', 'seenAt');
      database.createObjectStore('outbox', { keyPath: 'id' }).createIndex('madeAt', 'madeAt');
    },
  });
  return opened;
}
