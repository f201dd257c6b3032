package view

import (
	"context"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"foldwright/drawing"
	"foldwright/drawing/conform"
	"foldwright/drawing/svg"
	"foldwright/internal/golden"
	"foldwright/proof"
)

// prove reads a recipe that must be proven.
func prove(t testing.TB, path string) *proof.Report {
	t.Helper()
	r, err := proven(path)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func proven(path string) (*proof.Report, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	r := proof.Prove(context.Background(), filepath.Base(path), text)
	if !r.Proven() {
		return nil, fmt.Errorf("%s: %s", path, r.Verdict())
	}
	return r, nil
}

// keeps names the cards whose pictures are kept in testdata: one of every mechanism. All others pass every other test.
var keeps = map[string]bool{
	"harbour-light": true, "gull-box": true, "rising-gull": true, "harbour-steps": true, "tide-accordion": true,
	"harbour-mouth": true, "swinging-buoy": true, "lamp-box": true, "porthole": true,
}

// cards returns the cards of the catalogue and those of this package by name.
func cards(t testing.TB) map[string]*proof.Report {
	t.Helper()
	list, err := catalogue()
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// catalogue proves all cards once for all tests.
var catalogue = sync.OnceValues(func() (map[string]*proof.Report, error) {
	out := map[string]*proof.Report{}
	for _, pattern := range []string{"../../forms/*.card", "testdata/*.card"} {
		paths, err := filepath.Glob(pattern)
		if err != nil || len(paths) == 0 {
			return nil, fmt.Errorf("%s: %d cards, %v", pattern, len(paths), err)
		}
		for _, p := range paths {
			r, err := proven(p)
			if err != nil {
				return nil, err
			}
			out[strings.TrimSuffix(filepath.Base(p), ".card")] = r
		}
	}
	return out, nil
})

// all returns every view of a card.
func all(r *proof.Report) []*drawing.Drawing {
	out := append(Patterns(r.Assembly), Templates(r.Assembly)...)
	out = append(out, OrnamentTemplates(r.Closed)...)
	return append(out, Closed(r.Closed, Front), Closed(r.Closed, Back), Thickness(r.Closed),
		Open(r.Closed, r.Opening, -1), Sequence(r.Closed, r.Opening, 5))
}

func write(t testing.TB, d *drawing.Drawing) string {
	t.Helper()
	return string(conform.Bytes(t, svg.Device{}, d))
}

// TestViews compares every view of the cards that are kept with its picture, and reads the pictures of all cards as XML.
func TestViews(t *testing.T) {
	kept := golden.In(t, "testdata/views")
	for name := range keeps {
		if cards(t)[name] == nil {
			t.Errorf("there is no card %s, whose pictures are kept", name)
		}
	}
	for name, r := range cards(t) {
		for _, d := range all(r) {
			text := write(t, d)
			if keeps[name] {
				kept.Compare(t, name+"-"+d.Name+".svg", []byte(text))
			}
			for x := xml.NewDecoder(strings.NewReader(text)); ; {
				if _, err := x.Token(); errors.Is(err, io.EOF) {
					break
				} else if err != nil {
					t.Fatalf("%s %s: %v", name, d.Name, err)
				}
			}
		}
	}
}

// TestWords: no words overlap, no line runs through any, and every character can be printed.
func TestWords(t *testing.T) {
	for name, r := range cards(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, d := range all(r) {
				for _, c := range drawing.Clashes(d, drawing.Roles()...) {
					t.Errorf("%s: %s", d.Name, c)
				}
				for _, p := range drawing.Check(d) {
					t.Errorf("%s: %s", d.Name, p.What)
				}
				if d.Title == "" || d.Name == "" || d.Desc == "" {
					t.Errorf("%s: name, title or description is missing", d.Name)
				}
			}
		})
	}
}

// TestPatternNames: the name of every panel stands exactly once on its pattern, in the drawing or in the list of numbers.
func TestPatternNames(t *testing.T) {
	for name, r := range cards(t) {
		for i := range r.Card.Pieces {
			count := map[string]int{}
			for _, s := range Pattern(r.Assembly, i).Shapes() {
				if w, ok := s.(drawing.Text); ok {
					words := w.Words
					if _, after, listed := strings.Cut(words, ": "); listed && strings.HasPrefix(words, "panel ") {
						words = after
					}
					count[words]++
				}
			}
			for _, p := range patternOf(r.Assembly, i).Panels {
				if count[p.Label] != 1 {
					t.Errorf("%s, %s: %q stands %d times, want once", name, r.Card.Pieces[i].Name, p.Label, count[p.Label])
				}
			}
		}
	}
}

