package resize

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	catalogue "foldwright/forms"
	"foldwright/length"

	"pgregory.net/rapid"
)

// The second opinion comes from HiGHS, a solver for mixed-integer linear programs (npm package highs 1.15.3, MIT, on
// WebAssembly): see testdata/milp. It shares no code and no method with this package.

// milp is a model: whole numbers x, linear rows, and the sum of the squares of (x - wish) over its measures.
type milp struct {
	rows     []string // "r: 2 x0 - x1 >= 3" without the name
	n        int      // whole numbers x0 … x(n-1)
	measures []milpMeasure
}

// milpMeasure is a measure row · x + at that is wished to be wish.
type milpMeasure struct {
	row  []int64
	at   int64
	wish float64
}

// text writes the model. The square of every measure is bounded from below by its secants between neighbouring whole
// numbers, which are exact there; beyond reach whole numbers on each side of the wish they are only a bound.
func (m *milp) text(reach int) string {
	b := &strings.Builder{}
	b.WriteString("Minimize\n cost:")
	for k := range m.measures {
		fmt.Fprintf(b, " + c%d", k)
	}
	b.WriteString("\nSubject To\n")
	for i, r := range m.rows {
		fmt.Fprintf(b, " r%d: %s\n", i, r)
	}
	for k, f := range m.measures {
		fmt.Fprintf(b, " m%d: d%d%s = %d\n", k, k, linearText(f.row, -1), f.at)
		low := int(math.Floor(f.wish)) - reach
		for j := low; j <= low+2*reach; j++ {
			// Through (j, (j-w)²) and (j+1, (j+1-w)²): slope s = 2(j-w)+1, so c >= s d + (j-w)² - s j.
			e := float64(j) - f.wish
			s := 2*e + 1
			fmt.Fprintf(b, " s%d_%d: c%d - %.17g d%d >= %.17g\n", k, j-low, k, s, k, e*e-s*float64(j))
		}
	}
	b.WriteString("Bounds\n")
	for i := range m.n {
		fmt.Fprintf(b, " x%d free\n", i)
	}
	for k := range m.measures {
		fmt.Fprintf(b, " d%d free\n", k)
	}
	b.WriteString("Generals\n")
	for i := range m.n {
		fmt.Fprintf(b, " x%d\n", i)
	}
	b.WriteString("End\n")
	return b.String()
}

func linearText(row []int64, times int64) string {
	b := &strings.Builder{}
	for i, v := range row {
		if v != 0 {
			fmt.Fprintf(b, " %+d x%d", v*times, i)
		}
	}
	return b.String()
}

// within says whether an answer lies where the secants are exact.
func (m *milp) within(a milpAnswer, reach int) bool {
	for k, f := range m.measures {
		if math.Abs(a.Columns[fmt.Sprintf("d%d", k)]-f.wish) > float64(reach)-1 {
			return false
		}
	}
	return true
}

// cost works out the cost of an answer from its whole numbers.
func (m *milp) cost(a milpAnswer) float64 {
	sum := 0.0
	for _, f := range m.measures {
		v := float64(f.at)
		for i, r := range f.row {
			v += float64(r) * math.Round(a.Columns[fmt.Sprintf("x%d", i)])
		}
		sum += (v - f.wish) * (v - f.wish)
	}
	return sum
}

// modelOf writes the conditions of this package as a model: the search is checked, not the conditions (TestBrute does
// those, and the model of the stand below).
func modelOf(p *conditions, use func(group int) bool) *milp {
	m := &milp{n: p.n}
	for _, l := range p.lines {
		if !use(l.group) {
			continue
		}
		text := linearText(l.row, 1)
		if text == "" {
			text = " 0 x0"
		}
		relation := ">="
		if l.equal {
			relation = "="
		}
		m.rows = append(m.rows, fmt.Sprintf("%s %s %d", text, relation, l.at))
	}
	b := &branch{p: p, use: use}
	kept := b.kept()
	for k, f := range p.s.measures {
		if !kept[k] {
			m.measures = append(m.measures, milpMeasure{row: p.basis[k], wish: f.wish})
		}
	}
	return m
}

