-- +goose Up

-- What hangs on an entry of the log: a list or a page that somebody attached, a photo kept
-- elsewhere (ref), a drawing of an answer.
CREATE TABLE files (
    id       INTEGER PRIMARY KEY,
    entry_id INTEGER NOT NULL REFERENCES entries (id),
    name     TEXT    NOT NULL,
    media    TEXT    NOT NULL,
    ref      TEXT    NOT NULL,
    data     BLOB
) STRICT;

CREATE INDEX files_by_entry ON files (entry_id);

-- What is looked for in every project at once, such as the glue-ups whose clamps come off.
CREATE INDEX things_by_kind ON things (what) WHERE data IS NOT NULL;

-- A short sign put on the message instead of a post.
ALTER TABLE outbox ADD COLUMN sign TEXT NOT NULL DEFAULT '';

-- Which answer a post is, when somebody puts a sign on it.
CREATE INDEX outbox_by_source ON outbox (place, source_key) WHERE source_key <> '';
