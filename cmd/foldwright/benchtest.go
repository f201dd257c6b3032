package main

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/recipe"
	"foldwright/spring"
)

// benchTestCmd holds the two tests that give a stock its own numbers.
type benchTestCmd struct {
	Droop droopCmd `cmd:"" help:"How stiff a stock is: a strip that droops over the edge of a table. Without readings: how it is done."`
	Fold  foldCmd  `cmd:"" help:"How springy a fold is: a known weight on a folded strip. Without readings: how it is done."`
}

// into is where a measured value goes: the stock line of a recipe.
type into struct {
	Card  string `placeholder:"FILE" predictor:"card" help:"The recipe into whose stock line the result goes."`
	Stock string `placeholder:"NAME" help:"Which stock of that recipe was measured."`
	Write bool   `short:"w" help:"Write the result into the recipe; otherwise the line is only shown."`
	JSON  bool   `name:"json" help:"Answer in JSON."`
}

type droopCmd struct {
	Overhang string   `placeholder:"LENGTH" help:"How far the strip juts out over the edge, such as 200mm."`
	Drop     []string `placeholder:"LENGTH" help:"How far its tip hangs below the table top; best two, one with either face up: 55mm,57mm."`
	GSM      float64  `name:"gsm" placeholder:"GSM" help:"The grammage of the stock. Unsaid: that of the recipe's stock."`
	into
}

const droopGuide = `How stiff a stock is

  1. Cut a strip about 30 mm wide, as long as the sheet, in the direction in which the card will bend: across the folds.
  2. Lay it on a table with a straight edge, one end jutting out, and weigh down the part on the table right up to the edge
     with a ruler. %s
  3. Read how far it juts out, and how far the tip hangs below the top of the table.
  4. Turn it over, so that the other face is up, and read the drop again: a sheet is seldom quite flat.
  5. foldwright bench-test droop --overhang 200mm --drop 55mm,57mm --gsm 270

  A drop of 5 to 70 %% of what juts out is read well. Cut both ways of the grain if the sheet is to be used both ways: along
  the grain a stock is about twice as stiff. Let the strip lie in the room for an hour first; damp card is softer.
  Blades cut fingers too: keep them behind the ruler or the guard, and do as the maker of knife or trimmer says.
`

// Run works out the stiffness of a stock.
func (c *droopCmd) Run(e *env) error {
	stock, text, err := c.into.find(e)
	if err != nil {
		return err
	}
	gsm := c.GSM
	if gsm == 0 && stock != nil {
		gsm = stock.Grammage
	}
	if c.Overhang == "" && len(c.Drop) == 0 {
		advice := "For a stock of 270 gsm let 200 mm jut out."
		if stock != nil {
			advice = fmt.Sprintf("For %s let %s jut out.", stock.Name, overhangFor(stock).Human(length.MM))
		}
		_, err := fmt.Fprintf(e.stdout, droopGuide, advice)
		return err
	}
	test := spring.DroopTest{OverhangError: spring.ReadOverhang, DropError: spring.ReadDrop, Grammage: gsm, GrammageShare: spring.ReadGrammage}
	if err := readLengths([]string{c.Overhang}, "--overhang", &test.Overhang); err != nil {
		return err
	}
	for _, d := range c.Drop {
		var l length.Length
		if err := readLengths([]string{d}, "--drop", &l); err != nil {
			return err
		}
		test.Drops = append(test.Drops, l)
	}
	out, problems := test.Stiffness()
	if len(problems) > 0 {
		e.complain(problems)
		return &exitError{code: exitProblems}
	}
	b := rounded(out.Stiffness)
	if err := c.into.put(e, text, card.Stock{StiffnessMilliNm: card.Number{Value: b, Given: true}}); err != nil {
		return err
	}
	if c.JSON {
		return writeJSON(e.stdout, map[string]any{
			"stiffness_mNm": out.Stiffness.Value, "spread_mNm": out.Stiffness.Spread, "classic_mNm": out.Classic,
			"bending_length_mm": out.Length.Value, "chord_deg": out.Chord * 180 / math.Pi, "words": fmt.Sprintf("stiffness %g mN.m", b),
		})
	}
	p := &page{w: e.stdout}
	p.line("bending stiffness   %s mN.m, give or take %s (one standard deviation, %.0f %%)", three(out.Stiffness.Value), three(out.Stiffness.Spread), 100*out.Stiffness.Share())
	p.line("bending length      %.0f mm; the strip hung at %.0f degrees", out.Length.Value, out.Chord*180/math.Pi)
	p.line("classic formula     %s mN.m (Peirce 1930, for comparison: too large where the strip hangs far)", three(out.Classic))
	p.line("in the stock line   stiffness %g mN.m", b)
	c.into.told(p)
	return p.err
}

