package main

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"foldwright/fit"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/proof"
	"foldwright/stock"
)

// fitCmd says which envelope a card goes into, and how it can be sent.
type fitCmd struct {
	Card      string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	In        []string      `placeholder:"NAME" help:"Only these envelopes, such as C6 or one of your own, with commas between them."`
	Envelopes string        `placeholder:"FILE" help:"Envelopes and boxes of your own: CSV with the columns name, kind, unit, short, long, depth, out_short, out_long, weight."`
	Post      string        `placeholder:"WHO" help:"By which post it goes: an operator or a country, such as Germany or US."`
	Mail      string        `placeholder:"FILE" help:"Mail classes that you have edited, in place of the built-in ones of the same id."`
	Prices    string        `placeholder:"FILE" help:"Your own prices: CSV with the columns class, up_to, price, currency, as_of."`
	Thick     string        `placeholder:"LENGTH" help:"The thickness that you measured of the closed card, pressed as in the post. Unsaid: layers on each other, which is the least it can be."`
	Ornament  []string      `placeholder:"NAME=GRAMS" help:"What is on the card that its recipe does not name, such as shell=2.5."`
	Rigid     bool          `help:"Something on the card does not bend."`
	All       bool          `help:"List all envelopes, also those that are too small."`
	JSON      bool          `name:"json" help:"Answer in JSON; lengths in millimetres, weights in grams."`
	Limit     time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// fitting is all that is known of how a card is sent.
type fitting struct {
	report   *proof.Report
	unit     length.Unit
	block    fit.Block
	packing  fit.Packing
	weight   fit.Weight
	seats    []fit.Seat
	posts    []posted
	problems problem.List
}

// posted is one mail service, and the envelopes in which the card goes by it.
type posted struct {
	ladder stock.Ladder
	ways   []fit.Way
}

// Run ranks envelopes and finds the mail class.
func (c *fitCmd) Run(e *env) error {
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	r, err := e.flat(ctx, c.Card)
	if err != nil {
		return err
	}
	f := &fitting{report: r, unit: r.Card.Unit, block: fit.BlockOf(r.Closed)}
	if c.Thick != "" {
		if f.block.Thick, err = length.Parse(c.Thick, length.MM); err != nil {
			return fail(exitUsage, "%v", err)
		}
		if f.block.Thick <= 0 {
			return fail(exitUsage, "a card of %s is none; say the thickness that you measured", f.block.Thick.Human(length.MM))
		}
	}
	if err := c.work(e, f); err != nil {
		return err
	}
	if c.JSON {
		err = writeJSON(e.stdout, fitJSONOf(f))
	} else {
		err = c.say(&page{w: e.stdout}, f)
	}
	switch {
	case err != nil:
		return err
	case f.problems.HasErrors():
		return &exitError{code: exitProblems}
	}
	return nil
}

// work finds out all there is to say.
func (c *fitCmd) work(e *env, f *fitting) error {
	table, own, prices, err := c.tables(e, f)
	if err != nil {
		return err
	}
	limits := fit.UsualLimits()
	f.packing = fit.Pack(f.block, limits, f.unit)
	if p, ok := fit.Uneven(f.block, limits, f.unit); ok {
		f.problems.Add(p)
	}
	load := fit.Load{}
	for _, o := range c.Ornament {
		name, grams, ok := strings.Cut(o, "=")
		g, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSpace(grams), "g"), 64)
		if !ok || err != nil {
			return fail(exitUsage, "the ornament %q has no weight; write shell=2.5, in grams", o)
		}
		load.Ornaments = append(load.Ornaments, fit.Ornament{Name: name, Grams: g})
	}
	var more problem.List
	f.weight, more = fit.Weigh(f.report.Closed, load)
	f.problems = append(f.problems, more...)
	envelopes, more := fit.Pick(table, own, c.In...)
	f.problems = append(f.problems, more...)
	f.seats, more = fit.Rank(f.block, envelopes, table.Clearances(), f.unit)
	f.problems = append(f.problems, more...)
	if len(c.In) > 0 {
		for _, s := range f.seats {
			if p, small := s.Problem(f.block, f.unit); small {
				f.problems.Add(p)
			}
		}
	}
	if c.Post == "" {
		return nil
	}
	ladders, err := table.LaddersOf(c.Post)
	if err != nil {
		return fail(exitUsage, "%v\n    the tables know %s", err, operators(table))
	}
	sending := fit.Sending{Block: f.block, Weight: f.weight, Rigid: c.Rigid, Limits: limits, Prices: prices, Unit: f.unit}
	for _, l := range ladders {
		f.posts = append(f.posts, posted{l, sending.Ways(f.seats, l)})
	}
	return nil
}

