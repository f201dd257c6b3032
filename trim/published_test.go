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
