package proof

import (
	"context"
	"fmt"
	"math"
	"strings"

	"foldwright/card"
	"foldwright/care"
	"foldwright/fit"
	"foldwright/fold"
	"foldwright/length"
	"foldwright/spring"
	"foldwright/stance"
	"foldwright/stock"
)

// seed chooses the sample from which chances are counted. It has no meaning; it is fixed so that a card gets one answer.
const seed = 1

// stand finds out how the card stands and what the errors of a usual hand do to it.
func (r *Report) stand(ctx context.Context) {
	r.StandsAt, r.Stance = stance.Standing(r.Closed, r.Opening)
	r.envelope()
	r.spring(ctx)
	study, err := care.New(ctx, r.Closed, care.Usual(), seed)
	if err != nil { // the card lies flat and the hand is usual: only the context can end it
		r.Stopped = true
		return
	}
	r.Hand = study
}

// Spring is what a proof says of springs; package spring says more.
type Spring struct {
	Rest spring.Rest
	Push spring.Push
	Felt spring.Felt
}

// springSteps is in how many steps a proof follows the way that springs open: a force wants no more.
const springSteps = 12

// spring finds out how a card that opens by itself springs.
func (r *Report) spring(ctx context.Context) {
	if r.Opening.Driver != card.OpensByItself {
		return
	}
	assumed, problems := spring.Assume()
	if problems.HasErrors() {
		return // the table is built in, and a test reads it
	}
	m := spring.New(fold.New(r.Closed), assumed)
	found := m.Check()
	r.Problems = append(r.Problems, found...)
	if found.HasErrors() {
		return
	}
	s := &Spring{Rest: m.Rest(ctx)}
	if s.Rest.Found {
		s.Push = m.Opening(ctx, s.Rest, springSteps)
		s.Felt = m.Feel(ctx, s.Rest, s.Push, assumed)
	}
	r.Spring = s
}

// SpringWords says how the card springs: "lively; it rests 66 mm deep and is held shut with 6.6 N".
func (r *Report) SpringWords() string {
	s := r.Spring
	if !s.Rest.Found {
		return "not known: no pose was found in which its folds balance"
	}
	words := s.Felt.Feel.String()
	if s.Felt.Almost {
		words += ", almost too strong"
	}
	words += "; it rests " + r.fine(s.Rest.Standing.Depth) + " deep"
	if s.Push.HoldShut > 0 {
		words += fmt.Sprintf(" and is held shut with %.2g N", s.Push.HoldShut)
	}
	return words + " (stocks assumed where the recipe says nothing)"
}

// envelope looks for the published envelope in which the card sits best: one of the makers' own part of the world, told by
// the unit that they use, where there is one with room.
func (r *Report) envelope() {
	table, err := stock.Load()
	if err != nil {
		return // the tables are built in, and a test reads them
	}
	envelopes, _ := fit.Pick(table, nil)
	seats, _ := fit.Rank(fit.BlockOf(r.Closed), envelopes, table.Clearances(), r.Card.Unit)
	metric := func(u length.Unit) bool { return u != length.IN }
	for i, s := range seats {
		switch {
		case s.Grade == fit.TooSmall:
			return
		case r.Seat == nil:
			r.Seat = &seats[i]
		case s.Grade == fit.Easy && metric(s.Envelope.Unit) == metric(r.Card.Unit):
			if metric(r.Seat.Envelope.Unit) != metric(r.Card.Unit) {
				r.Seat = &seats[i]
			}
			return
		}
	}
}

// StandWords says how the card stands: "by itself, and tips first forwards, at a tilt of 21 degrees".
func (r *Report) StandWords() string {
	s := r.Stance
	switch {
	case r.StandsAt < 0 && len(s.Feet) < 3:
		return "not by itself: upright it rests on a line"
	case r.StandsAt < 0 && s.Stands():
		return "not steadily: it tips " + s.Weakest().String() + " at a touch"
	case r.StandsAt < 0:
		return "not by itself: it falls " + s.Falls().String()
	}
	words := "by itself"
	if r.StandsAt < len(r.Opening.Poses)-1 {
		words = r.opened(r.StandsAt) + "; wider it tips at a touch"
	}
	if by, to := s.Lean(); by > math.Pi/360 {
		words += ", leaning " + to.String() + " by " + degrees(by)
	}
	return fmt.Sprintf("%s; on a tilted table it tips first %s, at %s", words, s.Weakest(), degrees(s.Tips[s.Weakest()]))
}

