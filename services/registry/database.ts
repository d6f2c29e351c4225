/** What the registry needs of a database: better-sqlite3's statements. The archive opens it, serve.ts hands it on. */
export type { Database } from 'better-sqlite3';