func overhangFor(s *card.Stock) length.Length {
	a, problems := spring.Assume()
	if problems.HasErrors() {
		return 200 * length.Millimetre
	}
	return spring.GoodOverhang(s.Grammage, a.Mechanics(s).Along.Typical)
}

type foldCmd struct {
	Flap   string  `placeholder:"LENGTH" help:"From the fold to the free edge, such as 40mm; both halves alike."`
	Width  string  `placeholder:"LENGTH" help:"How long the fold is, such as 60mm."`
	Alone  string  `placeholder:"LENGTH" help:"How far the free edges stand apart without the weight."`
	Loaded string  `placeholder:"LENGTH" help:"How far they stand apart with the weight."`
	Weight float64 `placeholder:"GRAMS" help:"What the weight weighs."`
	Arm    string  `placeholder:"LENGTH" help:"From the fold to the middle of the weight."`
	GSM    float64 `name:"gsm" placeholder:"GSM" help:"The grammage of the stock. Unsaid: that of the recipe's stock."`
	into
}

const foldGuide = `How springy a fold is

  1. Cut a strip 60 mm wide and 80 mm long, score it across the middle, and fold it as you fold your cards: pressed as hard,
     with the same tool. Let it rest for ten minutes; a fresh fold still opens.
  2. Lay it on the table like a half-open book, the lower half held down. Read in a straight line how far the two free edges
     stand apart.
  3. Put a known weight on the upper half, near its free edge, and read again. It should press the fold about as far as the
     closing card does, and not flat.
  4. foldwright bench-test fold --flap 40mm --width 60mm --alone 35mm --loaded 22mm --weight 2.3 --arm 32mm --gsm 270

  Coins vary: weigh yours, or look up what its mint says, and take a new one. Coins are small parts, not for small children.
  Blades cut fingers too: keep them behind the ruler or the guard, and do as the maker of knife or trimmer says.
`

