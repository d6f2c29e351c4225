/** Tables and triggers between an edge machine and a centre. */
const noting = (kind: string, id: string): string => `
      DELETE FROM record_due WHERE kind = '${kind}' AND id = NEW.${id};
      INSERT INTO record_due (kind, id) VALUES ('${kind}', NEW.${id});`;

const SENDING = '(SELECT active FROM record_sending) = 1';

export const RECORD_TABLES = `
    -- Records that a centre is still to be sent, in order; noted where record_sending says so.
    CREATE TABLE record_due (
      seq INTEGER PRIMARY KEY AUTOINCREMENT, kind TEXT NOT NULL, id TEXT NOT NULL, UNIQUE (kind, id)
    ) STRICT;
    CREATE TABLE record_sending (id INTEGER PRIMARY KEY CHECK (id = 1), active INTEGER NOT NULL) STRICT;
    CREATE TRIGGER site_is_due AFTER INSERT ON entity WHEN ${SENDING} BEGIN ${noting('site', 'site')}
    END;
    CREATE TRIGGER inspection_is_due AFTER INSERT ON inspection WHEN ${SENDING} BEGIN ${noting('inspection', 'id')}
    END;
    CREATE TRIGGER alarm_is_due AFTER INSERT ON alarm WHEN ${SENDING} BEGIN ${noting('alarm', 'id')}
    END;
    CREATE TRIGGER alarm_is_due_again
    AFTER UPDATE OF priority, cleared_at, evidence, place, text, withdrawn, ack_at ON alarm WHEN ${SENDING}
    BEGIN ${noting('alarm', 'id')}
    END;
    -- At a centre: alarms as edges told them, the newest word of each, and who answered there (JSON).
    CREATE TABLE edge_alarm (
      id TEXT PRIMARY KEY, site TEXT NOT NULL, bed TEXT NOT NULL, document TEXT NOT NULL,
      acknowledgement TEXT, received_at INTEGER NOT NULL
    ) STRICT;
    CREATE INDEX edge_alarm_answered ON edge_alarm (id) WHERE acknowledgement IS NOT NULL;
    `;