// operators lists the mail operators of the tables.
func operators(t *stock.Table) string {
	var names []string
	for _, l := range t.Ladders() {
		if name := l.Operator + " (" + l.Country + ")"; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}

// tables reads the built-in tables and what a person has of their own. Mistakes in a file of theirs are told, and the rest is
// used all the same.
func (c *fitCmd) tables(e *env, f *fitting) (*stock.Table, []stock.OwnEnvelope, *stock.Prices, error) {
	table, err := stock.Load()
	if err != nil {
		return nil, nil, nil, err
	}
	var own []stock.OwnEnvelope
	var prices *stock.Prices
	for _, file := range []struct {
		path string
		read func(name string, text []byte) problem.List
	}{
		{c.Mail, func(name string, text []byte) (l problem.List) { table, l = table.WithMail(name, text); return l }},
		{c.Envelopes, func(name string, text []byte) (l problem.List) { own, l = stock.ReadOwnEnvelopes(name, text); return l }},
		{c.Prices, func(name string, text []byte) (l problem.List) {
			prices, l = stock.ReadPrices(name, text, table.MailClasses())
			return l
		}},
	} {
		if file.path == "" {
			continue
		}
		text, err := e.read(file.path)
		if err != nil {
			return nil, nil, nil, err
		}
		f.problems = append(f.problems, file.read(nameOf(file.path), text)...)
	}
	return table, own, prices, nil
}

func (c *fitCmd) say(p *page, f *fitting) error {
	b := f.block
	p.line("%s", f.report.Card.Title)
	p.line("  %-9s %s wide, %s high, %s thick, mats and toppers counted", "closed", b.W.Both(f.unit), b.H.Both(f.unit), b.Thick.Human(length.MM))
	p.line("  %-9s %s, for it is %s", "send it", f.packing.Kind, f.packing.Why)
	p.line("  %-9s %.1f g without an envelope; glue is assumed", "weighs", f.weight.Grams())
	sayParts(p, f.weight)
	p.line("")
	shown := 0
	for _, s := range f.seats {
		if s.Grade == fit.TooSmall && !c.All && len(c.In) == 0 {
			continue
		}
		if shown++; shown > fewEnvelopes && !c.All && len(c.In) == 0 {
			p.line("  … and larger ones; --all lists them")
			break
		}
		p.line("  %-32s %s", s.Envelope.Name, s.Words(f.unit))
	}
	savings := fit.Savings(f.report.Closed)
	for _, post := range f.posts {
		p.line("")
		p.line("%s, %s (%s)", post.ladder.Operator, post.ladder.Service, post.ladder.Country)
		if len(post.ways) == 0 {
			p.line("  it goes into none of these envelopes")
			continue
		}
		way := post.ways[0]
		p.line("  in %s: %s by %s, %s thick, %.1f g with the envelope", way.Seat.Envelope.Name, way.Item.Long.Human(f.unit), way.Item.Short.Human(f.unit), way.Item.Thick.Human(length.MM), way.Item.Grams)
		for _, words := range way.Posting.Words(f.unit, savings) {
			p.line("  %s", words)
		}
	}
	if len(f.problems) > 0 {
		p.line("")
	}
	for _, q := range f.problems.Sorted() {
		p.line("%s", q.String())
	}
	return p.err
}

// fewEnvelopes is how many envelopes are listed unless all are asked for.
const fewEnvelopes = 6

// sayParts says what the parts of each kind weigh together.
func sayParts(p *page, w fit.Weight) {
	var words []string
	sum := 0.0
	for i, q := range w {
		sum += q.Grams
		if i == len(w)-1 || w[i+1].Kind != q.Kind {
			words, sum = append(words, fmt.Sprintf("%s %.1f g", q.Kind, sum)), 0
		}
	}
	p.line("  %-9s %s", "", strings.Join(words, ", "))
}

type fitJSON struct {
	Card      string         `json:"card"`
	WidthMM   float64        `json:"width_mm"`
	HeightMM  float64        `json:"height_mm"`
	ThickMM   float64        `json:"thickness_mm"`
	Packing   string         `json:"packing"`
	Why       string         `json:"why"`
	Uneven    bool           `json:"uneven"`
	Grams     float64        `json:"grams"`
	Parts     []weightJSON   `json:"weight"`
	Envelopes []seatJSON     `json:"envelopes"`
	Mail      []mailJSON     `json:"mail"`
	Problems  []problemsJSON `json:"problems"`
}

type weightJSON struct {
	Kind    string  `json:"kind"`
	Name    string  `json:"name"`
	Grams   float64 `json:"grams"`
	Assumed string  `json:"assumed,omitempty"`
}

type seatJSON struct {
	Name     string  `json:"name"`
	Grade    string  `json:"grade"`
	Turned   bool    `json:"turned"`
	AcrossMM float64 `json:"to_spare_across_mm"`
	UpMM     float64 `json:"to_spare_up_mm"`
}

type mailJSON struct {
	Operator string   `json:"operator"`
	Country  string   `json:"country"`
	Service  string   `json:"service"`
	Envelope string   `json:"envelope"`
	Class    string   `json:"class"`
	AsOf     string   `json:"as_of"`
	Grams    float64  `json:"grams"`
	ThickMM  float64  `json:"thickness_mm"`
	Words    []string `json:"words"`
}

func fitJSONOf(f *fitting) fitJSON {
	out := fitJSON{Card: f.report.Card.Title, WidthMM: f.block.W.MM(), HeightMM: f.block.H.MM(), ThickMM: f.block.Thick.MM(),
		Packing: f.packing.Kind.String(), Why: f.packing.Why, Uneven: f.packing.Uneven, Grams: f.weight.Grams(),
		Parts: []weightJSON{}, Envelopes: []seatJSON{}, Mail: []mailJSON{}, Problems: problemsJSONOf(f.problems)}
	for _, p := range f.weight {
		out.Parts = append(out.Parts, weightJSON{p.Kind.String(), p.Name, p.Grams, p.Assumed})
	}
	for _, s := range f.seats {
		out.Envelopes = append(out.Envelopes, seatJSON{s.Envelope.Name, s.Grade.String(), s.Turned, s.Across.MM(), s.Up.MM()})
	}
	savings := fit.Savings(f.report.Closed)
	for _, post := range f.posts {
		j := mailJSON{Operator: post.ladder.Operator, Country: post.ladder.Country, Service: post.ladder.Service, Words: []string{}}
		if len(post.ways) > 0 {
			way := post.ways[0]
			j.Envelope, j.Grams, j.ThickMM, j.Words = way.Seat.Envelope.Name, way.Item.Grams, way.Item.Thick.MM(), way.Posting.Words(f.unit, savings)
			if class, ok := way.Posting.Class(); ok {
				j.Class, j.AsOf = class.Name, class.AsOf
			}
		}
		out.Mail = append(out.Mail, j)
	}
	return out
}
