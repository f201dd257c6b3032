package store

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/recipe"
)

// TestUndo goes through the drawing of doc.go.
func TestUndo(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "A")
	doc := r.Doc
	for _, c := range []struct {
		do                     func(base int) (Revision, error)
		number, as             int
		text, what, undo, redo string
	}{
		{func(b int) (Revision, error) { return s.Save(ctx, doc, b, "B", "b") }, 2, 0, "B", "b", "b", ""},
		{func(b int) (Revision, error) { return s.Save(ctx, doc, b, "C", "c") }, 3, 0, "C", "c", "c", ""},
		{func(b int) (Revision, error) { return s.Undo(ctx, doc, b) }, 4, 2, "B", "undo: c", "b", "c"},
		{func(b int) (Revision, error) { return s.Save(ctx, doc, b, "D", "d") }, 5, 0, "D", "d", "d", ""},
		{func(b int) (Revision, error) { return s.Undo(ctx, doc, b) }, 6, 2, "B", "undo: d", "b", "d"},
		{func(b int) (Revision, error) { return s.Undo(ctx, doc, b) }, 7, 1, "A", "undo: b", "", "b"},
		{func(b int) (Revision, error) { return s.Redo(ctx, doc, b) }, 8, 2, "B", "redo: b", "b", "d"},
		{func(b int) (Revision, error) { return s.Redo(ctx, doc, b) }, 9, 5, "D", "redo: d", "d", ""},
		{func(b int) (Revision, error) { return s.Return(ctx, doc, b, 3) }, 10, 3, "C", "back to 3: c", "back to 3: c", ""},
		{func(b int) (Revision, error) { return s.Undo(ctx, doc, b) }, 11, 5, "D", "undo: back to 3: c", "d", "back to 3: c"},
	} {
		r = must(c.do(r.Number))(t)
		if r.Number != c.number || r.As != c.as || r.Text != c.text || r.What != c.what || r.Undo != c.undo || r.Redo != c.redo {
			t.Fatalf("got %+v, want %+v", r, c)
		}
		if again := must(s.Newest(ctx, doc))(t); !slices.Equal([]any{again.Step, again.Text, again.Undo, again.Redo}, []any{r.Step, r.Text, r.Undo, r.Redo}) {
			t.Fatalf("Newest returns %+v, the change returned %+v", again, r)
		}
	}
	if c := must(s.Revision(ctx, doc, 3))(t); c.Text != "C" || c.What != "c" {
		t.Errorf("revision 3 is %+v", c)
	}
}

func TestUndo_nothing(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "A")
	_, err := s.Undo(ctx, r.Doc, 1)
	wantFault(t, err, Refused, "card 1000", "nothing to undo")
	_, err = s.Redo(ctx, r.Doc, 1)
	wantFault(t, err, Refused, "nothing to redo")
	_, err = s.Return(ctx, r.Doc, 1, 2)
	wantFault(t, err, Missing, "no revision 2")
	for _, doc := range []Doc{0, -1, 6, 999, 1001} {
		_, err = s.Newest(ctx, doc)
		wantFault(t, err, Missing)
		_, err = s.Save(ctx, doc, 0, "x", "x")
		wantFault(t, err, Missing)
		_, err = s.History(ctx, doc, 0, 10)
		wantFault(t, err, Missing)
	}
	for _, n := range []int{-1, 0, 2} {
		_, err = s.Revision(ctx, r.Doc, n)
		wantFault(t, err, Missing)
	}
}

