package trim

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"foldwright/card"
	"foldwright/internal/check"
	"foldwright/length"
)

// TestMostValue compares with published optima.
func TestMostValue(t *testing.T) {
	check.Each(t, "testdata/check/most_value.csv", func(t *testing.T, r check.Row) {
		j := one(t, "testdata/"+r.Text("file"), r.Name(), false)
		got, l := MostValue(context.Background(), j.Sheets[0], j.Parts)
		if len(l) != 0 {
			t.Fatal(l)
		}
		r.NearColumn("expected_value", float64(got.Value))
		if got.Bound != got.Value || got.Status != Optimal {
			t.Errorf("got %d, bound %d, %s", got.Value, got.Bound, got.Status)
		}
		if a := audited(t, j, got.Plan); a.Value != got.Value {
			t.Errorf("the audit counts %d, the search %d", a.Value, got.Value)
		}
	})
}

// brute is the most value of w by h with the copies in left, by trying every whole cut and every way to share the copies
// out.
func brute(memo map[[6]int]int64, s Sheet, parts []Part, w, h int, left [3]int) int64 {
	key := [6]int{w, h, left[0], left[1], left[2]}
	if v, ok := memo[key]; ok {
		return v
	}
	best := int64(0)
	for i, p := range parts {
		pw, ph := int(p.W/mm), int(p.H/mm)
		if left[i] > 0 && (p.Suits(s, false) && pw <= w && ph <= h || p.Suits(s, true) && ph <= w && pw <= h) {
			best = max(best, p.Value)
		}
	}
	for a := 0; a <= left[0]; a++ {
		for b := 0; b <= left[1]; b++ {
			for c := 0; c <= left[2]; c++ {
				one, two := [3]int{a, b, c}, [3]int{left[0] - a, left[1] - b, left[2] - c}
				if a+b+c == 0 || two == [3]int{} {
					continue
				}
				for k := 1; k < w; k++ {
					best = max(best, brute(memo, s, parts, k, h, one)+brute(memo, s, parts, w-k, h, two))
				}
				for k := 1; k < h; k++ {
					best = max(best, brute(memo, s, parts, w, k, one)+brute(memo, s, parts, w, h-k, two))
				}
			}
		}
	}
	memo[key] = best
	return best
}

func drawParts(t *rapid.T, most int) []Part {
	parts := make([]Part, rapid.IntRange(1, 3).Draw(t, "kinds"))
	for i := range parts {
		parts[i] = Part{
			W:     mm * length.Length(rapid.IntRange(1, 6).Draw(t, "w")),
			H:     mm * length.Length(rapid.IntRange(1, 6).Draw(t, "h")),
			Value: int64(rapid.IntRange(0, 20).Draw(t, "value")),
			Most:  rapid.IntRange(0, most).Draw(t, "most"),
			Turn:  rapid.Bool().Draw(t, "turn"),
			Grain: rapid.SampledFrom([]card.Grain{card.GrainUnsaid, card.GrainUnsaid, card.GrainAcross, card.GrainUp}).Draw(t, "grain"),
		}
	}
	return parts
}

func drawSheet(t *rapid.T) Sheet {
	return Sheet{
		W: mm * length.Length(rapid.IntRange(1, 8).Draw(t, "W")), H: mm * length.Length(rapid.IntRange(1, 8).Draw(t, "H")),
		Grain: rapid.SampledFrom([]card.Grain{card.GrainAcross, card.GrainUp}).Draw(t, "grain"), Quantity: Unlimited,
	}
}

// TestMostValue_brute. Property 1: with limited copies the value is that of brute force, and the audit counts the same.
func TestMostValue_brute(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, parts := drawSheet(t), drawParts(t, 3)
		var left [3]int
		for i, p := range parts {
			left[i] = p.Most
		}
		want := brute(map[[6]int]int64{}, s, parts, int(s.W/mm), int(s.H/mm), left)
		r, l := MostValue(context.Background(), s, parts)
		if len(l) != 0 || r.Value != want || r.Bound != want || r.Status != Optimal {
			t.Fatalf("property 1: got %+v %v, want %d", r, l, want)
		}
		a, l := Audit(Job{Sheets: []Sheet{s}, Parts: parts}, r.Plan)
		if len(l) != 0 || a.Value != want {
			t.Fatalf("property 1: audit %d %v, want %d", a.Value, l, want)
		}
		for i, p := range parts {
			if a.Made[i] > p.Most {
				t.Fatalf("property 1: %d of part %d, at most %d", a.Made[i], i, p.Most)
			}
		}
	})
}

