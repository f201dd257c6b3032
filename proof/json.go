package proof

import (
	"encoding/json"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/problem"
)

// The shape of a report as JSON. Names are a promise: they are added to, never changed. Lengths are millimetres at full
// precision; lists are never null.

type jsonReport struct {
	Card     string        `json:"card"`
	File     string        `json:"file,omitempty"`
	Proven   bool          `json:"proven"`
	Stopped  bool          `json:"stopped"`
	Unit     string        `json:"unit"`
	Closed   jsonClosed    `json:"closed"`
	Open     jsonOpen      `json:"open"`
	Spring   *jsonSpring   `json:"spring,omitempty"`
	Envelope string        `json:"envelope,omitempty"`
	Stands   *jsonStance   `json:"stands,omitempty"`
	Hand     *jsonStudy    `json:"hand,omitempty"`
	Problems []jsonProblem `json:"problems"`
}

type jsonClosed struct {
	LiesFlat    bool             `json:"lies_flat"`
	WidthMM     float64          `json:"width_mm"`
	HeightMM    float64          `json:"height_mm"`
	Folded      map[string][]int `json:"folded"`
	Gaps        []jsonGap        `json:"gaps"`
	ThicknessMM float64          `json:"thickness_mm"`
	OrderOK     bool             `json:"order_ok"`
	Peeks       []jsonPeek       `json:"peeks"`
	// With toppers and mats.
	OutlineWidthMM  float64     `json:"outline_width_mm"`
	OutlineHeightMM float64     `json:"outline_height_mm"`
	Thickest        []string    `json:"thickest"`
	Also            []jsonOther `json:"also"`
	Cures           []jsonCure  `json:"cures"`
}

type jsonSpring struct {
	Feel          string  `json:"feel"`
	Almost        bool    `json:"almost_too_strong"`
	DepthMM       float64 `json:"depth_mm"`
	HoldShutN     float64 `json:"hold_shut_N"`
	OpensByItself bool    `json:"opens_by_itself"`
}

type jsonGap struct {
	Joint string     `json:"joint"`
	DXMM  float64    `json:"dx_mm"`
	DYMM  float64    `json:"dy_mm"`
	Cures []jsonCure `json:"cures"`
}

type jsonCure struct {
	What   string  `json:"what"`
	Piece  string  `json:"piece"`
	Score  int     `json:"score"`
	FromMM float64 `json:"from_mm"`
	ToMM   float64 `json:"to_mm"`
	Kind   string  `json:"kind"`
	Panel  string  `json:"panel,omitempty"`
	Glue   string  `json:"glue,omitempty"`
	Axis   string  `json:"axis,omitempty"`
}

type jsonPeek struct {
	Piece string  `json:"piece"`
	Side  string  `json:"side"`
	ByMM  float64 `json:"by_mm"`
}

type jsonOther struct {
	WidthMM  float64          `json:"width_mm"`
	HeightMM float64          `json:"height_mm"`
	Folded   map[string][]int `json:"folded"`
}

type jsonOpen struct {
	Opens       bool           `json:"opens"`
	Freedom     int            `json:"freedom"`
	LoopErrorMM float64        `json:"loop_error_mm"`
	WidthMM     float64        `json:"width_mm"`
	DepthMM     float64        `json:"depth_mm"`
	HeightMM    float64        `json:"height_mm"`
	Driver      string         `json:"driver,omitempty"`
	Poses       int            `json:"poses"`
	Crossings   []jsonCrossing `json:"crossings"`
}

type jsonCrossing struct {
	A    string `json:"a"`
	B    string `json:"b"`
	Pose int    `json:"pose"`
}

type jsonProblem struct {
	Rule     string     `json:"rule"`
	Severity string     `json:"severity"`
	Line     int        `json:"line"`
	Column   int        `json:"column"`
	What     string     `json:"what"`
	Needs    string     `json:"needs"`
	Try      string     `json:"try"`
	Notes    []jsonNote `json:"notes,omitempty"`
}

type jsonNote struct {
	Line   int    `json:"line"`
	Column int    `json:"column"`
	What   string `json:"what"`
}

// JSON encodes the report, indented, with a final newline.
func (r *Report) JSON() ([]byte, error) {
	out := jsonReport{
		File: r.File, Proven: r.Proven(), Stopped: r.Stopped,
		Closed:   jsonClosed{Folded: map[string][]int{}, Gaps: []jsonGap{}, Peeks: []jsonPeek{}, Thickest: []string{}, Also: []jsonOther{}, Cures: []jsonCure{}},
		Open:     jsonOpen{Crossings: []jsonCrossing{}},
		Problems: []jsonProblem{},
	}
	if r.Card != nil {
		out.Card, out.Unit = r.Card.Title, r.Card.Unit.String()
	}
	if r.Closed != nil {
		r.jsonClosed(&out.Closed)
	}
	if r.Opening != nil {
		r.jsonOpen(&out.Open)
	}
	if s := r.Spring; s != nil && s.Rest.Found {
		out.Spring = &jsonSpring{s.Felt.Feel.String(), s.Felt.Almost, s.Rest.Standing.Depth, s.Push.HoldShut, s.Push.ByItself}
	}
	if r.Seat != nil {
		out.Envelope = r.Seat.Envelope.Name
	}
	if r.Stance != nil {
		out.Stands = r.jsonStance()
	}
	if r.Hand != nil {
		out.Hand = r.jsonStudy()
	}
	for _, p := range r.Problems {
		out.Problems = append(out.Problems, jsonProblemOf(p))
	}
	return indented(out)
}

