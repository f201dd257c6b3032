package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

const harbourInstances = `instance quay
sheet 40 30 7 -1
part 12 8 25 0 -1 1
part 7 30 2 0 -1 0
instance mole
sheet 10 9 0 1
part 3 4 0 13 -1 0
part 5 2 0 10 3 0
instance two
sheet 10 9 0 1
sheet 9 9 0 1
part 3 4 0 13 -1 0
`

func runInstanceTest(t *testing.T, text string, c instanceFlags) (out, errs string, code int) {
	t.Helper()
	c.File = filepath.Join(t.TempDir(), "harbour.txt")
	if err := os.WriteFile(c.File, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if c.Limit == 0 {
		c.Limit = time.Minute
	}
	var o, e bytes.Buffer
	err := c.run(&env{t.Context(), strings.NewReader(""), &o, &e})
	var exit *exitError
	if errors.As(err, &exit) {
		return o.String(), e.String() + exit.text, exit.code
	}
	if err != nil {
		t.Fatal(err)
	}
	return o.String(), e.String(), 0
}

// cutUp follows a tree as it was printed and counts the parts, by their number; it fails on a part of another size.
func cutUp(t *testing.T, tree []any, w, h float64, sizes [][2]float64, made []int) {
	t.Helper()
	switch tree[0] {
	case "waste":
	case "part":
		i := int(tree[1].(float64))
		size := sizes[i]
		if tree[2].(float64) == 1 {
			size[0], size[1] = size[1], size[0]
		}
		if size != [2]float64{w, h} {
			t.Errorf("part %d is %v by %v", i, w, h)
		}
		made[i]++
	case "x":
		p := tree[1].(float64)
		cutUp(t, tree[2].([]any), p, h, sizes, made)
		cutUp(t, tree[3].([]any), w-p, h, sizes, made)
	case "y":
		p := tree[1].(float64)
		cutUp(t, tree[2].([]any), w, p, sizes, made)
		cutUp(t, tree[3].([]any), w, h-p, sizes, made)
	default:
		t.Errorf("a tree of %v", tree[0])
	}
}

// TestInstance_json follows the printed plan with the sizes that were typed.
func TestInstance_json(t *testing.T) {
	for _, c := range []struct {
		name, problem string
		value         int64 // quay by hand: parts of 25 * 96 + 2 * 210 = 2820 on sheets of 1200, so 3 sheets
		w, h          float64
		sizes         [][2]float64
		least         []int
	}{
		{"quay", "stock", 21, 40, 30, [][2]float64{{12, 8}, {7, 30}}, []int{25, 2}},
		// By hand: two rows of three 3 x 4, 78. One row of them and above it one more with two 5 x 2 is 72; without 5 x 2 in
		// the upper row there is no place for any.
		{"mole", "knapsack", 78, 10, 9, [][2]float64{{3, 4}, {5, 2}}, []int{6, 0}},
	} {
		out, errs, code := runInstanceTest(t, harbourInstances, instanceFlags{Name: c.name, JSON: true})
		if code != 0 || errs != "" || strings.Count(out, "\n") != 1 {
			t.Fatalf("exit code %d: %s\n%s", code, errs, out)
		}
		var got struct {
			Instance, Problem, Status string
			Value, Bound              int64
			Seconds                   *float64
			Plan                      [][3]any
		}
		d := json.NewDecoder(strings.NewReader(out))
		d.DisallowUnknownFields()
		if err := d.Decode(&got); err != nil {
			t.Fatal(err)
		}
		if got.Instance != c.name || got.Problem != c.problem || got.Status != "optimal" || got.Value != c.value || got.Bound != c.value || got.Seconds == nil {
			t.Errorf("got %s", out)
		}
		made := make([]int, len(c.sizes))
		for _, l := range got.Plan {
			for range int(l[1].(float64)) {
				cutUp(t, l[2].([]any), c.w, c.h, c.sizes, made)
			}
		}
		for i, n := range c.least {
			if made[i] < n {
				t.Errorf("%s: %d of part %d, wanted %d", c.name, made[i], i, n)
			}
		}
	}
}

func TestInstance_words(t *testing.T) {
	out, _, code := runInstanceTest(t, harbourInstances, instanceFlags{Name: "mole"})
	for _, want := range []string{"mole: the plan is worth 78; none can be worth more than 78 (optimal, ", "6 parts out of 1 sheet,", "1 x sheet 1, 10 by 9", "upright, from the left", "part 1"} {
		if code != 0 || !strings.Contains(out, want) {
			t.Errorf("exit code %d, no %q in\n%s", code, want, out)
		}
	}
}

func TestInstance_turn(t *testing.T) {
	text := "instance rope\nsheet 10 3 5 -1\npart 3 10 1 0 -1 0\n"
	if _, errs, code := runInstanceTest(t, text, instanceFlags{}); code != exitProblems || !strings.Contains(errs, "harbour.txt:3:1") || !strings.Contains(errs, "[trim-grain]") {
		t.Errorf("exit code %d: %s", code, errs)
	}
	if out, errs, code := runInstanceTest(t, text, instanceFlags{Turn: true}); code != 0 || !strings.Contains(out, "part 1, turned") {
		t.Errorf("exit code %d: %s%s", code, out, errs)
	}
}

// TestInstance_stopped: a limit keeps the best plan so far.
func TestInstance_stopped(t *testing.T) {
	text, err := os.ReadFile("../../trim/testdata/b2_ten_cards_in.txt")
	if err != nil {
		t.Fatal(err)
	}
	out, errs, code := runInstanceTest(t, string(text), instanceFlags{Limit: time.Nanosecond, JSON: true})
	if code != exitStopped || errs != "" || !strings.Contains(out, `"status":"stopped"`) || !strings.Contains(out, `["part",0,0]`) {
		t.Errorf("exit code %d: %s\n%s", code, errs, out)
	}
}

func TestInstance_wrongUse(t *testing.T) {
	for _, c := range []struct {
		text, name, want string
		code             int
	}{
		{harbourInstances, "", "holds 3 instances; say which with --name: quay, mole, two", exitUsage},
		{harbourInstances, "mol", `there is no instance "mol"; did you mean "mole"?`, exitUsage},
		{harbourInstances, "elephant", `there is no instance "elephant"; there are quay, mole, two`, exitUsage},
		{harbourInstances, "two", "two wants the most value out of one sheet, but names 2", exitUsage},
		{"instance a\nsheet 3 x 4 5", "", `the height is "x" [instance-number]`, exitProblems},
		{"instance a\nsheet 3 3 4 1\npart 2 2 2 0 -1 0", "", "do not hold all 2 parts", exitProblems},
	} {
		if out, errs, code := runInstanceTest(t, c.text, instanceFlags{Name: c.name}); code != c.code || !strings.Contains(errs, c.want) || out != "" {
			t.Errorf("exit code %d: %s%s; want %s", code, out, errs, c.want)
		}
	}
}
