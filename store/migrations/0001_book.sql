-- +goose Up

CREATE TABLE projects (
    id     INTEGER PRIMARY KEY,
    name   TEXT NOT NULL,
    folded TEXT NOT NULL UNIQUE
) STRICT;

-- What belongs to no project, such as the record of a place, stands under project 0.
INSERT INTO projects (id, name, folded) VALUES (0, '', '');

-- The log. It is only ever added to.
CREATE TABLE entries (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    project_id INTEGER NOT NULL REFERENCES projects (id),
    place      TEXT    NOT NULL,
    thread     TEXT    NOT NULL,
    who_key    TEXT    NOT NULL,
    who        TEXT    NOT NULL,
    who_folded TEXT    NOT NULL,
    kind       TEXT    NOT NULL CHECK (kind IN ('message', 'answer', 'edit', 'deletion')),
    key        TEXT    UNIQUE CHECK (key <> ''),
    about      INTEGER REFERENCES entries (id),
    at_ms      INTEGER NOT NULL,
    text       TEXT    NOT NULL,
    topic      TEXT    NOT NULL,
    request    TEXT    CHECK (request IS NULL OR json_valid(request)),
    answer     TEXT    CHECK (answer IS NULL OR json_valid(answer))
) STRICT;

-- Every index ends in the row's id by itself, so each one also gives "newest first".
CREATE INDEX entries_by_project ON entries (project_id);
CREATE INDEX entries_by_time    ON entries (project_id, at_ms);
CREATE INDEX entries_by_who     ON entries (project_id, who_folded);
CREATE INDEX entries_by_topic   ON entries (project_id, topic) WHERE topic <> '';
CREATE INDEX entries_by_about   ON entries (about) WHERE about IS NOT NULL;
CREATE INDEX requests_by_person ON entries (place, who_key) WHERE request IS NOT NULL;
CREATE INDEX requests_by_place  ON entries (place) WHERE request IS NOT NULL;

-- +goose StatementBegin
CREATE TRIGGER entries_never_change BEFORE UPDATE ON entries
BEGIN
    SELECT RAISE(ABORT, 'the log is only ever added to');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER entries_never_go BEFORE DELETE ON entries
BEGIN
    SELECT RAISE(ABORT, 'the log is only ever added to');
END;
-- +goose StatementEnd

-- The words of the log. A language of its own for each project makes each project's index a
-- separate one, so that a search is not slowed down by what other projects talk about.
CREATE VIEW entry_words (rowid, text, project) AS
    SELECT id, text, project_id FROM entries;

CREATE VIRTUAL TABLE words USING fts4 (
    text, content="entry_words", languageid="project", order=desc,
    tokenize=unicode61 "remove_diacritics=1"
);

INSERT INTO words (words) VALUES ('automerge=8');

-- +goose StatementBegin
CREATE TRIGGER entries_are_found AFTER INSERT ON entries
BEGIN
    INSERT INTO words (docid, text, project) VALUES (new.id, new.text, new.project_id);
END;
-- +goose StatementEnd

-- The state of a project: parts, boards, measures, claims, notes, settings, timers and so on.
-- A thing that was removed keeps its row, without data, and with it its place in the order.
CREATE TABLE things (
    id         INTEGER PRIMARY KEY,
    project_id INTEGER NOT NULL REFERENCES projects (id),
    what       TEXT    NOT NULL CHECK (what <> ''),
    name       TEXT    NOT NULL CHECK (name <> ''),
    folded     TEXT    NOT NULL CHECK (folded <> ''),
    data       TEXT    CHECK (data IS NULL OR json_valid(data)),
    UNIQUE (project_id, what, folded)
) STRICT;

-- What every entry did to the things.
CREATE TABLE changes (
    id         INTEGER PRIMARY KEY AUTOINCREMENT,
    entry_id   INTEGER NOT NULL REFERENCES entries (id),
    project_id INTEGER NOT NULL REFERENCES projects (id),
    what       TEXT    NOT NULL,
    name       TEXT    NOT NULL,
    folded     TEXT    NOT NULL,
    op         TEXT    NOT NULL CHECK (op IN ('add', 'change', 'remove')),
    before     TEXT,
    after      TEXT,
    undoes     INTEGER REFERENCES changes (id),
    undone_by  INTEGER REFERENCES changes (id),
    CHECK ((op = 'add') = (before IS NULL)),
    CHECK ((op = 'remove') = (after IS NULL))
) STRICT;

CREATE INDEX changes_by_entry ON changes (entry_id);
CREATE INDEX changes_by_thing ON changes (project_id, what, folded);
CREATE INDEX changes_standing ON changes (entry_id) WHERE undoes IS NULL AND undone_by IS NULL;

-- +goose StatementBegin
CREATE TRIGGER changes_only_get_undone
BEFORE UPDATE OF id, entry_id, project_id, what, name, folded, op, before, after, undoes ON changes
BEGIN
    SELECT RAISE(ABORT, 'a change is never rewritten');
END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER changes_never_go BEFORE DELETE ON changes
BEGIN
    SELECT RAISE(ABORT, 'a change is never rewritten');
END;
-- +goose StatementEnd

-- Questions that were asked back about a message.
CREATE TABLE questions (
    entry_id    INTEGER PRIMARY KEY REFERENCES entries (id),
    place       TEXT    NOT NULL,
    who_key     TEXT    NOT NULL,
    asked_at_ms INTEGER NOT NULL,
    closed_by   INTEGER REFERENCES entries (id)
) STRICT;

CREATE INDEX questions_open ON questions (place, asked_at_ms) WHERE closed_by IS NULL;

-- Answers on their way out.
CREATE TABLE outbox (
    entry_id   INTEGER PRIMARY KEY REFERENCES entries (id),
    place      TEXT NOT NULL,
    thread     TEXT NOT NULL,
    reply_to   TEXT NOT NULL,
    amends     TEXT NOT NULL,
    state      TEXT NOT NULL CHECK (state IN ('waiting', 'sent')),
    source_key TEXT NOT NULL
) STRICT;

CREATE INDEX outbox_waiting   ON outbox (place) WHERE state = 'waiting';
CREATE INDEX outbox_by_thread ON outbox (place, thread) WHERE thread <> '';

-- How far each place has been read, in the place's own count.
CREATE TABLE cursors (
    place    TEXT    PRIMARY KEY,
    position INTEGER NOT NULL
) STRICT;
