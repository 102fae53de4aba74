-- +goose Up

-- What a later version of the program added to the starter profile that a tank began
-- with, or that a profile in work was made of, as JSON: it is written again as it came.
ALTER TABLE handed ADD COLUMN later TEXT CHECK (later IS NULL OR json_valid(later));
ALTER TABLE draft ADD COLUMN later TEXT CHECK (later IS NULL OR json_valid(later));

PRAGMA user_version = 6;
