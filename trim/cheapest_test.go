package trim

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"foldwright/card"
	"foldwright/internal/check"
	"foldwright/length"
)

// TestCheapest compares with published optima: fewest sheets.
func TestCheapest(t *testing.T) {
	check.Each(t, "testdata/check/fewest_sheets.csv", func(t *testing.T, r check.Row) {
		j := one(t, "testdata/"+r.Text("file"), r.Text("instance"), r.Int("turned") == 1)
		j.Sheets[0].Price = 1
		got, l := Cheapest(context.Background(), j, nil)
		if len(l) != 0 {
			t.Fatal(l)
		}
		a := audited(t, j, got.Plan)
		r.NearColumn("expected_sheets", float64(a.Sheets[0]))
		if got.Value != int64(a.Sheets[0]) || got.Bound != got.Value || got.Status != Optimal {
			t.Errorf("got %d, bound %d, %s", got.Value, got.Bound, got.Status)
		}
	})
}

// TestCheapest_cardMaking: a kit of one card and one of ten; several sizes, an off-cut, half the parts bound to a
// direction.
// The prices are our own of an earlier program with another solver; what is checked is that bound and plan meet there.
func TestCheapest_cardMaking(t *testing.T) {
	for name, want := range map[string]int64{"b1_one_card_in": 110, "b2_ten_cards_in": 1485} {
		j := one(t, "testdata/"+name+".txt", name, false)
		got, l := Cheapest(context.Background(), j, nil)
		if a := audited(t, j, got.Plan); len(l) != 0 || got.Value != want || got.Bound != want || a.Price != want {
			t.Errorf("%s: got %d, bound %d, want %d; %v", name, got.Value, got.Bound, want, l)
		}
	}
}

// TestCheapest_demands: hundreds of every part; the bound of the linear program, rounded up, is reached.
func TestCheapest_demands(t *testing.T) {
	for _, name := range []string{"gcut1d", "gcut5d", "gcut9d"} {
		for _, turned := range []bool{false, true} {
			j := one(t, "testdata/cs_cintra.txt", name, turned)
			j.Sheets[0].Price = 1
			got, l := Cheapest(context.Background(), j, nil)
			if audited(t, j, got.Plan); len(l) != 0 || got.Status != Optimal {
				t.Errorf("%s turned %v: got %d, bound %d; %v", name, turned, got.Value, got.Bound, l)
			}
		}
	}
}

// bruteSheets is the least price of left out of the sheets, or -1, by trying every share of the parts for the next sheet.
func bruteSheets(memo map[[5]int]int64, fit func(s int, share [3]int) bool, j Job, left [3]int, have [2]int) int64 {
	if left == [3]int{} {
		return 0
	}
	key := [5]int{left[0], left[1], left[2], have[0], have[1]}
	if v, ok := memo[key]; ok {
		return v
	}
	best := int64(-1)
	for s := range j.Sheets {
		if have[s] == 0 {
			continue
		}
		for n := 1; n < 27; n++ {
			share := [3]int{n % 3, n / 3 % 3, n / 9}
			rest, ok := left, true
			for i := range rest {
				rest[i] -= share[i]
				ok = ok && rest[i] >= 0
			}
			if !ok || !fit(s, share) {
				continue
			}
			then := have
			then[s]--
			if v := bruteSheets(memo, fit, j, rest, then); v >= 0 && (best < 0 || v+j.Sheets[s].Price < best) {
				best = v + j.Sheets[s].Price
			}
		}
	}
	memo[key] = best
	return best
}

// TestCheapest_brute. Property 4: plans are right, never dearer than the bound says is possible, and the bound never
// above the price of brute
// force; where the plan is called optimal it costs the same; where brute force finds none there is none.
func TestCheapest_brute(t *testing.T) {
	optimal := 0
	rapid.Check(t, func(t *rapid.T) {
		j := Job{Sheets: []Sheet{drawSheet(t), drawSheet(t)}, Parts: drawParts(t, 2)}
		have := [2]int{}
		for i := range j.Sheets {
			j.Sheets[i].Price = int64(rapid.IntRange(0, 30).Draw(t, "price"))
			have[i] = rapid.IntRange(1, 6).Draw(t, "quantity")
			j.Sheets[i].Quantity = have[i]
		}
		left := [3]int{}
		for i := range j.Parts {
			left[i] = rapid.IntRange(0, 2).Draw(t, "count")
			j.Parts[i].Count = left[i]
		}
		if len(j.Check()) != 0 {
			t.Skip("a part comes out of no sheet")
		}
		fits := map[[4]int]bool{}
		memos := [2]map[[6]int]int64{{}, {}}
		ones := append([]Part(nil), j.Parts...)
		for i := range ones {
			ones[i].Value = 1
		}
		fit := func(s int, n [3]int) bool {
			key := [4]int{s, n[0], n[1], n[2]}
			if v, ok := fits[key]; ok {
				return v
			}
			v := brute(memos[s], j.Sheets[s], ones, int(j.Sheets[s].W/mm), int(j.Sheets[s].H/mm), n) == int64(n[0]+n[1]+n[2])
			fits[key] = v
			return v
		}
		want := bruteSheets(map[[5]int]int64{}, fit, j, left, have)
		r, l := Cheapest(context.Background(), j, nil)
		if r.Bound > want && want >= 0 {
			t.Fatalf("property 4: bound %d, brute force %d", r.Bound, want)
		}
		if len(l) != 0 {
			if want >= 0 {
				t.Fatalf("property 4: no plan, brute force %d: %v", want, l)
			}
			return
		}
		a, faults := Audit(j, r.Plan)
		if len(faults) != 0 || a.Price != r.Value || want < 0 || r.Value < want || r.Status == Optimal && r.Value != want {
			t.Fatalf("property 4: %d, bound %d, %s, brute force %d; audit %d %v", r.Value, r.Bound, r.Status, want, a.Price, faults)
		}
		if r.Value == want {
			optimal++
		}
	})
	if optimal == 0 {
		t.Error("no plan was the best")
	}
}