// TestTemplateTrue: a template is as large as its piece and its margins, has only the groups of a template, and cuts no
// stretch twice.
func TestTemplateTrue(t *testing.T) {
	for name, r := range cards(t) {
		for i, p := range r.Card.Pieces {
			d := Template(r.Assembly, i)
			box := patternOf(r.Assembly, i).Box
			w, h := box.W().MM()+2*TemplateMargin, box.H().MM()+2*TemplateMargin
			if d.W != w || d.H != h {
				t.Errorf("%s, %s: %g x %g mm, want %g x %g", name, p.Name, d.W, d.H, w, h)
			}
			if want := `width="` + drawing.Number(w) + `mm" height="` + drawing.Number(h) + `mm"`; !strings.Contains(write(t, d), want) {
				t.Errorf("%s, %s: the SVG does not say %s", name, p.Name, want)
			}
			for _, g := range d.Groups {
				if g.Name != drawing.GroupCut && g.Name != drawing.GroupScore && g.Name != drawing.GroupMark {
					t.Errorf("%s, %s: there is a group %s", name, p.Name, g.Name)
				}
			}
			cut := drawing.BoundsOf(d.Group(drawing.GroupCut))
			if cut != (drawing.Box{Min: drawing.Point{X: TemplateMargin, Y: TemplateMargin}, Max: drawing.Point{X: w - TemplateMargin, Y: h - TemplateMargin}}) {
				t.Errorf("%s, %s: the cut lines fill %v", name, p.Name, cut)
			}
			doubled(t, name+", "+p.Name, append(d.Group(drawing.GroupCut), d.Group(drawing.GroupScore)...))
		}
	}
}

// doubled reports stretches that two lines share.
func doubled(t *testing.T, name string, shapes []drawing.Shape) {
	t.Helper()
	var r room
	r.line(shapes...)
	for i, a := range r.lines {
		for _, b := range r.lines[i+1:] {
			d := a[1].Sub(a[0])
			off := func(p drawing.Point) float64 { return (d.X*(p.Y-a[0].Y) - d.Y*(p.X-a[0].X)) / d.Len() }
			if o0, o1 := off(b[0]), off(b[1]); o0 > 1e-6 || o0 < -1e-6 || o1 > 1e-6 || o1 < -1e-6 {
				continue
			}
			at := func(p drawing.Point) float64 { return (d.X*(p.X-a[0].X) + d.Y*(p.Y-a[0].Y)) / d.Len() }
			lo, hi := min(at(b[0]), at(b[1])), max(at(b[0]), at(b[1]))
			if min(hi, d.Len())-max(lo, 0) > 1e-6 {
				t.Errorf("%s: %v and %v share a stretch", name, a, b)
			}
		}
	}
}

// TestTemplatePaths: lines are joined to as few paths as can be.
func TestTemplatePaths(t *testing.T) {
	for _, c := range []struct {
		card, piece string
		cuts        int
		scores      int
	}{
		{"harbour-light", "wall", 1, 6},     // one outline; six scores
		{"gull-box", "box", 1 + 3, 5},       // three slits; the score across four panels is one line
		{"harbour-steps", "page", 1 + 4, 9}, // four slits
		{"rising-gull", "gull", 1, 2},       // scores 1 and 2 are one line
		{"porthole", "front", 1 + 2, 1},     // two windows
	} {
		r := cards(t)[c.card]
		for i, p := range r.Card.Pieces {
			if p.Name != c.piece {
				continue
			}
			d := Template(r.Assembly, i)
			if got := len(d.Group(drawing.GroupCut)); got != c.cuts {
				t.Errorf("%s, %s: %d paths to cut, want %d", c.card, c.piece, got, c.cuts)
			}
			if got := len(d.Group(drawing.GroupScore)); got != c.scores {
				t.Errorf("%s, %s: %d lines to score, want %d", c.card, c.piece, got, c.scores)
			}
		}
	}
}

// TestOutOfRange: a piece or a pose that is not there has no view.
func TestOutOfRange(t *testing.T) {
	r := prove(t, "../../forms/rising-gull.card")
	if Pattern(r.Assembly, -1) != nil || Pattern(r.Assembly, 9) != nil || Template(r.Assembly, 9) != nil {
		t.Error("there is a view of a piece that the card does not have")
	}
	if Open(r.Closed, r.Opening, 999) != nil || Open(r.Closed, r.Opening, -2) != nil || Open(nil, nil, 0) != nil {
		t.Error("there is a view of a pose that the opening does not have")
	}
	if Closed(nil, Front) != nil || Thickness(nil) != nil || Sequence(nil, nil, 5) != nil {
		t.Error("there is a view of no card")
	}
	if At(nil, 0.5) != -1 || At(r.Opening, 0) != 0 || At(r.Opening, 2) != len(r.Opening.Poses)-1 {
		t.Error("At names the wrong pose")
	}
}

// BenchmarkViews draws every view of the stand with two springs.
func BenchmarkViews(b *testing.B) {
	r := prove(b, "../../forms/harbour-light.card")
	for _, v := range []struct {
		name string
		draw func() *drawing.Drawing
	}{
		{"pattern", func() *drawing.Drawing { return Pattern(r.Assembly, 2) }},
		{"template", func() *drawing.Drawing { return Template(r.Assembly, 2) }},
		{"closed", func() *drawing.Drawing { return Closed(r.Closed, Front) }},
		{"thickness", func() *drawing.Drawing { return Thickness(r.Closed) }},
		{"open", func() *drawing.Drawing { return Open(r.Closed, r.Opening, -1) }},
		{"sequence", func() *drawing.Drawing { return Sequence(r.Closed, r.Opening, 5) }},
	} {
		b.Run(v.name, func(b *testing.B) {
			for b.Loop() {
				v.draw()
			}
		})
	}
}