// opened says how far open a pose is, for people.
func (r *Report) opened(pose int) string {
	p, o := r.Opening.Poses[pose], r.Opening
	if o.Driver == card.OpensAt {
		return "opened to " + degrees(p.Drive)
	}
	apart, _ := length.FromMM(p.Drive).Snap(length.Millimetre)
	return fmt.Sprintf("with %s and %s %s apart", r.Assembly.Panels[o.Panels[0]].Ref, r.Assembly.Panels[o.Panels[1]].Ref, r.say(apart))
}

func degrees(radians float64) string { return fmt.Sprintf("%.0f degrees", radians*180/math.Pi) }

// HandWords says, a line each, what the errors of a hand do to the card.
func (r *Report) HandWords() []string {
	s := r.Hand
	out := []string{r.handWords(s.Hand)}
	out = append(out, r.gapWords()...)
	out = append(out, fmt.Sprintf("closed, nine of ten are at most %s wide, and at most %s high", r.fine(s.Width.Most), r.fine(s.Height.Most)))
	if s.FitsSaid {
		out = append(out, fmt.Sprintf("%.0f of 100 fit within %s by %s", 100*s.Fits, r.say(r.Card.Fits.W), r.say(r.Card.Fits.H)))
	}
	if len(s.Shares) == 0 {
		return out // a hand without errors
	}
	return append(out, r.careWords())
}

// gapWords says how far the worst joint misses; nothing for a card without gaps.
func (r *Report) gapWords() []string {
	g := worst(r.Hand.Gaps)
	if g == nil {
		return nil
	}
	return []string{fmt.Sprintf("nine of ten miss by less than %s where %s", r.fine(care.NineInTen*max(g.DX, g.DY)), joint(g.Name))}
}

// careWords names the lines that want most care.
func (r *Report) careWords() string {
	var names []string
	for _, l := range r.Hand.Shares[:min(3, len(r.Hand.Shares))] {
		names = append(names, l.Name(r.Card))
	}
	return "take most care with " + strings.Join(names, "; ")
}

func (r *Report) handWords(h care.Hand) string {
	assumed := ""
	if h == care.Usual() {
		assumed = "assumed: "
	}
	return fmt.Sprintf("%scuts off by %s, scores by %s (one standard deviation)", assumed, r.thick(h.Cut), r.thick(h.Score))
}

func worst(gaps []care.Gap) *care.Gap {
	var out *care.Gap
	for i, g := range gaps {
		if out == nil || max(g.DX, g.DY) > max(out.DX, out.DY) {
			out = &gaps[i]
		}
	}
	return out
}

// joint makes of the name of a joint, "wall.tab inside wall.left", a clause.
func joint(name string) string {
	if a, b, ok := strings.Cut(name, " "); ok && !strings.HasPrefix(name, "score ") {
		return a + " is glued " + b
	}
	return "the sides of " + name + " meet"
}

// fine prints some millimetres to a tenth.
func (r *Report) fine(mm float64) string {
	l, _ := length.FromMM(mm).Snap(length.Millimetre / 10)
	return r.thick(l)
}

type jsonStance struct {
	Stands   bool    `json:"stands"`
	FullOpen bool    `json:"fully_open"`
	Opened   string  `json:"opened"`
	Grams    float64 `json:"grams"`
	// Centre and feet: x to the right, y up, z towards the viewer.
	CentreMM  [3]float64         `json:"centre_mm"`
	FeetMM    [][3]float64       `json:"feet_mm"`
	MarginMM  float64            `json:"margin_mm"`
	LeanDeg   float64            `json:"lean_deg"`
	TipDeg    float64            `json:"tip_deg"`
	TipsDeg   map[string]float64 `json:"tips_deg"`
	FallsWord string             `json:"falls,omitempty"`
}

