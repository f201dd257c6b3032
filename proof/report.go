package proof

import (
	"context"

	"foldwright/card"
	"foldwright/care"
	"foldwright/fit"
	"foldwright/flat"
	"foldwright/fold"
	"foldwright/pattern"
	"foldwright/problem"
	"foldwright/recipe"
	"foldwright/stance"
)

// Report is the outcome of proving one card.
type Report struct {
	// File is the name under which the recipe was read.
	File string
	// Recipe and Card are nil where the text could not be read.
	Recipe *recipe.Recipe
	Card   *card.Card
	// Assembly is nil where the pieces are not sound, Closed where there is no assembly, Opening where the card does not lie flat.
	Assembly *pattern.Assembly
	Closed   *flat.Closed
	// Miss explains a card that does not lie flat.
	Miss *flat.Miss
	// Proving says of each cure of Miss whether the card is proven with it; those that it is come first. nil where that was
	// not tried.
	Proving []bool
	// Slips are measurements that look mistaken although the card lies flat.
	Slips []flat.Slip
	// Shrinks are changes after which a card that is too large fits.
	Shrinks   []flat.Cure
	Thickness flat.Thickness
	Peeks     []flat.Peek
	Others    []flat.Alternative
	Opening   *fold.Opening
	Crossings []fold.Crossing
	// Passings are panels that would pass through each other at the very beginning, in whatever layers the card is shut.
	Passings []fold.Passing
	// Stance says how the card stands in the pose StandsAt of its opening, the widest in which it does; StandsAt is -1 where
	// it stands in none, and Stance is then that of the open card. nil where the card was not followed to its end.
	Stance   *stance.Stance
	StandsAt int
	// Seat is how the closed card sits in the best of the published envelopes; nil where none is large enough.
	Seat *fit.Seat
	// Spring says how a card that opens by itself springs; nil for others.
	Spring *Spring
	// Hand says what the errors of a usual hand do to the card.
	Hand *care.Study
	// Stopped says that a limit or the context ended a search.
	Stopped  bool
	Problems problem.List
}

// Proven says whether the card lies flat and opens and nothing is wrong with it. Warnings do not count.
func (r *Report) Proven() bool {
	return !r.Stopped && !r.Problems.HasErrors() && r.Closed != nil && r.Closed.LiesFlat() && r.Opens()
}

// Opens says whether the card was followed from closed to open without panels passing through each other.
func (r *Report) Opens() bool { return r.Followed() && len(r.Crossings) == 0 && len(r.Passings) == 0 }

// Followed says whether the card was followed from closed to open, whatever happened on the way.
func (r *Report) Followed() bool { return r.Opening != nil && r.Opening.Outcome == fold.Opens }

// Poses is how many poses a proof follows from closed to open.
const Poses = 60

// Prove reads a recipe and runs every check on it. file names the text in messages.
//
// Errors of the person who wrote the card come as Report.Problems. The context may end the work early; the report then
// holds what was found and Stopped is set.
func Prove(ctx context.Context, file string, text []byte) *Report {
	return prove(ctx, file, text, true)
}

// ProveBare comes to the same verdict as Prove, in about half the time: it leaves out how thick the
// card is, what peeks out, how else it would lie flat,
// which measurements look mistaken, how it stands and what the errors of a hand do to it.
func ProveBare(ctx context.Context, file string, text []byte) *Report {
	return prove(ctx, file, text, false)
}

func prove(ctx context.Context, file string, text []byte, remarks bool) *Report {
	r := &Report{File: file}
	r.Recipe, r.Problems = recipe.Parse(file, text)
	if r.Recipe != nil {
		r.Card = r.Recipe.Card()
		if !r.Problems.HasErrors() {
			r.check(ctx, remarks)
		}
	}
	r.Problems = r.Problems.Sorted()
	return r
}

// ProveFlat reads a recipe and finds out only whether the card lies flat: much quicker than Prove, which also opens it.
func ProveFlat(ctx context.Context, file string, text []byte) *Report {
	r := &Report{File: file}
	r.Recipe, r.Problems = recipe.Parse(file, text)
	if r.Recipe == nil || r.Problems.HasErrors() {
		return r
	}
	r.Card = r.Recipe.Card()
	if r.assemble() && !r.close(ctx) {
		r.explain(ctx, false)
		r.notFlat()
	}
	r.Problems = r.Problems.Sorted()
	return r
}

// Check runs every check on a card that was made without a recipe.
func Check(ctx context.Context, c *card.Card) *Report {
	r := &Report{Card: c, Problems: card.Check(c)}
	if !r.Problems.HasErrors() {
		r.check(ctx, true)
	}
	r.Problems = r.Problems.Sorted()
	return r
}

func (r *Report) check(ctx context.Context, remarks bool) {
	if !r.assemble() || !r.driverFolds() {
		return
	}
	if !r.close(ctx) {
		r.explain(ctx, remarks)
		r.notFlat()
		return
	}
	if remarks {
		r.Thickness = r.Closed.Thickness()
		r.Peeks = r.Closed.Peeks()
		r.Others = r.Closed.Alternatives(ctx, 3)
		r.Slips = r.Closed.Slips(ctx)
	}
	r.flatFindings(ctx)
	r.open(ctx)
	if remarks && r.Opens() {
		r.stand(ctx)
	}
}

// assemble puts the pieces together, and says whether they are sound.
func (r *Report) assemble() bool {
	var found problem.List
	r.Assembly, found = pattern.Assemble(r.Card)
	r.Problems = append(r.Problems, found...)
	return r.Assembly != nil
}

// close folds the card shut, and says whether it lies flat.
func (r *Report) close(ctx context.Context) bool {
	r.Closed = flat.Close(ctx, r.Assembly)
	r.Stopped = r.Closed.Status == flat.StoppedEarly
	return r.Closed.LiesFlat()
}

// open follows the card from closed to open.
func (r *Report) open(ctx context.Context) {
	m := fold.New(r.Closed)
	r.Opening = m.Path(ctx, Poses)
	if r.Opening.Outcome == fold.Stopped {
		r.Stopped = true
		return
	}
	r.Crossings = m.Crossings(ctx, r.Opening)
	r.reorder(m)
	r.openFindings()
	r.Stopped = r.Stopped || ctx.Err() != nil
}

// reorder makes the layer order of the closed card agree with the way that it opens, and keeps the panels for which that
// cannot be.
func (r *Report) reorder(m *fold.Model) {
	var front [][2]int
	for range 4 {
		passings := m.Passings(r.Closed, r.Opening)
		if r.Passings = passings; len(passings) == 0 {
			return
		}
		for _, p := range passings {
			front = append(front, [2]int{p.Front, p.Behind})
		}
		other := r.Closed.Reorder(front)
		if other == nil {
			return
		}
		r.Closed = other
	}
}