// TestUndo_law is a property: undo and redo behave as two stacks of texts do, whatever is done between them, and every text
// that was ever saved can be read again.
func TestUndo_law(t *testing.T) {
	s := opened(t, place(t))
	rapid.Check(t, func(t *rapid.T) {
		r := added2(t, s, "0")
		done, undone, all := []string{"0"}, []string(nil), map[int]string{1: "0"}
		for i := range rapid.IntRange(1, 25).Draw(t, "steps") {
			var err error
			last := len(done) - 1
			switch rapid.SampledFrom([]string{"save", "save", "undo", "undo", "redo", "return"}).Draw(t, "do") {
			case "save":
				text := fmt.Sprint(i + 1)
				r, err = s.Save(ctx, r.Doc, r.Number, text, "step "+text)
				done, undone = append(done, text), nil
			case "undo":
				if last == 0 {
					continue
				}
				r, err = s.Undo(ctx, r.Doc, r.Number)
				undone, done = append(undone, done[last]), done[:last]
			case "redo":
				if len(undone) == 0 {
					continue
				}
				r, err = s.Redo(ctx, r.Doc, r.Number)
				done, undone = append(done, undone[len(undone)-1]), undone[:len(undone)-1]
			case "return":
				to := rapid.IntRange(1, r.Number).Draw(t, "to")
				if all[to] == done[last] {
					continue // nothing changes
				}
				r, err = s.Return(ctx, r.Doc, r.Number, to)
				done, undone = append(done, all[to]), nil
			}
			if err != nil {
				t.Fatal(err)
			}
			all[r.Number] = r.Text
			if want := done[len(done)-1]; r.Text != want || (r.Undo != "") != (len(done) > 1) || (r.Redo != "") != (len(undone) > 0) {
				t.Fatalf("got %+v; want the text %q, %d to undo, %d to redo", r, want, len(done)-1, len(undone))
			}
		}
		for n, text := range all {
			if old, err := s.Revision(ctx, r.Doc, n); err != nil || old.Text != text {
				t.Fatalf("revision %d is %q, %v; %q was saved", n, old.Text, err, text)
			}
		}
	})
}

func added2(t *rapid.T, s *Store, text string) Revision {
	r, err := s.Add(ctx, text, nil, "first")
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestConflict: of two tabs that change one revision, the second is told, with both texts.
func TestConflict(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "score across at 52")
	first := must(s.Save(ctx, r.Doc, 1, "score across at 53", "score 1 to 53"))(t)
	_, err := s.Save(ctx, r.Doc, 1, "score across at 54", "score 1 to 54")
	var c *Conflict
	if !errors.As(err, &c) {
		t.Fatalf("got %v, want a conflict", err)
	}
	if c.Base != 1 || c.Yours != "score across at 54" || c.Newest.Text != "score across at 53" || c.Newest.Number != first.Number {
		t.Errorf("the conflict is %+v", c)
	}
	const want = `card 1000: revision 2 ("score 1 to 53") was saved since revision 1, which was changed here; nothing is lost: look at both, and save again on revision 2`
	if err.Error() != want {
		t.Errorf("got  %s\nwant %s", err, want)
	}
	for name, do := range map[string]func(base int) (Revision, error){
		"undo":   func(b int) (Revision, error) { return s.Undo(ctx, r.Doc, b) },
		"redo":   func(b int) (Revision, error) { return s.Redo(ctx, r.Doc, b) },
		"return": func(b int) (Revision, error) { return s.Return(ctx, r.Doc, b, 1) },
		"tags":   func(b int) (Revision, error) { return s.SetTags(ctx, r.Doc, b, []string{"gulls"}) },
	} {
		for _, base := range []int{0, 1, 3} { // older than the newest, or never seen
			if _, err := do(base); !errors.As(err, &c) || c.Base != base {
				t.Errorf("%s on %d: got %v, want a conflict", name, base, err)
			}
		}
	}
	if r := must(s.Newest(ctx, r.Doc))(t); r.Number != 2 || r.Text != "score across at 53" {
		t.Errorf("the refused changes left %+v", r)
	}
}

// TestSave_again: a text that is there already makes no revision, also on an old base: a save may be sent twice.
func TestSave_again(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "A")
	for range 3 {
		if got := must(s.Save(ctx, r.Doc, 1, "B", "b"))(t); got.Number != 2 || got.Text != "B" || got.Undo != "b" {
			t.Errorf("got %+v, want revision 2", got)
		}
	}
	steps, err := s.History(ctx, r.Doc, 0, 10)
	if err != nil || len(steps) != 2 {
		t.Errorf("got %d steps, %v; want 2", len(steps), err)
	}
}