// everyCut is the most value with unlimited copies by every whole cut, without raster points.
func everyCut(s Sheet, parts []Part) int64 {
	w, h := int(s.W/mm), int(s.H/mm)
	f := make([][]int64, w+1)
	for i := range f {
		f[i] = make([]int64, h+1)
		for j := range f[i] {
			for _, p := range parts {
				pw, ph := int(p.W/mm), int(p.H/mm)
				if p.Suits(s, false) && pw <= i && ph <= j || p.Suits(s, true) && ph <= i && pw <= j {
					f[i][j] = max(f[i][j], p.Value)
				}
			}
			for k := 1; k < i; k++ {
				f[i][j] = max(f[i][j], f[k][j]+f[i-k][j])
			}
			for k := 1; k < j; k++ {
				f[i][j] = max(f[i][j], f[i][k]+f[i][j-k])
			}
		}
	}
	return f[w][h]
}

// TestMostValue_rasterPoints. Property 2: leaving out all cuts but those at raster points loses no value.
func TestMostValue_rasterPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, parts := drawSheet(t), drawParts(t, 3)
		s.W, s.H = s.W*5, s.H*4
		for i := range parts {
			parts[i].Most, parts[i].W, parts[i].H = Unlimited, parts[i].W+2*mm, parts[i].H+2*mm
		}
		r, l := MostValue(context.Background(), s, parts)
		if want := everyCut(s, parts); len(l) != 0 || r.Value != want || r.Status != Optimal {
			t.Fatalf("property 2: got %d %v, want %d", r.Value, l, want)
		}
	})
}

// TestMostValue_anyNanometre. Property 3: sizes without a common measure give a right plan and a bound, in good time.
func TestMostValue_anyNanometre(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Sheet{W: 300*mm + 1, H: 200*mm + 7, Quantity: 1}
		parts := make([]Part, 4)
		for i := range parts {
			parts[i] = Part{W: length.Length(rapid.Int64Range(30e6, 90e6).Draw(t, "w")), H: length.Length(rapid.Int64Range(30e6, 90e6).Draw(t, "h")), Value: 10, Most: Unlimited, Turn: true}
		}
		r, l := MostValue(context.Background(), s, parts)
		a, faults := Audit(Job{Sheets: []Sheet{s}, Parts: parts}, r.Plan)
		if len(l)+len(faults) != 0 || a.Value != r.Value || r.Value == 0 || r.Bound < r.Value || r.Status != Feasible {
			t.Fatalf("property 3: %d, bound %d, %s; %v %v", r.Value, r.Bound, r.Status, l, faults)
		}
	})
}

// TestMostValue_cancelled: a search that is ended at once still returns a right plan and a right bound.
func TestMostValue_cancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	j := one(t, "testdata/kp_of_w.txt", "W", false)
	r, _ := MostValue(ctx, j.Sheets[0], j.Parts)
	if a := audited(t, j, r.Plan); r.Status != Stopped || r.Bound < 2721 || a.Value != r.Value || a.Value == 0 {
		t.Errorf("got %+v", r)
	}
}

func benchmarkValue(b *testing.B, name string) {
	j := one(b, "testdata/kp_gcut.txt", name, false)
	for b.Loop() {
		if r, _ := MostValue(context.Background(), j.Sheets[0], j.Parts); r.Status != Optimal {
			b.Fatal(r.Status)
		}
	}
}

// BenchmarkMostValue_gcut12: 50 parts on 1000 by 1000.
func BenchmarkMostValue_gcut12(b *testing.B) { benchmarkValue(b, "gcut12") }

// BenchmarkMostValue_gcut13: 32 parts on 3000 by 3000, 2469 normal points either way when turned.
func BenchmarkMostValue_gcut13(b *testing.B) { benchmarkValue(b, "gcut13") }
