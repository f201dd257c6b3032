package spring

import (
	"bytes"
	_ "embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"foldwright/problem"
)

//go:embed data/mechanics.csv
var builtIn []byte

// Range is a number of which only a range is known. Low <= Typical <= High.
type Range struct{ Low, Typical, High float64 }

// Assumed is one quantity as it is taken where nobody measured it.
type Assumed struct {
	Range
	// Unit is that of the table; Status says how sure the row is, Source where it comes from ("none" where nowhere).
	Unit, Status, Note, Source string
	Where                      problem.Place
}

// Assumptions is what is taken of card stock where nobody measured it.
type Assumptions struct{ rows map[string]Assumed }

// The quantities that a table of assumptions holds, each with its unit.
func quantities() [][2]string {
	return [][2]string{
		{"modulus-along", "GPa"}, {"modulus-across", "GPa"}, {"crease-length", "calipers"},
		{"rest", "deg"}, {"rest-barely", "deg"}, {"rest-hard", "deg"}, {"scored", "deg"},
	}
}

// Assume reads the built-in table. Problems: only if the program was built from a broken table.
func Assume() (*Assumptions, problem.List) { return ReadAssumptions("mechanics.csv", builtIn) }

// Of returns one quantity of the table by its name, such as "rest-hard"; ok is false where there is none.
func (a *Assumptions) Of(quantity string) (Assumed, bool) {
	q, ok := a.rows[quantity]
	return q, ok
}

const columns = "quantity,low,typical,high,unit,status,note,source"

// ReadAssumptions reads a table of assumptions (CSV, remarks with #): the built-in one, or one that somebody has edited.
// The result is nil where there is a problem.
//
// Problems: table-row (cannot be read, or the wrong columns), table-cell (a number or a unit), table-name (a quantity
// unknown, twice, or not there).
func ReadAssumptions(file string, text []byte) (*Assumptions, problem.List) {
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	var probs problem.List
	header, err := r.Read()
	if err != nil || strings.Join(header, ",") != columns {
		probs.Add(problem.Problem{Rule: "table-row", Where: problem.Place{File: file, Line: 1, Column: 1}, What: "the table does not start with its columns", Needs: columns})
		return nil, probs
	}
	a := &Assumptions{rows: map[string]Assumed{}}
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			probs.Add(problem.Problem{Rule: "table-row", Where: problem.Place{File: file}, What: fmt.Sprintf("the table cannot be read on: %v", err), Needs: columns})
			break
		}
		line, _ := r.FieldPos(0)
		probs = append(probs, a.add(problem.Place{File: file, Line: line, Column: 1}, record)...)
	}
	for _, q := range quantities() {
		if _, ok := a.rows[q[0]]; !ok && !probs.HasErrors() {
			probs.Add(problem.Problem{Rule: "table-name", Where: problem.Place{File: file}, What: "the quantity " + q[0] + " is not there", Needs: "a row for each quantity"})
		}
	}
	if len(probs) > 0 {
		return nil, probs.Sorted()
	}
	return a, nil
}

// add reads one row.
func (a *Assumptions) add(where problem.Place, record []string) problem.List {
	var probs problem.List
	report := func(rule, what, needs string) {
		probs.Add(problem.Problem{Rule: rule, Where: where, What: what, Needs: needs})
	}
	name := record[0]
	var names []string
	unit := ""
	for _, q := range quantities() {
		names = append(names, q[0])
		if q[0] == name {
			unit = q[1]
		}
	}
	if _, twice := a.rows[name]; twice || unit == "" {
		report("table-name", fmt.Sprintf("the quantity %q is unknown or there twice", name), "once each: "+strings.Join(names, ", "))
		return probs
	}
	if record[4] != unit {
		report("table-cell", fmt.Sprintf("the unit is %q", record[4]), unit)
	}
	var v [3]float64
	for i := range v {
		f, err := strconv.ParseFloat(record[1+i], 64)
		if err != nil || !(f >= 0 && f <= 1e6) { // written so that NaN is refused
			report("table-cell", fmt.Sprintf("the number is %q", record[1+i]), "from 0 to 1000000")
		}
		v[i] = f
	}
	if len(probs) > 0 {
		return probs
	}
	angle := unit == "deg"
	if !(v[0] <= v[1] && v[1] <= v[2]) || angle && v[2] > 180 || !angle && v[0] == 0 {
		report("table-cell", fmt.Sprintf("low, typical and high are %g, %g and %g", v[0], v[1], v[2]),
			"numbers that ascend: angles up to 180 deg, all others above 0")
	}
	a.rows[name] = Assumed{Range: Range{v[0], v[1], v[2]}, Unit: unit, Status: record[5], Note: record[6], Source: record[7], Where: where}
	return probs
}

// PlateStiffness returns the bending stiffness per width, E t³/12 in mN·m, of a sheet of one material, from its modulus in
// GPa and its caliper in millimetres. A board of several plies is stiffer than its modulus in tension says, so a value that
// was measured goes before it. Source: any text on plates, without the factor 1 - ν², as tests on strips report it.
func PlateStiffness(modulus, caliper float64) float64 {
	const mNmPerGPaMM3 = 1000 // 1 GPa mm³ = 1e9 · 1e-9 N·m = 1000 mN·m
	return modulus * math.Pow(caliper, 3) / 12 * mNmPerGPaMM3
}
