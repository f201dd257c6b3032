package fit

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"foldwright/length"
	"foldwright/problem"
	"foldwright/stock"
)

// clearanceOf returns the clearance of an envelope's unit: that of its unit, else of any, else none.
func clearanceOf(clearances []stock.Clearance, unit length.Unit) length.Length {
	for _, c := range clearances {
		if c.Unit == unit {
			return c.Room
		}
	}
	for _, c := range clearances {
		if (c.Unit == length.IN) == (unit == length.IN) {
			return c.Room
		}
	}
	return 0
}

// Rank says how a card sits in each envelope, the best first: those in which it sits easily, the smallest first; then the
// snug ones; then those that are too small, by how much.
//
// Problems: block-size, for a card without a size, and then no seats; envelope-size, for envelopes that are left out;
// no-envelope, where none is large enough. Lengths in the words are in unit.
func Rank(b Block, envelopes []Envelope, clearances []stock.Clearance, unit length.Unit) ([]Seat, problem.List) {
	probs := b.check()
	if len(probs) > 0 {
		return nil, probs
	}
	var seats []Seat
	for _, e := range envelopes {
		if wrong := e.check(); len(wrong) > 0 {
			probs = append(probs, wrong...)
			continue
		}
		seats = append(seats, Into(b, e, clearanceOf(clearances, e.Unit)))
	}
	slices.SortStableFunc(seats, compareSeats)
	if len(seats) > 0 && seats[0].Grade == TooSmall {
		p, _ := seats[0].Problem(b, unit)
		p.Rule, p.Where = "no-envelope", problem.Place{}
		p.What = fmt.Sprintf("no envelope is large enough; the nearest is %s, %s", seats[0].Envelope.Name, seats[0].playWords(unit))
		p.Try = "give the inside size of an envelope of your own, or make a box"
		probs.Add(p)
	}
	return seats, probs
}

func compareSeats(a, b Seat) int {
	if a.Grade != b.Grade {
		return cmp.Compare(a.Grade, b.Grade)
	}
	if a.Grade == TooSmall {
		return cmp.Compare(b.Tightest(), a.Tightest())
	}
	area := func(s Seat) float64 { return s.Envelope.Short.MM() * s.Envelope.Long.MM() }
	return cmp.Or(cmp.Compare(area(a), area(b)), cmp.Compare(b.Tightest(), a.Tightest()))
}

// Pick returns the envelopes that a person names: own ones by their names, else those of the tables; no names mean all.
//
// Problems: unknown-envelope, with the name most likely meant.
func Pick(table *stock.Table, own []stock.OwnEnvelope, names ...string) ([]Envelope, problem.List) {
	var out []Envelope
	if len(names) == 0 {
		for _, e := range own {
			out = append(out, Own(e))
		}
		for _, e := range table.Envelopes() {
			out = append(out, Standard(e))
		}
		return out, nil
	}
	var probs problem.List
	for _, name := range names {
		if i := slices.IndexFunc(own, func(e stock.OwnEnvelope) bool { return strings.EqualFold(e.Name, strings.TrimSpace(name)) }); i >= 0 {
			out = append(out, Own(own[i]))
			continue
		}
		e, err := table.Envelope(name)
		if err != nil {
			probs.Add(unknownEnvelope(name, own, err))
			continue
		}
		out = append(out, Standard(e))
	}
	return out, probs
}

// unknownEnvelope says that a name is that of no envelope; what the tables say of it goes before a name of the person's own
// that comes near.
func unknownEnvelope(name string, own []stock.OwnEnvelope, err error) problem.Problem {
	p := problem.Problem{Rule: "unknown-envelope", What: err.Error(), Needs: "the name of an envelope of the tables, such as C6, DL or A7, or of your own"}
	var u *stock.UnknownError
	if errors.As(err, &u) && u.Near == "" && u.Elsewhere == "" {
		var names []string
		for _, e := range own {
			names = append(names, e.Name)
		}
		if near, ok := problem.Suggest(name, names); ok {
			p.What += fmt.Sprintf("; did you mean your own %q?", near)
		}
	}
	return p
}
