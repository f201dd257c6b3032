-- "FWst": tells our files from other SQLite files.
PRAGMA application_id = 1180136308;

-- Every state of every document, for ever. Documents below 1000 are the drawer's files, the others are cards.
-- The long text stands last, so that a history is read without walking through it.
CREATE TABLE revision (
    document INTEGER NOT NULL,
    number INTEGER NOT NULL CHECK (number >= 1),
    made INTEGER NOT NULL,                            -- milliseconds since 1970, UTC
    shows INTEGER NOT NULL CHECK (shows <= number),   -- the revision that is shown: itself, or another after undo and redo
    back INTEGER NOT NULL CHECK (back < number),      -- what undo shows from here; 0 for nothing
    tip INTEGER NOT NULL CHECK (tip <= number),       -- where redo leads in the end
    again INTEGER NOT NULL CHECK (again < number),    -- the earlier revision that a return brought back; 0 for none
    what TEXT NOT NULL,
    tags TEXT NOT NULL,                               -- one a line, sorted
    text TEXT NOT NULL,
    PRIMARY KEY (document, number)
) STRICT;

CREATE TABLE card (
    id INTEGER PRIMARY KEY CHECK (id >= 1000),
    revision INTEGER NOT NULL,                        -- the newest
    created INTEGER NOT NULL,
    changed INTEGER NOT NULL,
    archived INTEGER NOT NULL DEFAULT 0,
    origin INTEGER REFERENCES card (id),              -- the card that it was copied from
    title TEXT NOT NULL,
    tags TEXT NOT NULL,
    FOREIGN KEY (id, revision) REFERENCES revision (document, number) DEFERRABLE INITIALLY DEFERRED
) STRICT;

CREATE INDEX card_shelf ON card (archived, changed);

-- Title, tags and text of the newest revision in small letters, to search in; beside the cards, so that a list stays short.
CREATE TABLE words (
    card INTEGER PRIMARY KEY REFERENCES card (id),
    text TEXT NOT NULL
) STRICT;

PRAGMA user_version = 1;