// StandJSON encodes how the card stands, indented, with a final newline. tipping is the weight in grams that tips it,
// infinite for none, and on the panel that it is fixed to.
func (r *Report) StandJSON(on string, tipping float64) ([]byte, error) {
	out := r.jsonStance()
	tips := &tipping
	if math.IsInf(tipping, 1) {
		tips = nil // JSON has no infinity
	}
	return indented(struct {
		Card string `json:"card"`
		*jsonStance
		On       string   `json:"weight_on"`
		TippingG *float64 `json:"tipping_g"`
	}{r.Card.Title, out, on, tips})
}

func (r *Report) jsonStance() *jsonStance {
	s := r.Stance
	out := &jsonStance{
		Stands: r.StandsAt >= 0, FullOpen: r.StandsAt == len(r.Opening.Poses)-1, Grams: s.Grams, CentreMM: s.Centre,
		FeetMM: [][3]float64{}, MarginMM: s.Margin, TipDeg: s.Tip * 180 / math.Pi, TipsDeg: map[string]float64{},
	}
	for _, f := range s.Feet {
		out.FeetMM = append(out.FeetMM, f)
	}
	by, _ := s.Lean()
	out.LeanDeg = by * 180 / math.Pi
	if !s.Stands() {
		out.FallsWord = s.Falls().String()
		return out
	}
	if r.StandsAt >= 0 { // else it stands, but tips at a touch
		out.Opened = r.opened(r.StandsAt)
	}
	for side, tip := range s.Tips {
		out.TipsDeg[stance.Side(side).String()] = tip * 180 / math.Pi
	}
	return out
}

type jsonStudy struct {
	CutMM    float64      `json:"cut_mm"`
	ScoreMM  float64      `json:"score_mm"`
	Assumed  bool         `json:"assumed"`
	Gaps     []jsonSpread `json:"gaps"`
	WidthMM  jsonSide     `json:"closed_width"`
	HeightMM jsonSide     `json:"closed_height"`
	Fits     *float64     `json:"within_fits"`
	Matters  []jsonShare  `json:"matters"`
	Unjudged []string     `json:"unjudged"`
	Samples  int          `json:"samples"`
}

type jsonSpread struct {
	Joint string  `json:"joint"`
	DX    float64 `json:"dx_sd_mm"`
	DY    float64 `json:"dy_sd_mm"`
	Nine  float64 `json:"nine_in_ten_mm"`
}

type jsonSide struct {
	Mean float64 `json:"mean_mm"`
	SD   float64 `json:"sd_mm"`
	Most float64 `json:"nine_in_ten_mm"`
}

type jsonShare struct {
	What  string  `json:"what"`
	Piece string  `json:"piece"`
	Score int     `json:"score"`
	AtMM  float64 `json:"at_mm"`
	Share float64 `json:"share"`
}

// HandJSON encodes what the errors of a hand do, indented, with a final newline.
func (r *Report) HandJSON() ([]byte, error) {
	return indented(struct {
		Card string `json:"card"`
		*jsonStudy
	}{r.Card.Title, r.jsonStudy()})
}

func (r *Report) jsonStudy() *jsonStudy {
	s := r.Hand
	out := &jsonStudy{
		CutMM: s.Hand.Cut.MM(), ScoreMM: s.Hand.Score.MM(), Assumed: s.Hand == care.Usual(),
		WidthMM: jsonSide(s.Width), HeightMM: jsonSide(s.Height),
		Gaps: []jsonSpread{}, Matters: []jsonShare{}, Unjudged: []string{}, Samples: s.Samples,
	}
	if s.FitsSaid {
		out.Fits = &s.Fits
	}
	for _, g := range s.Gaps {
		out.Gaps = append(out.Gaps, jsonSpread{g.Name, g.DX, g.DY, care.NineInTen * max(g.DX, g.DY)})
	}
	for _, l := range s.Shares {
		out.Matters = append(out.Matters, jsonShare{l.Name(r.Card), r.Card.Pieces[l.Piece].Name, l.Score, l.At.MM(), l.Share})
	}
	for _, l := range s.Unjudged {
		out.Unjudged = append(out.Unjudged, l.Name(r.Card))
	}
	return out
}
