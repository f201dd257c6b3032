package reader

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// fake records what Need does without stopping the real test.
type fake struct {
	testing.TB
	skipped, failed string
}

func (f *fake) Helper() {}
func (f *fake) Skipf(format string, args ...any) {
	f.skipped = fmt.Sprintf(format, args...)
	runtime.Goexit()
}

func (f *fake) Fatalf(format string, args ...any) {
	f.failed = fmt.Sprintf(format, args...)
	runtime.Goexit()
}

func run(f func()) {
	done := make(chan struct{})
	go func() { defer close(done); f() }()
	<-done
}

func TestNeed(t *testing.T) {
	for _, c := range []struct {
		ci           string
		skips, fails bool
	}{{"", true, false}, {"false", true, false}, {"true", false, true}} {
		t.Setenv("CI", c.ci)
		f := &fake{TB: t}
		run(func() { Need(f, "no-such-program-here") })
		if got := f.skipped != ""; got != c.skips {
			t.Errorf("CI=%q: skipped = %v, want %v", c.ci, got, c.skips)
		}
		if got := f.failed != ""; got != c.fails {
			t.Errorf("CI=%q: stopped = %v, want %v", c.ci, got, c.fails)
		}
		if text := f.skipped + f.failed; !strings.Contains(text, "no-such-program-here is not installed") {
			t.Errorf("CI=%q: the line does not name the program: %q", c.ci, text)
		}
	}
}

func TestPicture(t *testing.T) {
	im := Picture(t, []byte("P6\n2 1\n255\n\x01\x02\x03\xff\x00\x80"))
	if got := im.Bounds().Size(); got.X != 2 || got.Y != 1 {
		t.Errorf("the picture is %v pixels, want 2 x 1", got)
	}
	if r, g, b, a := im.At(1, 0).RGBA(); r>>8 != 0xff || g>>8 != 0 || b>>8 != 0x80 || a>>8 != 0xff {
		t.Errorf("the second pixel is %x %x %x %x", r, g, b, a)
	}
	f := &fake{TB: t}
	run(func() { Picture(f, []byte("P6 no picture")) })
	if f.failed == "" {
		t.Error("what is no picture is taken for one")
	}
}
