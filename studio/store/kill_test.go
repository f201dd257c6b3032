package store

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"
)

// process is a running child: what it prints, and its input, which may be closed.
type process struct {
	*exec.Cmd
	lines *bufio.Scanner
	input io.Closer
}

// prepared returns a child that is to be started.
func prepared(t testing.TB, name string, args ...string) process {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	p := process{Cmd: exec.Command(program, args...)}
	p.Env = append(os.Environ(), child+"="+name)
	p.Stderr = os.Stderr
	out, err := p.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if p.input, err = p.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	p.lines = bufio.NewScanner(out)
	return p
}

// launch starts a child.
func launch(t testing.TB, name string, args ...string) process {
	t.Helper()
	p := prepared(t, name, args...)
	if err := p.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { p.Process.Kill() }) // does nothing to one that has ended
	return p
}

// saveForEver is the child that is killed: it saves edits of the only card, and prints the number of each that was
// acknowledged. The log is written back after few pages, so that some are killed while that is done.
func saveForEver(args []string) error {
	s, err := open(ctx, args[0], time.Now, limits{wait: 5 * time.Second, log: 20})
	if err != nil {
		return err
	}
	cards, err := s.Cards(ctx, Query{})
	if err != nil {
		return err
	}
	var r Revision
	if len(cards) == 0 {
		r, err = s.Add(ctx, edit(1), nil, "edit 1")
	} else {
		r, err = s.Newest(ctx, cards[0].Doc)
	}
	for err == nil {
		if _, err = fmt.Println(r.Number); err == nil { // not buffered: the line is out before the next edit
			n := r.Number + 1
			r, err = s.Save(ctx, r.Doc, r.Number, edit(n), "edit "+strconv.Itoa(n))
		}
	}
	return err
}

// edit is the text of an edit, a little more than a page.
func edit(n int) string {
	return fmt.Sprintf("card \"Gull %d\"\n", n) + strings.Repeat("# edit "+strconv.Itoa(n)+"\n", 400)
}

// TestKill: whenever the program is killed, every edit that it acknowledged is there, and nothing is half done. kill -9 leaves
// to the disk what the system was given; that a power cut loses nothing either rests on the sync of every commit, which
// TestOpen_settings sees set.
func TestKill(t *testing.T) {
	path := place(t)
	known := 0 // the last edit that was acknowledged
	total := 0
	for round := range 12 {
		p := launch(t, "save", path)
		acks := rand.IntN(30)
		for n := 0; n < acks && p.lines.Scan(); n++ {
			known = acknowledged(t, p.lines.Text())
			total++
		}
		time.Sleep(time.Duration(rand.IntN(4000)) * time.Microsecond) // anywhere in the next edits, or in opening
		if err := p.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		for p.lines.Scan() { // what it printed before it died
			known = acknowledged(t, p.lines.Text())
			total++
		}
		if err := p.Wait(); err == nil || !strings.Contains(err.Error(), "killed") {
			t.Fatalf("round %d ended by itself: %v", round, err)
		}
		checkEdits(t, path, known)
	}
	t.Logf("%d edits were acknowledged in 12 rounds", total)
	if total == 0 {
		t.Error("no edit was acknowledged: nothing was checked")
	}
}

func acknowledged(t testing.TB, line string) int {
	t.Helper()
	n, err := strconv.Atoi(line)
	if err != nil {
		t.Fatalf("the child says %q", line)
	}
	return n
}

// checkEdits opens the studio as it was left, and looks at every edit.
func checkEdits(t *testing.T, path string, known int) {
	t.Helper()
	s, err := Open(ctx, path, ticking())
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	cards, err := s.Cards(ctx, Query{})
	if err != nil {
		t.Fatal(err)
	}
	if len(cards) == 0 && known == 0 {
		return // killed before the first edit
	}
	newest := must(s.Newest(ctx, firstCard))(t)
	if newest.Number < known || len(cards) != 1 || cards[0].Revision != newest.Number || cards[0].Title != "Gull "+strconv.Itoa(newest.Number) {
		t.Fatalf("the newest is %d, the shelf shows %+v; %d was acknowledged", newest.Number, cards, known)
	}
	for n := 1; n <= newest.Number; n++ {
		if r := must(s.Revision(ctx, firstCard, n))(t); r.Text != edit(n) {
			t.Fatalf("edit %d came back as %.40q", n, r.Text)
		}
	}
	if err := sound(ctx, s.read, path, `PRAGMA integrity_check(1)`); err != nil {
		t.Fatal(err)
	}
}

// holdLock is the child that writes for long: it begins to write, says so, and ends when its input does.
func holdLock(args []string) error {
	s, err := Open(ctx, args[0], time.Now)
	if err != nil {
		return err
	}
	tx, err := s.write.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	fmt.Println("writing")
	if _, err := io.Copy(io.Discard, os.Stdin); err != nil {
		return err
	}
	return tx.Rollback()
}

// TestTwoPrograms: while another program writes, reading goes on; a save waits for it, for so long, and then says why not.
func TestTwoPrograms(t *testing.T) {
	path := place(t)
	s := openedWith(t, path, limits{wait: 50 * time.Millisecond})
	patient := openedWith(t, path, limits{wait: time.Minute})
	r := added(t, s, "A")
	p := launch(t, "hold", path)
	if !p.lines.Scan() || p.lines.Text() != "writing" {
		t.Fatalf("the child says %q", p.lines.Text())
	}
	_, err := s.Save(ctx, r.Doc, 1, "B", "b")
	wantFault(t, err, Busy, "another program is writing", "nothing was changed", "try again")
	if r := must(s.Newest(ctx, r.Doc))(t); r.Text != "A" {
		t.Errorf("reading gives %+v", r)
	}
	over, cancel := context.WithTimeout(ctx, 20*time.Millisecond)
	defer cancel()
	if _, err := patient.Save(over, r.Doc, 1, "B", "b"); err == nil || Is(err, Busy) {
		t.Errorf("a context that ends while it waits: %v", err)
	}
	done := make(chan error, 1)
	go func() { _, err := patient.Save(ctx, r.Doc, 1, "B", "b"); done <- err }()
	if err := errors.Join(p.input.Close(), p.Wait()); err != nil {
		t.Fatal(err)
	}
	if err := <-done; err != nil {
		t.Errorf("waiting: %v", err)
	}
	if r := must(s.Newest(ctx, r.Doc))(t); r.Text != "B" {
		t.Errorf("got %+v", r)
	}
}