// standModel is the model of the six-sided stand, written down from the card and not from this package. Its whole numbers
// are side, front, wall height, slope, leaf and spring height; the three tabs are kept.
//
// The walls are side-front-side twice, so the closed card is 2 side + front wide; the roof is as wide as the front and
// its slope stands above the wall, so it is wall + slope high; front and back of the two springs are as wide as the front.
func standModel(c *card.Card, q Request) *milp {
	mark := float64(q.Marks)
	kx, ky := float64(q.To.W)/float64(c.Fits.W)/mark, float64(q.To.H)/float64(c.Fits.H)/mark
	wall, roof, spring := c.Pieces[0], c.Pieces[1], c.Pieces[2]
	side, front := float64(wall.Scores[0].At), float64(wall.Scores[1].At-wall.Scores[0].At)
	foot := roof.Scores[0].At
	slope := float64(roof.Scores[1].At - foot)
	leaf := float64(spring.Scores[1].At - spring.Scores[0].At)
	near := func(l length.Length) int64 {
		n := int64(math.Floor(float64(l)/mark + 0.5))
		return max(n, 1)
	}
	tab, foots, springTab := near(wall.Size.W-wall.Scores[5].At), near(foot), near(spring.Size.W-spring.Scores[9].At)
	w, h := int64(q.To.W/q.Marks), int64(q.To.H/q.Marks)
	m := &milp{n: 6, rows: []string{
		fmt.Sprintf("2 x0 + x1 <= %d", w), fmt.Sprintf("x2 + x3 <= %d", h),
		"x0 >= 1", "x1 >= 1", "x2 >= 1", "x3 >= 1", "x4 >= 1", "x5 >= 1",
		fmt.Sprintf("x0 >= %d", tab), fmt.Sprintf("x2 >= %d", foots), fmt.Sprintf("x1 >= %d", springTab),
		"2 x4 - x1 <= 0", "x5 - x2 <= 0",
	}}
	add := func(x, times int, wish float64) {
		row := make([]int64, 6)
		row[x] = 1
		for range times {
			m.measures = append(m.measures, milpMeasure{row: row, wish: wish})
		}
	}
	add(0, 4, side*kx)
	add(1, 2, front*kx)
	add(2, 1, float64(wall.Size.H)*ky)
	add(1, 1, float64(roof.Size.W)*kx)
	add(3, 2, slope*ky)
	add(1, 2, float64(spring.Scores[0].At)*kx)
	add(4, 8, leaf*kx)
	add(5, 1, float64(spring.Size.H)*ky)
	return m
}

type milpQuestion struct {
	ID string `json:"id"`
	LP string `json:"lp"`
}

type milpAnswer struct {
	ID        string             `json:"id"`
	Status    string             `json:"status"`
	Objective *float64           `json:"objective"`
	Columns   map[string]float64 `json:"columns"`
	MS        float64            `json:"ms"`
}

// needMILP skips where the solver is not there; it fails where CI=true.
func needMILP(t testing.TB) {
	t.Helper()
	_, err := exec.LookPath("node")
	why := ""
	switch {
	case err != nil:
		why = "node is not installed"
	default:
		if _, err := os.Stat(filepath.FromSlash("testdata/milp/node_modules/highs")); err != nil {
			why = "its packages are not there; fetch them with: make fetch"
		}
	}
	if why == "" {
		return
	}
	why = "the second opinion on the optimum is not asked for: " + why
	if os.Getenv("CI") == "true" {
		t.Fatal(why)
	}
	t.Skip(why)
}

// solveMILP has all models solved in one run of node.
func solveMILP(t testing.TB, texts []string) []milpAnswer {
	t.Helper()
	var in bytes.Buffer
	for i, lp := range texts {
		line, err := json.Marshal(milpQuestion{fmt.Sprint(i), lp})
		if err != nil {
			t.Fatal(err)
		}
		in.Write(append(line, '\n'))
	}
	cmd := exec.Command("node", "solve.mjs")
	cmd.Dir, cmd.Stdin = filepath.FromSlash("testdata/milp"), &in
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("node: %v\n%s", err, errs.String())
	}
	var answers []milpAnswer
	for line := range strings.Lines(string(out)) {
		var a milpAnswer
		if err := json.Unmarshal([]byte(line), &a); err != nil {
			t.Fatalf("%v: %s", err, line)
		}
		answers = append(answers, a)
	}
	if len(answers) != len(texts) {
		t.Fatalf("%d answers to %d questions\n%s", len(answers), len(texts), errs.String())
	}
	return answers
}

// asked is one question to both solvers.
type asked struct {
	name   string
	model  *milp
	own    answer // of this package, on the same conditions
	result *Result
}

// ask brings a card to a size with this package and writes the model of the conditions that were met.
func ask(t testing.TB, name, text string, q Request) asked {
	t.Helper()
	r, closed := Shut(t, text)
	result, err := Resize(context.Background(), r, closed, q)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	p := conditionsOf(t, closed, q)
	all := func(int) bool { return true }
	return asked{name: name, model: modelOf(p, all), own: p.solve(context.Background(), all, nil), result: result}
}