// TestSave_anyText: what is saved comes back byte by byte, whatever it is.
func TestSave_anyText(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "")
	for _, text := range []string{
		"", "\x00", "a\x00b", "\xff\xfe broken", "½ ″ 紙\r\n\r\n", "'; DROP TABLE card; --", "<script>alert(1)</script>",
		"\ufeffcard", strings.Repeat("x", recipe.MaxText),
	} {
		r = must(s.Save(ctx, r.Doc, r.Number, text, "text"))(t)
		if got := must(s.Newest(ctx, r.Doc))(t); got.Text != text {
			t.Errorf("%.40q came back as %.40q", text, got.Text)
		}
		if got := must(s.Revision(ctx, r.Doc, r.Number))(t); got.Text != text {
			t.Errorf("%.40q came back as %.40q", text, got.Text)
		}
	}
	_, err := s.Save(ctx, r.Doc, r.Number, strings.Repeat("x", recipe.MaxText+1), "too much")
	wantFault(t, err, Refused, "1048577 bytes", "at most 1048576")
	_, err = s.Save(ctx, r.Doc, r.Number, "y", " \n ")
	wantFault(t, err, Refused, "no name")
	r = must(s.Save(ctx, r.Doc, r.Number, "y", "two\nlines  and "+strings.Repeat("½", 300)))(t)
	if !strings.HasPrefix(r.What, "two lines and ½") || len([]rune(r.What)) != mostWhat+1 { // and the … behind it
		t.Errorf("the name became %q", r.What)
	}
}

func TestHistory(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "0")
	for i := range 9 {
		r = must(s.Save(ctx, r.Doc, r.Number, fmt.Sprint(i+1), fmt.Sprintf("to %d", i+1)))(t)
	}
	r = must(s.Undo(ctx, r.Doc, r.Number))(t)
	var seen []string
	before := 0
	for {
		steps, err := s.History(ctx, r.Doc, before, 4)
		if err != nil {
			t.Fatal(err)
		}
		if len(steps) == 0 {
			break
		}
		for _, step := range steps {
			seen = append(seen, fmt.Sprintf("%d %s %d %s", step.Number, step.What, step.As, step.Made.Format("05")))
		}
		before = steps[len(steps)-1].Number
	}
	// the clock was read once for the card and once for its first revision
	want := []string{"11 undo: to 9 9 05", "10 to 9 0 04", "9 to 8 0 03", "8 to 7 0 02", "7 to 6 0 01", "6 to 5 0 00", "5 to 4 0 59", "4 to 3 0 58",
		"3 to 2 0 57", "2 to 1 0 56", "1 first 0 55"}
	if !slices.Equal(seen, want) {
		t.Errorf("got  %q\nwant %q", seen, want)
	}
}

// TestContext: a context that ended stops the work in words that errors.Is understands, and nothing is changed.
func TestContext(t *testing.T) {
	s := opened(t, place(t))
	r := added(t, s, "A")
	over, cancel := context.WithCancel(ctx)
	cancel()
	_, errSave := s.Save(over, r.Doc, 1, "B", "b")
	_, errList := s.Cards(over, Query{})
	_, errOpen := Open(over, place(t), ticking())
	for _, err := range []error{errSave, errList, errOpen} {
		if !errors.Is(err, context.Canceled) || !strings.Contains(err.Error(), "nothing was changed") {
			t.Errorf("got %v", err)
		}
	}
	if r := must(s.Newest(ctx, r.Doc))(t); r.Text != "A" {
		t.Errorf("got %+v", r)
	}
}

// TestDrawer: the files of the drawer are documents like cards.
func TestDrawer(t *testing.T) {
	s := opened(t, place(t))
	for _, doc := range Drawer() {
		r := must(s.Newest(ctx, doc))(t)
		if r.Number != 1 || !r.Made.IsZero() || !strings.HasSuffix(r.Text, "\n") || strings.Count(r.Text, "\n") != 1 {
			t.Errorf("%v begins as %+v", doc, r)
		}
		r = must(s.Save(ctx, doc, 1, r.Text+"# later\n", "a remark"))(t)
		r = must(s.Undo(ctx, doc, r.Number))(t)
		if r.Number != 3 || strings.Contains(r.Text, "later") {
			t.Errorf("%v after undo: %+v", doc, r)
		}
	}
	if cards, err := s.Cards(ctx, Query{}); err != nil || len(cards) != 0 {
		t.Errorf("the drawer stands on the shelf: %v, %v", cards, err)
	}
}
