package store

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

// fill saves ever larger edits until one is refused, and returns what was acknowledged and the error.
func fill(s *Store, doc Doc, from int) (known []Revision, err error) {
	for n := from; n < 10_000; n++ {
		var r Revision
		if r, err = s.Save(ctx, doc, n, strconv.Itoa(n)+strings.Repeat(" harbour", n*20), "edit"); err != nil {
			return known, err
		}
		known = append(known, r)
	}
	return known, nil
}

// lost says what is not there any more of what was acknowledged; nil for nothing.
func lost(s *Store, known []Revision) error {
	for _, r := range known {
		if got, err := s.Revision(ctx, r.Doc, r.Number); err != nil || got.Text != r.Text {
			return fmt.Errorf("revision %d came back as %.40q, %v", r.Number, got.Text, err)
		}
	}
	r, err := s.Newest(ctx, known[len(known)-1].Doc)
	if err != nil || r.Number != known[len(known)-1].Number {
		return fmt.Errorf("the newest is %d, %v; %d was acknowledged last", r.Number, err, known[len(known)-1].Number)
	}
	return sound(ctx, s.read, s.path, `PRAGMA integrity_check(1)`)
}

// TestFull: when there is no room, the edit is refused in words, nothing is lost, and it can be saved once there is room. The
// room is limited by max_page_count, which works everywhere and meets SQLite where it would meet the disk; a disk that is
// really full is met in TestFull_disk, where the system lets a test make one.
func TestFull(t *testing.T) {
	path := place(t)
	s := openedWith(t, path, limits{wait: time.Second, pages: 60})
	r := added(t, s, "0")
	known, err := fill(s, r.Doc, 1)
	wantFault(t, err, Full, "the disk is full", "nothing was changed", "free some room")
	if len(known) < 3 {
		t.Fatalf("only %d edits fitted: nothing was checked", len(known))
	}
	if err := lost(s, known); err != nil {
		t.Error(err)
	}
	_, err = s.Cut(ctx, 1, Move{Put: navy().Put}, strings.Repeat("plan", 100_000), "cut")
	wantFault(t, err, Full)
	if cuts := standing(t, s); len(cuts) != 0 || must(s.Newest(ctx, Papers))(t).Number != 1 {
		t.Error("half of a cut was kept")
	}
	larger := opened(t, path)
	last := known[len(known)-1]
	more := must(larger.Save(ctx, r.Doc, last.Number, strings.Repeat("more ", 10_000), "there is room again"))(t)
	if err := lost(larger, append(slices.Clone(known), more)); err != nil {
		t.Error(err)
	}
}
