package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"foldwright/problem"
	"foldwright/recipe"
)

// firstCard is the smallest number of a card; those below it are the drawer's.
const firstCard Doc = 1000

// Limits of a card's tags.
const (
	mostTags = 20
	mostTag  = 40 // characters
)

// Card is a card on the shelf, without its text.
type Card struct {
	Doc Doc
	// Title and Tags are those of the newest revision. A title that cannot be read in a half-written text is the last that
	// could; "" where there was none yet.
	Title            string
	Tags             []string
	Created, Changed time.Time
	// Revision is the number of the newest.
	Revision int
	Archived bool
	// Origin is the card that it was copied from, 0 for none.
	Origin Doc
}

// Query chooses cards. The zero value is all cards that are not archived.
type Query struct {
	// Words must all be found, anywhere in title, tags or text, in large or small letters.
	Words string
	// Tags must all be the card's.
	Tags []string
	// Archived asks for those that were put away, and only those.
	Archived bool
}

// Add puts a new card on the shelf; what names where it comes from: "from the form harbour-light".
func (s *Store) Add(ctx context.Context, text string, tags []string, what string) (Revision, error) {
	kept, err := tagLines(tags)
	if err != nil {
		return Revision{}, err
	}
	return s.add(ctx, 0, func(*sql.Tx) (row, error) { return row{what: what, tags: kept, text: text}, nil })
}

// Copy puts a copy of a card beside it: its newest text and tags, and a history of its own.
func (s *Store) Copy(ctx context.Context, card Doc) (Revision, error) {
	return s.add(ctx, card, func(tx *sql.Tx) (row, error) {
		old, err := load(ctx, tx, card, 0)
		return row{what: fmt.Sprintf("copied from %v, revision %d", card, old.number), tags: old.tags, text: old.text}, err
	})
}

const (
	nextCard   = `SELECT max(?1, coalesce(max(id), 0) + 1) FROM card`
	insertCard = `INSERT INTO card (id, revision, created, changed, origin, title, tags) VALUES (?, ?, ?, ?, nullif(?, 0), '', '')`
)

// add makes a card of a first text.
func (s *Store) add(ctx context.Context, origin Doc, first func(*sql.Tx) (row, error)) (Revision, error) {
	var out Revision
	if origin != 0 && origin < firstCard {
		return out, refused(origin.String(), "only cards are copied", "the number of a card")
	}
	err := s.change(ctx, func(tx *sql.Tx) error {
		r, err := first(tx)
		if err != nil {
			return err
		}
		if err := tx.QueryRowContext(ctx, nextCard, int64(firstCard)).Scan((*int64)(&r.doc)); err != nil {
			return err
		}
		r.number, r.shows, r.tip = 1, 1, 1
		made := s.now().UnixMilli()
		if _, err := tx.ExecContext(ctx, insertCard, int64(r.doc), r.number, made, made, int64(origin)); err != nil {
			return err
		}
		if r, err = s.insert(ctx, tx, r); err != nil {
			return err
		}
		out, err = r.newest(ctx, tx)
		return err
	})
	return out, err
}

const (
	updateCardRow = `UPDATE card SET revision = ?2, changed = ?3, tags = ?4, title = CASE ?5 WHEN '' THEN title ELSE ?5 END
		WHERE id = ?1 RETURNING title`
	updateWords = `INSERT INTO words (card, text) VALUES (?1, ?2) ON CONFLICT (card) DO UPDATE SET text = ?2`
)

// updateCard brings title, tags and the words to search in to a new revision.
func updateCard(ctx context.Context, tx *sql.Tx, r row) error {
	title := titleOf(r.text)
	if err := tx.QueryRowContext(ctx, updateCardRow, int64(r.doc), r.number, r.made, r.tags, title).Scan(&title); err != nil {
		return err
	}
	_, err := tx.ExecContext(ctx, updateWords, int64(r.doc), strings.ToLower(title+"\n"+r.tags+"\n"+r.text))
	return err
}

// titleOf reads the title of a recipe, "" where it has none yet. Only the line of the title is read, because the others may
// be half-written.
func titleOf(text string) string {
	for line := range strings.Lines(text) {
		if !strings.HasPrefix(line, "card ") {
			continue
		}
		if r, _ := recipe.Read("", []byte(line)); r != nil {
			return r.Card().Title
		}
	}
	return ""
}

