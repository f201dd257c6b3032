package cutlist

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

func seeds(f *testing.F) {
	paths, err := filepath.Glob("testdata/lists/*.txt")
	if err != nil || len(paths) < 40 {
		f.Fatalf("%d lists (%v)", len(paths), err)
	}
	more, _ := filepath.Glob("testdata/strangers/*.txt")
	for _, path := range append(paths, more...) {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	for _, s := range []string{"10x", "x2", "1/", "½½", "3 x 4 x 5 x 6", "1.2.3 x 4", ",,,4,4", "size\n1", "piece|size\n|", "10 x 3 score every 0 mm", "⁰⁄₀ x ¹⁄₀ in",
		"1. 2. 3.", "10 x 3 score 2 from each end", "a\tsize\n\t\t\t\n", "(((((10 x 3", "10 x 3 (", "-5 x -3", "10 x 3, score at -5", "99999999999999999999999 x 3 mm"} {
		f.Add(s)
	}
}

// Nothing panics, every place lies in the text, a recipe without a problem can be read, and every digit of the text is in
// the card or in a part that is handed back.
func FuzzRead(f *testing.F) {
	seeds(f)
	catalogue := testCatalogue(f)
	f.Fuzz(func(t *testing.T, text string) {
		r := read(t, text, catalogue)
		if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
			if !r.Problems.HasErrors() {
				t.Error("bytes that are no text were read")
			}
			return
		}
		sound(t, text, r)
		kept(t, text)
	})
}

// kept checks that no number is lost: every item with a digit is read, or lies in a part without a place.
func kept(t testing.TB, text string) {
	t.Helper()
	s, refused := decode("list.txt", []byte(text))
	if refused != nil {
		return
	}
	p := newParser(context.Background(), "list.txt", s)
	p.parse()
	pieces, drafts := p.pieces()
	if len(pieces) > 0 {
		(&builder{parser: p, pieces: pieces, drafts: drafts}).build(nil)
	}
	parts := map[[2]int]string{}
	for _, u := range p.unplaced() {
		parts[[2]int{u.Line, u.Column}] += u.Text
	}
	lost := ""
	for i := range p.items {
		it := &p.items[i]
		if it.used || !p.tells(i) {
			continue
		}
		from := i // the first item of its part
		for from > 0 && !p.items[from-1].used && p.items[from-1].kind != brk {
			from--
		}
		found := false
		for k := from; k <= i && !found; k++ {
			part, ok := parts[[2]int{p.items[k].line, p.items[k].col}]
			found = ok && strings.Contains(strings.Join(strings.Fields(part), ""), strings.Join(strings.Fields(s[it.start:it.end]), ""))
		}
		if !found {
			lost += " " + s[it.start:it.end]
		}
	}
	if lost != "" {
		t.Errorf("lost:%s", lost)
	}
	digits := strings.Count(s, "7")
	for i := range p.items {
		if it := &p.items[i]; it.num == nil || it.num.other == nil {
			digits -= strings.Count(s[it.start:it.end], "7")
		} else {
			digits -= strings.Count(s[it.start:it.end], "7") // the one in brackets lies inside
		}
	}
	if digits != 0 {
		t.Errorf("%d digits are in no item", digits)
	}
}

// Nothing of a list is lost: the same check on the lists in testdata.
func TestKept(t *testing.T) {
	paths, _ := filepath.Glob("testdata/lists/*.txt")
	if len(paths) < 40 {
		t.Fatal("too few lists")
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		kept(t, string(text))
	}
}
