package flat

import (
	"context"
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/pattern"
)

func mm(v int) length.Length { return length.Length(v) * length.Millimetre }

func strip(name string, kind card.ScoreKind, w, h int, copies int, senses string, names []string, at ...int) card.Piece {
	p := card.Piece{Name: name, Stock: "navy", Copies: copies, Size: card.Size{W: mm(w), H: mm(h)}}
	for i, a := range at {
		s := card.Mountain
		if senses[i%len(senses)] == 'v' {
			s = card.Valley
		}
		p.Scores = append(p.Scores, card.Score{Kind: kind, At: mm(a), Sense: s})
	}
	for _, n := range names {
		p.Strip = append(p.Strip, card.StripName{Name: n})
	}
	return p
}

func ref(piece string, copy int, panel string) card.PanelRef {
	return card.PanelRef{Piece: piece, Copy: copy, Panel: panel}
}

func standCard() *card.Card {
	c := &card.Card{Title: "stand", Marks: length.Millimetre}
	c.Pieces = []card.Piece{
		strip("wall", card.Across, 252, 72, 1, "m", []string{"left", "front", "right", "back-right", "back", "back-left", "tab"}, 42, 78, 120, 162, 198, 240),
		strip("roof", card.Up, 36, 144, 1, "m", []string{"front-foot", "front-slope", "back-slope", "back-foot"}, 12, 72, 132),
		strip("spring", card.Across, 228, 60, 2, "mvmvmmvmvm", []string{"front", "leaf", "leaf", "leaf", "leaf", "back", "leaf", "leaf", "leaf", "leaf", "tab"}, 36, 54, 72, 90, 108, 144, 162, 180, 198, 216),
	}
	g := func(a card.PanelRef, j card.Joint, b card.PanelRef, x, y card.Align, turned float64) {
		c.Glues = append(c.Glues, card.Glue{A: a, B: b, Joint: j, AlignX: x, AlignY: y, TurnedDeg: turned})
	}
	g(ref("wall", 0, "tab"), card.Inside, ref("wall", 0, "left"), card.AlignLow, 0, 0)
	g(ref("roof", 0, "front-foot"), card.Outside, ref("wall", 0, "front"), 0, card.AlignHigh, 0)
	g(ref("roof", 0, "back-foot"), card.Outside, ref("wall", 0, "back"), 0, card.AlignHigh, 180)
	g(ref("spring", 1, "tab"), card.Inside, ref("spring", 1, "front"), card.AlignLow, 0, 0)
	g(ref("spring", 2, "tab"), card.Inside, ref("spring", 2, "front"), card.AlignLow, 0, 0)
	g(ref("spring", 1, "front"), card.Inside, ref("wall", 0, "front"), 0, card.AlignLow, 0)
	g(ref("spring", 2, "front"), card.Against, ref("spring", 1, "back"), 0, 0, 0)
	g(ref("spring", 2, "back"), card.Inside, ref("wall", 0, "back"), 0, card.AlignLow, 0)
	c.Opening.Kind = card.OpensByItself
	return c
}

func TestStand(t *testing.T) {
	a, problems := pattern.Assemble(standCard())
	if a == nil {
		t.Fatal(problems)
	}
	c := Close(context.Background(), a)
	t.Log(c.Status, c.Box.W(), c.Box.H(), c.Clash)
	for i, h := range a.Hinges {
		if c.Folded != nil && c.Folded[i] {
			t.Log(a.Copies[h.Copy].Name, h.Score()+1)
		}
	}
	if c.Clash != nil {
		t.Log(a.Panels[c.Clash.A].Ref, a.Panels[c.Clash.B].Ref)
	}
	if c.Overlay != nil {
		t.Log(len(c.Overlay.Cells))
		for _, cell := range c.Overlay.Cells {
			if len(cell.Stack) > 14 {
				for _, p := range cell.Stack {
					t.Log("  ", a.Panels[p].Ref)
				}
				break
			}
		}
	}
}

func BenchmarkClose(b *testing.B) {
	a, _ := pattern.Assemble(standCard())
	b.ReportAllocs()
	for b.Loop() {
		Close(context.Background(), a)
	}
}

func BenchmarkAssemble(b *testing.B) {
	c := standCard()
	b.ReportAllocs()
	for b.Loop() {
		pattern.Assemble(c)
	}
}

func TestSlip(t *testing.T) {
	for piece := range 3 {
		for k := range standCard().Pieces[piece].Scores {
			for _, d := range []length.Length{-length.Inch / 8, length.Inch / 8} {
				c := standCard()
				was := c.Pieces[piece].Scores[k].At
				c.Pieces[piece].Scores[k].At += d
				a, problems := pattern.Assemble(c)
				if a == nil {
					t.Fatal(problems)
				}
				got := Close(context.Background(), a)
				if got.LiesFlat() {
					t.Log(c.Pieces[piece].Name, k+1, d, "harmless", got.Box.W(), got.Box.H())
					continue
				}
				if got.Folded != nil {
					t.Log(c.Pieces[piece].Name, k+1, d, "clash")
					continue
				}
				m := Explain(context.Background(), a)
				t.Log(c.Pieces[piece].Name, k+1, d, "was", was, "gaps", len(m.Gaps), "cures", len(m.Cures))
				for _, g := range m.Gaps {
					t.Log("     ", g.Name, g.DX, g.DY)
				}
				for _, cu := range m.Cures {
					t.Log("     ", cu.Label, cu.From, cu.To)
				}
			}
		}
	}
}

func BenchmarkExplain(b *testing.B) {
	c := standCard()
	c.Pieces[0].Scores[2].At += length.Inch / 8
	a, _ := pattern.Assemble(c)
	for b.Loop() {
		Explain(context.Background(), a)
	}
}

func BenchmarkExplainGood(b *testing.B) {
	a, _ := pattern.Assemble(standCard())
	for b.Loop() {
		Explain(context.Background(), a)
	}
}

func TestSlips(t *testing.T) {
	for k := -1; k < 10; k++ {
		for _, d := range []length.Length{-length.Inch / 8, length.Inch / 8} {
			c := standCard()
			if k >= 0 {
				c.Pieces[2].Scores[k].At += d
			}
			a, _ := pattern.Assemble(c)
			got := Close(context.Background(), a)
			if !got.LiesFlat() {
				t.Log("spring", k+1, d, got.Clash)
				m := Explain(context.Background(), a)
				for _, g := range m.Gaps {
					t.Log("     ", g.Name, g.DX, g.DY)
				}
				for _, cu := range m.Cures {
					t.Log("     ", cu.Label, cu.From, cu.To)
				}
				continue
			}
			t.Log("spring", k+1, d, "flat")
			for _, s := range got.Slips(context.Background()) {
				t.Log("    slip", s.Label, s.From, s.To, s.Straight)
			}
		}
	}
}

func TestWhich(t *testing.T) {
	for _, k := range []int{1, 2, 3, 6} {
		c := standCard()
		c.Pieces[2].Scores[k].At += length.Inch / 8
		a, _ := pattern.Assemble(c)
		got := Close(context.Background(), a)
		s := ""
		for i, h := range a.Hinges {
			if h.Copy == 2 || h.Copy == 3 {
				if got.Folded[i] {
					s += "1"
				} else {
					s += "0"
				}
			}
		}
		t.Log(k+1, s)
	}
}