// TestCheapest_cancelled: a search that is ended at once still has a right plan and a right bound.
func TestCheapest_cancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	j := one(t, "testdata/b2_ten_cards_in.txt", "b2_ten_cards_in", false)
	r, l := Cheapest(ctx, j, nil)
	if audited(t, j, r.Plan); len(l) != 0 || r.Status != Stopped || r.Bound > 1485 || r.Bound < 1281 || r.Value < 1485 {
		t.Errorf("got %d, bound %d, %s; %v", r.Value, r.Bound, r.Status, l)
	}
}

// TestCheapest_better: every plan that is told of is right and cheaper than the one before; the last is the result.
func TestCheapest_better(t *testing.T) {
	j := one(t, "testdata/b2_ten_cards_in.txt", "b2_ten_cards_in", false)
	last, n := int64(1<<62), 0
	r, _ := Cheapest(context.Background(), j, func(r Result) {
		if a := audited(t, j, r.Plan); a.Price >= last || a.Price != r.Value {
			t.Errorf("%d after %d", a.Price, last)
		}
		last, n = r.Value, n+1
	})
	if last != r.Value || n < 2 {
		t.Errorf("the last of %d told of costs %d, the result %d", n, last, r.Value)
	}
}

// TestCheapest_tooFewSheets: what there is does not hold the parts, by area or by shape; letting sheets be bought cures it.
func TestCheapest_tooFewSheets(t *testing.T) {
	for _, count := range []int{5, 3} {
		j := Job{Sheets: []Sheet{{W: 100 * mm, H: 100 * mm, Quantity: 2}}, Parts: []Part{{W: 60 * mm, H: 60 * mm, Count: count}}}
		_, l := Cheapest(context.Background(), j, nil)
		if len(l) != 1 || l[0].Rule != "trim-too-few-sheets" || l[0].Try == "" {
			t.Fatalf("%d parts: got %v", count, l)
		}
		j.Sheets[0].Quantity = Unlimited
		if r, l := Cheapest(context.Background(), j, nil); len(l) != 0 || r.Status != Optimal {
			t.Errorf("%d parts, after the cure: %v %v", count, r.Status, l)
		}
	}
}

// TestCheapest_edges: nothing wanted, nothing there, parts for nothing, a very large count.
func TestCheapest_edges(t *testing.T) {
	if r, l := Cheapest(context.Background(), Job{}, nil); len(l) != 0 || r.Status != Optimal {
		t.Errorf("an empty job: %v %v", r, l)
	}
	if _, l := Cheapest(context.Background(), Job{Parts: []Part{{W: mm, H: mm, Count: 1}}}, nil); len(l) != 1 || l[0].Rule != "trim-no-sheet" {
		t.Errorf("no sheets: %v", l)
	}
	j := harbour()
	j.Sheets[0].Quantity, j.Parts[0].Count, j.Sheets[0].Grain = Unlimited, 1_000_001, card.GrainUp
	r, l := Cheapest(context.Background(), j, nil)
	if a := audited(t, j, r.Plan); len(l) != 0 || r.Status != Optimal || a.Sheets[0] != 500_001 {
		t.Errorf("a million: %d sheets, %s %v", a.Sheets[0], r.Status, l)
	}
	j.Parts[0].W = length.Length(39_999_999)
	if r, l = Cheapest(context.Background(), j, nil); len(l) != 0 || len(r.Plan.Layouts) == 0 {
		t.Errorf("odd nanometres: %v", l)
	}
}

func benchmarkBatch(b *testing.B, name string) {
	j := one(b, "testdata/"+name+".txt", name, false)
	for b.Loop() {
		if r, _ := Cheapest(context.Background(), j, nil); r.Status != Optimal {
			b.Fatal(r.Status)
		}
	}
}

// BenchmarkCheapest_oneCard: 13 parts of 8 kinds, three sizes of sheet.
func BenchmarkCheapest_oneCard(b *testing.B) { benchmarkBatch(b, "b1_one_card_in") }

// BenchmarkCheapest_tenCards: 170 parts of 10 kinds.
func BenchmarkCheapest_tenCards(b *testing.B) { benchmarkBatch(b, "b2_ten_cards_in") }
