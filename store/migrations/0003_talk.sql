-- +goose Up

-- What was said at a place, newest first. The row's id ends the index by itself.
CREATE INDEX entries_by_place ON entries (place);
