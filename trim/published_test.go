package trim

import (
	"context"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// valueOf runs one instance, with time as its limit, and audits the plan.
func valueOf(t testing.TB, j Job, limit time.Duration) Result {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	r, l := MostValue(ctx, j.Sheets[0], j.Parts)
	if len(l) != 0 {
		t.Fatal(l)
	}
	a := audited(t, j, r.Plan)
	if a.Value != r.Value || r.Value > r.Bound {
		t.Errorf("value %d, the audit counts %d, bound %d", r.Value, a.Value, r.Bound)
	}
	for i, p := range j.Parts {
		if p.Most != Unlimited && a.Made[i] > p.Most {
			t.Errorf("%d of part %d, at most %d", a.Made[i], i, p.Most)
		}
	}
	return r
}

// TestAllPublishedValues compares every knapsack of the folder with index.csv. What is proven there and not by us within
// TRIM_SECONDS (20) is logged, not failed: it hangs on the machine.
func TestAllPublishedValues(t *testing.T) {
	dir, rows := allInstances(t)
	seconds, err := strconv.Atoi(os.Getenv("TRIM_SECONDS"))
	if err != nil {
		seconds = 20
	}
	n, proven := 0, 0
	for _, r := range rows {
		want, err := strconv.ParseInt(r["best"], 10, 64)
		if err != nil || !strings.HasPrefix(r["problem"], "knapsack") {
			continue
		}
		if only := os.Getenv("TRIM_ONLY"); only != "" && !strings.Contains(r["file"], only) {
			continue
		}
		n++
		j := one(t, filepath.Join(dir, r["file"]), r["instance"], r["rotation"] == "1")
		start := time.Now()
		got := valueOf(t, j, time.Duration(seconds)*time.Second)
		if got.Status == Optimal {
			proven++
		}
		sure := r["status"] == "proven"
		if sure && (got.Bound < want || got.Value > want) {
			t.Errorf("%s rotation %s: got %d, bound %d; the optimum is %d", r["instance"], r["rotation"], got.Value, got.Bound, want)
		}
		note := ""
		if got.Value < want {
			note = "  LESS"
		}
		t.Logf("%-12s turn %s  %8d of %8d  bound %8d  %-8s %6.2f s%s", r["instance"], r["rotation"], got.Value, want, got.Bound, got.Status, time.Since(start).Seconds(), note)
	}
	t.Logf("%d of %d proven", proven, n)
	if n == 0 {
		t.Fatal("nothing was checked")
	}
}

// cheapest runs one instance, with time as its limit, and audits the plan.
func cheapestOf(t testing.TB, j Job, limit time.Duration) Result {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), limit)
	defer cancel()
	r, l := Cheapest(ctx, j, nil)
	if len(l) != 0 {
		t.Fatal(l)
	}
	if a := audited(t, j, r.Plan); a.Price != r.Value || r.Value < r.Bound {
		t.Errorf("price %d, the audit counts %d, bound %d", r.Value, a.Price, r.Bound)
	}
	return r
}

// TestAllPublishedSheets compares every cutting-stock and bin-packing instance of the folder with index.csv.
func TestAllPublishedSheets(t *testing.T) {
	dir, rows := allInstances(t)
	seconds, err := strconv.ParseFloat(os.Getenv("TRIM_SECONDS"), 64)
	if err != nil {
		seconds = 2
	}
	n, proven, total, best := 0, 0, int64(0), int64(0)
	for _, r := range rows {
		want, err := strconv.ParseInt(r["best"], 10, 64)
		if strings.HasPrefix(r["problem"], "knapsack") || r["rotation"] == "1" && err != nil {
			continue
		}
		if only := os.Getenv("TRIM_ONLY"); only != "" && !strings.Contains(r["file"], only) || os.Getenv("TRIM_FIXED") != "" && r["rotation"] == "1" {
			continue
		}
		j := one(t, filepath.Join(dir, r["file"]), r["instance"], r["rotation"] == "1")
		for i := range j.Sheets { // sheets are counted unless the file gives costs
			if strings.HasPrefix(r["file"], "bp") || r["file"] == "cs_cintra.txt" || r["file"] == "cs_macedo_A.txt" {
				j.Sheets[i].Price = 1
			}
		}
		n++
		start := time.Now()
		got := cheapestOf(t, j, time.Duration(seconds*1000)*time.Millisecond)
		if got.Status == Optimal {
			proven++
		}
		if err == nil {
			if total, best = total+got.Value, best+want; r["status"] == "proven" && (got.Bound > want || got.Value < want) {
				t.Errorf("%s rotation %s: got %d, bound %d; the optimum is %d", r["instance"], r["rotation"], got.Value, got.Bound, want)
			}
		}
		note := ""
		if got.Value > want && err == nil {
			note = "  MORE"
		}
		t.Logf("%-16s turn %s  %8d of %8d  bound %8d  %-8s %6.2f s%s", r["instance"], r["rotation"], got.Value, want, got.Bound, got.Status, time.Since(start).Seconds(), note)
	}
	t.Logf("%d of %d proven; %d in all, index.csv %d", proven, n, total, best)
	if n == 0 {
		t.Fatal("nothing was checked")
	}
}

// TestAllBatches plans the four batches of the folder.
func TestAllBatches(t *testing.T) {
	dir, _ := allInstances(t)
	for _, b := range []struct {
		file         string
		bound, price int64
		seconds      int
	}{
		{"b1_one_card_in", 110, 110, 10}, {"b2_ten_cards_in", 1485, 1485, 10}, {"b3_hundred_cards_mm", 4740, 4740, 20}, {"b4_five_hundred_cards_mm", 19076, 19076, 20},
	} {
		j := one(t, filepath.Join(dir, "batches", b.file+".txt"), b.file, false)
		start := time.Now()
		got := cheapestOf(t, j, time.Duration(b.seconds)*time.Second)
		a := audited(t, j, got.Plan)
		if got.Bound > b.price || got.Value < b.bound {
			t.Errorf("%s: got %d, bound %d", b.file, got.Value, got.Bound)
		}
		t.Logf("%-26s %6d bound %6d of %6d %-8s %6.2f s  cuts %d fences %d layouts %d", b.file, got.Value, got.Bound, b.price, got.Status, time.Since(start).Seconds(), a.Cuts, a.Fences, len(got.Plan.Layouts))
	}
}
