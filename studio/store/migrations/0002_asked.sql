-- Which size was asked for, and how often; not by whom, and not when.
CREATE TABLE asked (
    width INTEGER NOT NULL CHECK (width > 0),         -- nanometres
    height INTEGER NOT NULL CHECK (height > 0),
    unit TEXT NOT NULL,                               -- the one in which it was last said
    times INTEGER NOT NULL CHECK (times >= 0),
    PRIMARY KEY (width, height)
) STRICT;

PRAGMA user_version = 2;