// SetTags gives a card other tags, as a step that can be undone. Tags are written in small letters.
func (s *Store) SetTags(ctx context.Context, card Doc, base int, tags []string) (Revision, error) {
	kept, err := tagLines(tags)
	if err != nil {
		return Revision{}, err
	}
	what := "tags: " + strings.ReplaceAll(kept, "\n", ", ")
	if kept == "" {
		what = "no tags"
	}
	return s.revise(ctx, card, base, nil, func(_ *sql.Tx, now row) (row, error) {
		if card < firstCard {
			return now, refused(card.String(), "only cards have tags", "the number of a card")
		}
		return now.edit(now.text, kept, what), nil
	})
}

// tagLines returns tags in the form in which they are stored.
func tagLines(tags []string) (string, error) {
	var out []string
	for _, t := range tags {
		t = strings.ToLower(strings.Join(strings.Fields(t), " "))
		if strings.ContainsFunc(t, unicode.IsControl) || problem.Clip(t, mostTag) != t {
			return "", refused("tag "+problem.Quote(t), "this cannot be a tag", fmt.Sprintf("at most %d characters that can be seen", mostTag))
		}
		if t != "" {
			out = append(out, t)
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	if len(out) > mostTags {
		return "", refused("tags", fmt.Sprintf("there are %d", len(out)), fmt.Sprintf("at most %d", mostTags))
	}
	return strings.Join(out, "\n"), nil
}

const setArchived = `UPDATE card SET archived = ? WHERE id = ?`

// Archive puts a card away, or takes it out again; nothing of it is lost.
func (s *Store) Archive(ctx context.Context, card Doc, away bool) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, setArchived, away, int64(card))
		if err != nil {
			return err
		}
		if n, err := done.RowsAffected(); err != nil || n == 0 {
			return missing(card.String(), "there is no such card")
		}
		return nil
	})
}

const (
	cardColumns = `SELECT id, revision, created, changed, archived, coalesce(origin, 0), title, tags FROM card `
	selectCard  = cardColumns + `WHERE id = ?`
	// selectCards takes the words and the tags as lists in JSON, so that there may be any number of them.
	selectCards = cardColumns + `WHERE archived = ?1
		AND NOT EXISTS (SELECT 1 FROM json_each(?2) w WHERE instr((SELECT text FROM words WHERE card = card.id), w.value) = 0)
		AND NOT EXISTS (SELECT 1 FROM json_each(?3) t WHERE instr(char(10) || tags || char(10), char(10) || t.value || char(10)) = 0)
		ORDER BY changed DESC, id DESC`
)

// Cards lists cards, those that were changed last first.
func (s *Store) Cards(ctx context.Context, q Query) ([]Card, error) {
	tags, err := tagLines(q.Tags)
	if err != nil {
		return nil, err
	}
	words, err := json.Marshal(strings.Fields(strings.ToLower(q.Words)))
	if err != nil {
		return nil, err
	}
	wanted, err := json.Marshal(lines(tags))
	if err != nil {
		return nil, err
	}
	var out []Card
	err = each(ctx, s.read, func(rows *sql.Rows) error {
		c, err := scanCard(rows.Scan)
		out = append(out, c)
		return err
	}, selectCards, q.Archived, string(words), string(wanted))
	return out, explain(ctx, s.path, err)
}

// Card returns one card.
func (s *Store) Card(ctx context.Context, card Doc) (Card, error) {
	c, err := scanCard(s.read.QueryRowContext(ctx, selectCard, int64(card)).Scan)
	if errors.Is(err, sql.ErrNoRows) {
		return c, missing(card.String(), "there is no such card")
	}
	return c, explain(ctx, s.path, err)
}

func scanCard(scan func(...any) error) (Card, error) {
	var c Card
	var created, changed int64
	var tags string
	err := scan((*int64)(&c.Doc), &c.Revision, &created, &changed, &c.Archived, (*int64)(&c.Origin), &c.Title, &tags)
	c.Created, c.Changed, c.Tags = time.UnixMilli(created).UTC(), time.UnixMilli(changed).UTC(), lines(tags)
	return c, err
}
