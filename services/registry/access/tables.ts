/**
 * Tables of who may sign in, and of what was changed by whom. Secrets are kept as hashes alone.
 *
 * SQLite fires no trigger for the row that INSERT OR REPLACE removes: `audit_in_order` refuses that way too, as any
 * number but the next.
 */
export const ACCESS_TABLES = `
    -- password is a scrypt text (PHC), NULL until one is chosen. beds is a JSON list of ids.
    CREATE TABLE account (
      name TEXT PRIMARY KEY, shown TEXT NOT NULL, role TEXT NOT NULL, beds TEXT NOT NULL,
      site TEXT, person TEXT, password TEXT, made_at INTEGER NOT NULL, closed_at INTEGER
    ) STRICT, WITHOUT ROWID;
    CREATE TABLE session (
      hash BLOB PRIMARY KEY, id TEXT NOT NULL UNIQUE, account TEXT NOT NULL REFERENCES account (name),
      made_at INTEGER NOT NULL, used_at INTEGER NOT NULL, ends_at INTEGER NOT NULL,
      address TEXT NOT NULL, device TEXT NOT NULL, revoked_at INTEGER
    ) STRICT, WITHOUT ROWID;
    CREATE INDEX session_by_account ON session (account, made_at);
    CREATE TABLE machine_token (
      hash BLOB PRIMARY KEY, id TEXT NOT NULL UNIQUE, name TEXT NOT NULL, role TEXT NOT NULL, beds TEXT NOT NULL,
      made_by TEXT NOT NULL, made_at INTEGER NOT NULL, ends_at INTEGER NOT NULL, used_at INTEGER, revoked_at INTEGER
    ) STRICT, WITHOUT ROWID;
    -- Links that let somebody in once: the first steward, whoever is to choose a password, whoever asked by telephone.
    CREATE TABLE sign_in_link (
      hash BLOB PRIMARY KEY, purpose TEXT NOT NULL, account TEXT, made_at INTEGER NOT NULL, ends_at INTEGER NOT NULL,
      used_at INTEGER
    ) STRICT, WITHOUT ROWID;
    -- Secrets of probes and lamps at the broker, as Mosquitto's password file has them (PBKDF2, $7$).
    CREATE TABLE device_secret (
      name TEXT PRIMARY KEY, kind TEXT NOT NULL, site TEXT NOT NULL, device TEXT NOT NULL, hash TEXT NOT NULL,
      made_at INTEGER NOT NULL
    ) STRICT, WITHOUT ROWID;
    -- What was changed: a row when it began and one that refers to it with what became of it. chain is a SHA-256 over the
    -- chain of the row before and this row.
    CREATE TABLE audit (
      seq INTEGER PRIMARY KEY, at INTEGER NOT NULL, who TEXT NOT NULL, how TEXT NOT NULL, address TEXT NOT NULL,
      did TEXT NOT NULL, what TEXT NOT NULL, began INTEGER, result TEXT, chain BLOB NOT NULL
    ) STRICT;
    CREATE INDEX audit_by_began ON audit (began) WHERE began IS NOT NULL;
    CREATE TRIGGER audit_stays BEFORE UPDATE ON audit
      BEGIN SELECT RAISE(ABORT, 'the audit trail cannot be changed'); END;
    CREATE TRIGGER audit_is_kept BEFORE DELETE ON audit
      BEGIN SELECT RAISE(ABORT, 'the audit trail cannot be cut'); END;
    CREATE TRIGGER audit_in_order BEFORE INSERT ON audit
      WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM audit)
      BEGIN SELECT RAISE(ABORT, 'the audit trail is written in order'); END;
`;
