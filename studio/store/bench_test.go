package store

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/forms"
)

// shelf makes a studio of 1000 cards out of the catalogue, each with ten edits.
func shelf(b *testing.B) string {
	b.Helper()
	path := filepath.Join(b.TempDir(), "harbour.studio")
	s, err := Open(ctx, path, ticking())
	if err != nil {
		b.Fatal(err)
	}
	if _, err := s.write.ExecContext(ctx, `PRAGMA synchronous = 0`); err != nil { // only to make it sooner
		b.Fatal(err)
	}
	names := forms.Names()
	for i := range 1000 {
		text := form(b, names[i%len(names)])
		r := must(s.Add(ctx, text, []string{"harbour", fmt.Sprintf("row %d", i%10)}, "from the catalogue"))(b)
		for n := range 9 {
			r = must(s.Save(ctx, r.Doc, r.Number, fmt.Sprintf("%s# edit %d\n", text, n), "edit"))(b)
		}
	}
	if err := s.Close(); err != nil {
		b.Fatal(err)
	}
	return path
}

// BenchmarkShelf is what is done with 1000 cards of ten revisions each.
func BenchmarkShelf(b *testing.B) {
	path := shelf(b)
	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			s, err := Open(ctx, path, ticking())
			if err != nil {
				b.Fatal(err)
			}
			s.Close()
		}
	})
	s := opened(b, path)
	list := func(q Query, least int) func(*testing.B) {
		return func(b *testing.B) {
			for b.Loop() {
				if cards, err := s.Cards(ctx, q); err != nil || len(cards) < least {
					b.Fatalf("%d cards, %v", len(cards), err)
				}
			}
		}
	}
	b.Run("list", list(Query{}, 1000))
	b.Run("words", list(Query{Words: "lantern navy"}, 50))
	b.Run("tags", list(Query{Tags: []string{"row 3"}}, 100))
	b.Run("newest", func(b *testing.B) {
		for b.Loop() {
			must(s.Newest(ctx, firstCard+500))(b)
		}
	})
	b.Run("copy", func(b *testing.B) {
		dir := b.TempDir()
		for n := 0; b.Loop(); n++ {
			if err := s.CopyTo(ctx, filepath.Join(dir, fmt.Sprint(n))); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkSave is one edit, put on the disk, of a card with a long history.
func BenchmarkSave(b *testing.B) {
	s := opened(b, filepath.Join(b.TempDir(), "harbour.studio"))
	text := form(b, "harbour-light")
	r := added(b, s, text)
	b.Run("edit", func(b *testing.B) {
		for b.Loop() {
			r = must(s.Save(context.Background(), r.Doc, r.Number, fmt.Sprintf("%s# edit %d\n", text, r.Number), "edit"))(b)
		}
	})
	for r.Number < 5000 {
		r = must(s.Save(ctx, r.Doc, r.Number, fmt.Sprintf("card \"%d\"", r.Number), "edit"))(b)
	}
	b.Run("undo and redo after 5000", func(b *testing.B) {
		for b.Loop() {
			for range 50 {
				r = must(s.Undo(ctx, r.Doc, r.Number))(b)
			}
			for range 50 {
				r = must(s.Redo(ctx, r.Doc, r.Number))(b)
			}
		}
		b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/100, "µs/step")
	})
	if !strings.HasPrefix(r.Text, "card") {
		b.Error(r.Text)
	}
}