func indented(v any) ([]byte, error) {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return nil, err
	}
	return append(text, '\n'), nil
}

func jsonProblemOf(p problem.Problem) jsonProblem {
	j := jsonProblem{
		Rule: p.Rule, Severity: p.Severity.String(), Line: p.Where.Line, Column: p.Where.Column,
		What: p.What, Needs: p.Needs, Try: p.Try,
	}
	for _, n := range p.Notes {
		j.Notes = append(j.Notes, jsonNote{n.Where.Line, n.Where.Column, n.What})
	}
	return j
}

func (r *Report) jsonClosed(j *jsonClosed) {
	c := r.Closed
	j.LiesFlat, j.OrderOK = c.LiesFlat(), c.OrderOK
	folded := c.Folded
	if folded == nil && r.Miss != nil {
		folded = r.Miss.Folded
	}
	j.Folded = r.Folded(folded)
	j.WidthMM, j.HeightMM = c.Box.W().MM(), c.Box.H().MM()
	if r.Miss != nil {
		for _, cure := range r.Miss.Cures {
			j.Cures = append(j.Cures, r.jsonCure(cure))
		}
		for _, g := range r.Miss.Gaps {
			j.Gaps = append(j.Gaps, jsonGap{g.Name, g.DX.MM(), g.DY.MM(), j.Cures})
		}
		if c.Folded == nil {
			j.WidthMM, j.HeightMM = r.Miss.Box.W().MM(), r.Miss.Box.H().MM()
		}
	}
	if !c.LiesFlat() {
		return
	}
	outline := c.Outline()
	j.OutlineWidthMM, j.OutlineHeightMM = outline.W().MM(), outline.H().MM()
	j.ThicknessMM = r.Thickness.Max.MM()
	for _, p := range r.Thickness.Stack {
		j.Thickest = append(j.Thickest, r.Assembly.Panels[p].Ref)
	}
	for _, p := range r.Peeks {
		j.Peeks = append(j.Peeks, jsonPeek{r.Assembly.Copies[p.Copy].Name, p.Side, p.By.MM()})
	}
	for _, o := range r.Others {
		j.Also = append(j.Also, jsonOther{o.Box.W().MM(), o.Box.H().MM(), r.Folded(o.Folded)})
	}
}

// Folded lists, per copy, the numbers of the scores that are folded shut; copies without one have an empty list.
func (r *Report) Folded(folded []bool) map[string][]int {
	out := map[string][]int{}
	if folded == nil {
		return out
	}
	for _, c := range r.Assembly.Copies {
		out[c.Name] = []int{}
	}
	for i, h := range r.Assembly.Hinges {
		if !folded[i] {
			continue
		}
		name := r.Assembly.Copies[h.Copy].Name
		for _, s := range h.Scores {
			if n := len(out[name]); n == 0 || out[name][n-1] != s+1 {
				out[name] = append(out[name], s+1)
			}
		}
	}
	return out
}

func (r *Report) jsonCure(c flat.Cure) jsonCure {
	j := jsonCure{What: r.Say(c), Score: c.Score, FromMM: c.From.MM(), ToMM: c.To.MM(), Kind: c.Kind.String()}
	j.Piece = r.PieceOf(c)
	if c.Kind == flat.ShiftGlue || c.Kind == flat.Reglue {
		g := r.Card.Glues[c.Piece]
		j.Glue = refName(g.A) + " " + g.Joint.String() + " " + refName(g.B)
	}
	if c.Kind == flat.WidenPanel {
		j.Panel = r.panelLabel(c.Piece, c.Panel)
	}
	if c.Kind != flat.MoveScore && c.Kind != flat.Reglue {
		j.Axis = "across"
		if c.Up {
			j.Axis = "up"
		}
	}
	return j
}

// PieceOf returns the name of the piece that a cure changes, or of the one that it shifts.
func (r *Report) PieceOf(c flat.Cure) string {
	if c.Kind == flat.ShiftGlue || c.Kind == flat.Reglue {
		return r.Card.Glues[c.Piece].A.Piece
	}
	return r.Card.Pieces[c.Piece].Name
}

func (r *Report) jsonOpen(j *jsonOpen) {
	o := r.Opening
	j.Opens, j.Freedom, j.LoopErrorMM = r.Opens(), o.Freedom, o.LoopError()
	j.WidthMM, j.DepthMM, j.HeightMM = o.Width, o.Depth, o.Height
	j.Driver = map[card.OpeningKind]string{
		card.OpensByItself: "itself", card.OpensAt: "score", card.OpensByPulling: "pull", card.OpensUnsaid: "itself",
	}[o.Driver]
	j.Poses = len(o.Poses)
	for _, x := range r.Crossings {
		j.Crossings = append(j.Crossings, jsonCrossing{r.Assembly.Panels[x.A].Ref, r.Assembly.Panels[x.B].Ref, x.Pose})
	}
}