// conditionsOf builds the conditions as Resize does.
func conditionsOf(t testing.TB, closed *flat.Closed, q Request) *conditions {
	t.Helper()
	s := newSystem(closed, q.Marks)
	old := oldSize(closed)
	s.wishes(float64(q.To.W)/float64(old.W), float64(q.To.H)/float64(old.H))
	p, err := build(context.Background(), s, q.To)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// check compares both answers; what lies beyond the reach of the secants is asked again with a longer one.
func check(t *testing.T, list []asked) {
	t.Helper()
	solved, none := 0, 0
	for reach := 8; len(list) > 0 && reach < 1000; reach *= 4 {
		var texts []string
		for _, a := range list {
			texts = append(texts, a.model.text(reach))
		}
		var again []asked
		for i, got := range solveMILP(t, texts) {
			a := list[i]
			switch {
			case got.Status == "Infeasible":
				none++
				if a.own.status != flat.Contradictory {
					t.Errorf("%s: cost %.9g, but the reference finds no card", a.name, a.own.cost)
				}
			case got.Status != "Optimal":
				t.Errorf("%s: the reference ended with %s", a.name, got.Status)
			case !a.model.within(got, reach):
				again = append(again, a)
			default:
				solved++
				compareMILP(t, a, got)
			}
		}
		list = again
	}
	if len(list) > 0 {
		t.Errorf("%d models were never within reach", len(list))
	}
	t.Logf("the reference agrees on the optimum of %d cards and that %d fit nowhere", solved, none)
}

func compareMILP(t *testing.T, a asked, got milpAnswer) {
	t.Helper()
	cost := a.model.cost(got)
	if math.Abs(cost-*got.Objective) > 1e-5*(1+cost) {
		t.Errorf("%s: the reference says %.9g and costs %.9g", a.name, *got.Objective, cost)
	}
	if a.own.status != flat.Solved || math.Abs(a.own.cost-cost) > 1e-6*(1+cost) {
		t.Errorf("%s: %v, cost %.9g, but the reference has a card for %.9g", a.name, a.own.status, a.own.cost, cost)
	}
	if r := a.result; r != nil && r.Status == flat.Solved && len(r.Released) == 0 && r.CostMarks2 < cost-1e-6*(1+cost) {
		t.Errorf("%s: resized for %.9g, which no card should reach: %.9g", a.name, r.CostMarks2, cost)
	}
}

// formsToSizes brings every form of the catalogue to several sizes, on its own marks.
func formsToSizes(t testing.TB) []asked {
	var list []asked
	for _, name := range catalogue.Names() {
		text, err := catalogue.Text(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, to := range [][2]int{{105, 148}, {150, 150}, {90, 120}, {60, 200}} {
			list = append(list, ask(t, fmt.Sprintf("%s to %d x %d mm", name, to[0], to[1]), string(text), onOwnMarks(t, string(text), to[0], to[1])))
		}
	}
	return list
}

func onOwnMarks(t testing.TB, text string, w, h int) Request {
	r, _ := Shut(t, text)
	q := Millimetres(w, h, 1)
	q.Marks, q.Unit, q.MarksUnit = r.Card().Marks, r.Card().Unit, r.Card().Unit
	return q
}

// TestMILP_forms compares the search with the reference on the whole catalogue.
func TestMILP_forms(t *testing.T) {
	needMILP(t)
	check(t, formsToSizes(t))
}

// TestMILP_generated compares them on cards that were drawn.
func TestMILP_generated(t *testing.T) {
	needMILP(t)
	var list []asked
	cards := rapid.Custom(func(t *rapid.T) *Sample { return Draw(t) })
	for seed := range 60 {
		s := cards.Example(seed)
		_, closed := Shut(t, s.Text(s.Old()))
		w, h := int(closed.Box.W()/length.Millimetre), int(closed.Box.H()/length.Millimetre)
		q := Millimetres(max(4, w*(30+seed)/60), max(4, h*(90-seed)/60), 1+seed%3)
		list = append(list, ask(t, fmt.Sprintf("%s %d", s.Kind, seed), s.Text(s.Old()), q))
	}
	check(t, list)
}

// TestMILP_stand compares Resize with the model that was written down from the card.
func TestMILP_stand(t *testing.T) {
	needMILP(t)
	var list []asked
	for _, name := range []string{"harbour-light", "harbour-light-inches"} {
		text, err := catalogue.Text(name)
		if err != nil {
			t.Fatal(err)
		}
		r, closed := Shut(t, string(text))
		for i := range 20 {
			q := onOwnMarks(t, string(text), 70+7*i, 190-6*i)
			got, err := Resize(context.Background(), r, closed, q)
			if err != nil {
				t.Fatal(err)
			}
			if len(got.Released) > 0 {
				t.Errorf("%s to %v: %v was given up", name, q.To, got.Released)
			}
			list = append(list, asked{
				name: fmt.Sprintf("%s to %v mm", name, q.To), model: standModel(closed.Assembly.Card, q),
				own: answer{status: got.Status, cost: got.CostMarks2},
			})
		}
	}
	check(t, list)
}
