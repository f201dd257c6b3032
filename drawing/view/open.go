package view

import (
	"fmt"
	"math"
	"strings"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/flat"
	"foldwright/fold"
)

// Open draws a pose of the card in space, seen along parallel lines from above and from the right, with hidden parts hidden,
// true to size (across the line of sight). pose is an index in o.Poses; -1 stands for the last one, the open card. It
// returns nil where there is no such pose.
//
// A card that opens by itself stands as its poses do, front towards you. One that opens by pulling is held half way
// between the panels that are drawn apart, so that they turn alike. One that opens at an upright score,
// by less than 135 degrees, stands like an open book with its inside towards you. Any other lies on the table like an open
// book: its right page (the near one where the score runs level) lies still, inside up, its upper edge away from you.
//
// However it is held, its size is told as fold.Opening measures it, without toppers, and with them where they reach beyond.
func Open(c *flat.Closed, o *fold.Opening, pose int) *drawing.Drawing {
	if pose == -1 && o != nil {
		pose = len(o.Poses) - 1
	}
	if c == nil || o == nil || pose < 0 || pose >= len(o.Poses) || len(o.Poses[pose].Panels) != len(c.At) {
		return nil
	}
	title := c.Assembly.Card.Title
	s := newScene(c, o)
	last := pose == len(o.Poses)-1
	name, words := "open", "open"
	if !last {
		part := partOpen(o, pose)
		name, words = fmt.Sprintf("open-%02.0f", part*100), partWords(part)
	}
	d := drawing.New(name, title+", "+words)
	d.Add(drawing.GroupPanel, s.shapes(pose)...)
	legend(d, d.Entries(legendWords(c.Assembly.Card, nil)))
	sizes := s.sizeLines(words, pose)
	lines := sizes
	if w := s.springWords(); w != "" {
		lines = append(lines, w)
	}
	head(d, title, lines...)
	d.Desc = "The card in space, seen from above and from the right. " + strings.Join(sizes, "; ") + "."
	d.Fit(margin)
	return d
}

// At returns the index of the pose of an opening that is nearest to a part of the way, 0 closed to 1 open; -1 without poses.
func At(o *fold.Opening, part float64) int {
	if o == nil || len(o.Poses) == 0 {
		return -1
	}
	return int(math.Round(min(1, max(0, part)) * float64(len(o.Poses)-1)))
}

func partOpen(o *fold.Opening, pose int) float64 {
	return float64(pose) / float64(max(1, len(o.Poses)-1))
}

// partWords says how far the card is open.
func partWords(part float64) string {
	switch {
	case part <= 0:
		return "closed"
	case part >= 1:
		return "open"
	}
	for _, q := range []struct {
		part  float64
		words string
	}{{0.25, "¼ open"}, {1. / 3, "⅓ open"}, {0.5, "½ open"}, {2. / 3, "⅔ open"}, {0.75, "¾ open"}} {
		if math.Abs(part-q.part) < 0.02 {
			return q.words
		}
	}
	return fmt.Sprintf("%.0f %% open", part*100)
}

// scene is a card ready to be looked at in any of its poses.
type scene struct {
	closed *flat.Closed
	open   *fold.Opening
	stage  *stage
	flat   []flatSheet
	order  *order
	camera camera
}

func newScene(c *flat.Closed, o *fold.Opening) *scene {
	s := &scene{closed: c, open: o, stage: newStage(c, o), flat: flatSheets(c)}
	s.order = newOrder(c, s.flat)
	s.camera = cameraAt(s.stage.stance.angles())
	return s
}

// paint returns the sheets of the card in a pose, and how they are painted.
func (s *scene) paint(pose int) ([]sheet, []daub) {
	sheets := place(s.flat, s.stage.frames(pose))
	return sheets, painted(sheets, s.order.in(s.open, pose), s.camera)
}

// shapes paints the card in a pose.
func (s *scene) shapes(pose int) []drawing.Shape {
	sheets, daubs := s.paint(pose)
	var out []drawing.Shape
	for _, d := range daubs {
		out = append(out, d.shapes(sheets[d.sheet], s.camera)...)
	}
	return out
}

// springWords says what the shape of a card that opens by itself leaves out.
func (s *scene) springWords() string {
	if s.closed.Assembly.Card.Opening.Kind != card.OpensByItself {
		return ""
	}
	return "shape without springs: how far the folds really open depends on the card and on how hard they are pressed"
}