// Run works out how springy a fold is.
func (c *foldCmd) Run(e *env) error {
	stock, text, err := c.into.find(e)
	if err != nil {
		return err
	}
	gsm := c.GSM
	if gsm == 0 && stock != nil {
		gsm = stock.Grammage
	}
	said := []string{c.Flap, c.Width, c.Alone, c.Loaded, c.Arm}
	if strings.Join(said, "") == "" && c.Weight == 0 {
		_, err := io.WriteString(e.stdout, foldGuide)
		return err
	}
	test := spring.FlapTest{FlapError: spring.ReadFlap, GapError: spring.ReadGap, ArmError: spring.ReadFlap,
		Mass: c.Weight, MassShare: spring.ReadMass, Grammage: gsm, GrammageShare: spring.ReadGrammage}
	if err := readLengths(said, "--flap, --width, --alone, --loaded and --arm", &test.Flap, &test.Width, &test.Alone, &test.Loaded, &test.Arm); err != nil {
		return err
	}
	out, problems := test.Crease()
	if len(problems) > 0 {
		e.complain(problems)
		return &exitError{code: exitProblems}
	}
	k, rest := rounded(out.Stiffness), math.Round(out.Rest.Value*180/math.Pi)
	measured := card.Stock{CreaseNPerRad: card.Number{Value: k, Given: true}, RestDeg: card.Number{Value: rest, Given: true}}
	if err := c.into.put(e, text, measured); err != nil {
		return err
	}
	if c.JSON {
		return writeJSON(e.stdout, map[string]any{
			"crease_N_per_rad": out.Stiffness.Value, "crease_spread": out.Stiffness.Spread,
			"rest_deg": out.Rest.Value * 180 / math.Pi, "rest_spread_deg": out.Rest.Spread * 180 / math.Pi,
			"words": fmt.Sprintf("crease %g N/rad, rest %g deg", k, rest),
		})
	}
	p := &page{w: e.stdout}
	p.line("crease              %s N/rad, give or take %s (one standard deviation, %.0f %%)", three(out.Stiffness.Value), three(out.Stiffness.Spread), 100*out.Stiffness.Share())
	p.line("remembers           a fold of %.0f degrees, give or take %.0f (0 is flat, 180 folded shut)", rest, out.Rest.Spread*180/math.Pi)
	p.line("in the stock line   crease %g N/rad, rest %g deg", k, rest)
	c.into.told(p)
	return p.err
}

// find reads the recipe, where one is named, and the stock that was measured.
func (c *into) find(e *env) (*card.Stock, *recipe.Recipe, error) {
	switch {
	case c.Card == "" && (c.Write || c.Stock != ""):
		return nil, nil, fail(exitUsage, "say with --card which recipe is meant")
	case c.Card == "":
		return nil, nil, nil
	case c.Card == "-" && c.Write:
		return nil, nil, fail(exitUsage, "standard input cannot be written back; name a file")
	}
	text, err := e.read(c.Card)
	if err != nil {
		return nil, nil, err
	}
	r, problems := recipe.Read(nameOf(c.Card), text)
	if r == nil {
		e.complain(problems)
		return nil, nil, &exitError{code: exitProblems}
	}
	var names []string
	for i := range r.Card().Stocks {
		s := &r.Card().Stocks[i]
		if s.Name == c.Stock || c.Stock == "" && len(r.Card().Stocks) == 1 {
			return s, r, nil
		}
		names = append(names, s.Name)
	}
	what := fmt.Sprintf("there is no stock %q in this recipe", c.Stock)
	if c.Stock == "" {
		what = "say with --stock which stock was measured"
	} else if near, ok := problem.Suggest(c.Stock, names); ok {
		what += fmt.Sprintf("; did you mean %q?", near)
	}
	return nil, nil, fail(exitUsage, "%s; it has %s", what, strings.Join(names, ", "))
}

// put writes measured values into the recipe where it was told to.
func (c *into) put(e *env, r *recipe.Recipe, measured card.Stock) error {
	if !c.Write {
		return nil
	}
	measured.Name = c.Stock
	if measured.Name == "" {
		measured.Name = r.Card().Stocks[0].Name
	}
	if err := r.SetMeasured(measured); err != nil {
		return err
	}
	return writeFile(c.Card, r.Format())
}

func (c *into) told(p *page) {
	if c.Write {
		p.line("written to %s", c.Card)
	}
}

// readLengths reads lengths that must all be said; bare numbers are millimetres.
func readLengths(said []string, names string, into ...*length.Length) error {
	for i, s := range said {
		if s == "" {
			return fail(exitUsage, "a reading is missing: %s\n    try: without any reading this command says what to cut and what to read", names)
		}
		l, err := length.Parse(s, length.MM)
		if err != nil {
			return fail(exitUsage, "%v", err)
		}
		*into[i] = l
	}
	return nil
}

// rounded rounds a measured value to three digits: its spread is never less.
func rounded(m spring.Measured) float64 {
	v, _ := strconv.ParseFloat(three(m.Value), 64) // what was just printed
	return v
}

func three(v float64) string { return fmt.Sprintf("%.3g", v) }
