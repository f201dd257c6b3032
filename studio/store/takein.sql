-- Puts everything of the studio that is attached as "incoming" in the place of everything in this one. Every table of the
-- migrations stands here twice; a test compares.
PRAGMA defer_foreign_keys = ON;

DELETE FROM movement;
DELETE FROM cut;
DELETE FROM asked;
DELETE FROM words;
DELETE FROM card;
DELETE FROM revision;

INSERT INTO revision SELECT * FROM incoming.revision;
INSERT INTO card SELECT * FROM incoming.card;
INSERT INTO words SELECT * FROM incoming.words;
INSERT INTO asked SELECT * FROM incoming.asked;
INSERT INTO cut SELECT * FROM incoming.cut;
INSERT INTO movement SELECT * FROM incoming.movement;
