package view

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"foldwright/drawing"
	"foldwright/fold"
	"foldwright/length"
)

// said returns a number of millimetres to a tenth, as people write it.
func said(mm float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", math.Round(mm*10)/10), ".0") + " mm"
}

// headed returns the words of a drawing in one line.
func headed(d *drawing.Drawing) string {
	var words []string
	for _, s := range d.Group(drawing.GroupText) {
		words = append([]string{s.(drawing.Text).Words}, words...)
	}
	return strings.Join(words, " ")
}

// TestOpenSize: the open view tells the size that fold.Opening has, whichever way the picture is turned, and says where it is.
func TestOpenSize(t *testing.T) {
	turned := 0
	for name, r := range cards(t) {
		if r.Card.Unit != length.MM {
			continue
		}
		d := Open(r.Closed, r.Opening, -1)
		o := r.Opening
		want := fmt.Sprintf("%s wide, %s deep, %s high", said(o.Width), said(o.Depth), said(o.Height))
		if !strings.Contains(d.Desc, want) {
			t.Errorf("%s: %q does not say %q", name, d.Desc, want)
		}
		if says := strings.Contains(d.Desc, "picture is turned"); says {
			turned++
		}
	}
	if turned < 4 {
		t.Errorf("the picture of %d cards is said to be turned; of the catalogue four stand or lie otherwise than they are proven", turned)
	}
}

// TestPartOpenSize: part of the way the size is measured in the same directions: a card that opens like a book to a right angle
// is as wide as its still page of 105 mm all the time, and as deep as its other page of 105 mm reaches behind it.
func TestPartOpenSize(t *testing.T) {
	r := cards(t)["harbour-steps"]
	checked := 0
	for pose, p := range r.Opening.Poses[1 : len(r.Opening.Poses)-1] {
		want := fmt.Sprintf("%s wide, %s deep, 148 mm high", said(105), said(105*math.Sin(p.Drive)))
		if d := Open(r.Closed, r.Opening, pose+1); !strings.Contains(d.Desc, want) {
			t.Errorf("pose %d at %.1f degrees: %q does not say %q", pose+1, p.Drive*180/math.Pi, d.Desc, want)
		}
		checked++
	}
	if checked < 10 {
		t.Errorf("only %d poses were checked", checked)
	}
}

// TestTopperSize: a card with toppers says that its size is told without them, and what it is with them where they reach beyond
// it; a card without toppers says nothing of the kind. The topper of the harbour light is 92 wide and lies level across it.
func TestTopperSize(t *testing.T) {
	for name, r := range cards(t) {
		words := Open(r.Closed, r.Opening, -1).Desc
		if has, says := len(r.Card.Toppers) > 0, strings.Contains(words, "high without toppers"); has != says {
			t.Errorf("%s has toppers: %t, says so: %t (%s)", name, has, says, words)
		}
	}
	r := cards(t)["harbour-light"]
	words := headed(Open(r.Closed, r.Opening, -1))
	if !strings.Contains(words, "with them: about 92 mm wide") {
		t.Errorf("%q does not say how wide the topper makes it", words)
	}
	s := newScene(r.Closed, r.Opening)
	low, high := s.box(r.Opening.Poses[len(r.Opening.Poses)-1].Panels, true)
	most := math.Inf(-1)
	for _, sheet := range place(s.flat, r.Opening.Poses[len(r.Opening.Poses)-1].Panels) {
		for _, c := range sheet.rings[0] {
			most = max(most, c.Dot(fold.Vec{0, 1, 0}))
		}
	}
	if math.Abs(high[1]-most) > 1e-9 || low[1] > 1e-9 {
		t.Errorf("with its topper it reaches from %g to %g, its highest corner lies at %g", low[1], high[1], most)
	}
}
