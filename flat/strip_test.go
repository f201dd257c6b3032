package flat

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"foldwright/internal/check"
	"foldwright/length"

	"pgregory.net/rapid"
)

// strip writes the recipe of one strip with panels of these widths and its senses, all of the scores in folded shut.
func strip(widths []int, senses string, folded []int) string {
	total := 0
	var at, closed []string
	for i, w := range widths {
		total += w
		if i+1 < len(widths) {
			at = append(at, strconv.Itoa(total))
		}
	}
	for _, f := range folded {
		closed = append(closed, strconv.Itoa(f))
	}
	text := header + fmt.Sprintf("piece strip of plain\n  size %d x 20\n", total)
	if len(at) > 0 {
		text += "  score across at " + strings.Join(at, ", ") + "\n"
		if senses != "" {
			text += "  fold " + strings.Join(strings.Split(senses, ""), " ") + "\n"
		}
		text += "  closed folds " + strings.Join(closed, ", ") + "\n"
	}
	return text + "opens by itself\n"
}

// TestStripEdges compares the places of the edges of folded strips with signed sums.
func TestStripEdges(t *testing.T) {
	check.Each(t, "testdata/check/strip.csv", func(t *testing.T, r check.Row) {
		widths, folded := ints(t, r.Text("panels_mm")), ints(t, r.Text("folded"))
		c := shut(t, strip(widths, "", folded))
		if c.Folded == nil {
			t.Fatal(c.Status)
		}
		var got []string
		for i := range c.At {
			p := c.Assembly.Panels[i]
			if i == 0 {
				got = append(got, edge(c, i, p.Box.Min.X))
			}
			got = append(got, edge(c, i, p.Box.Max.X))
		}
		if want := r.Text("expected_edges_mm"); strings.Join(got, " ") != want {
			t.Errorf("edges: got %s, want %s (%s)", strings.Join(got, " "), want, r.Source())
		}
		r.Done()
	})
}

func edge(c *Closed, panel int, x length.Length) string {
	p := c.Assembly.Panels[panel].Box.Min
	p.X = x
	text, _ := c.At[panel].Point(p).X.Exact(length.MM)
	return text
}

func ints(t *testing.T, text string) []int {
	var out []int
	for _, f := range strings.Fields(text) {
		n, err := strconv.Atoi(f)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, n)
	}
	return out
}

// TestStripOrder compares the layer order of random strips of up to seven panels, all scores folded, with trying every
// order of the layers.
//
// The conditions that are tried are those of flat-folded one-dimensional origami: Arkin, Bender, Demaine, Demaine,
// Mitchell, Sethia, Skiena (2004), When can you fold a map?, Comput. Geom. 29:23-46. The two ways share no code: one knows
// cells and unknowns, the other a list of layers.
func TestStripOrder(t *testing.T) {
	folds, cannot := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 7).Draw(t, "panels")
		widths := rapid.SliceOfN(rapid.IntRange(1, 4), n, n).Draw(t, "widths")
		senses := rapid.StringOfN(rapid.RuneFrom([]rune("mv")), n-1, n-1, -1).Draw(t, "senses")
		for i := range widths {
			widths[i] *= 10
		}
		compareStrip(t, widths, senses, &folds, &cannot)
	})
	if folds == 0 || cannot == 0 {
		t.Errorf("the comparison saw %d strips that fold and %d that do not; it needs both", folds, cannot)
	}
}

// TestStripOrderEight does the same for chosen strips of eight panels.
func TestStripOrderEight(t *testing.T) {
	folds, cannot := 0, 0
	for _, c := range []struct {
		widths []int
		senses string
	}{
		{[]int{20, 20, 20, 20, 20, 20, 20, 20}, "mvmvmvm"},
		{[]int{20, 20, 20, 20, 20, 20, 20, 20}, "mmmmmmm"},
		{[]int{80, 70, 60, 50, 40, 30, 20, 10}, "mmmmmmm"},
		{[]int{40, 20, 30, 20, 20, 40, 20, 30}, "mvvmmvm"},
		{[]int{40, 20, 20, 20, 20, 40, 10, 30}, "mvmvmmv"},
		{[]int{30, 10, 30, 20, 30, 20, 10, 40}, "mmvvmmv"},
	} {
		compareStrip(t, c.widths, c.senses, &folds, &cannot)
	}
	if folds == 0 || cannot == 0 {
		t.Errorf("%d fold, %d do not; both are wanted", folds, cannot)
	}
}

type tester interface {
	Helper()
	Fatalf(string, ...any)
}

func compareStrip(t tester, widths []int, senses string, folds, cannot *int) {
	all := make([]int, len(widths)-1)
	for i := range all {
		all[i] = i + 1
	}
	c := read(quiet{}, strip(widths, senses, all))
	got := Close(context.Background(), assemble(quiet{}, c)).Status == Solved
	want := anyOrder(widths, senses)
	if want {
		*folds++
	} else {
		*cannot++
	}
	if got != want {
		t.Fatalf("strip %v folded %s: the program says %v, trying every order says %v", widths, senses, got, want)
	}
}

// quiet lets the helpers run inside a property.
type quiet struct{ testing.TB }

func (quiet) Helper()                      {}
func (quiet) Fatalf(f string, args ...any) { panic(fmt.Sprintf(f, args...)) }

// anyOrder tries every order of the layers of a strip whose scores are all folded.
func anyOrder(widths []int, senses string) bool {
	n := len(widths)
	lo, hi, crease := make([]int, n), make([]int, n), make([]int, n-1)
	x, dir := 0, 1
	for i, w := range widths {
		next := x + dir*w
		lo[i], hi[i] = min(x, next), max(x, next)
		if i < n-1 {
			crease[i] = next
		}
		x, dir = next, -dir
	}
	layer := make([]int, n)
	for i := range layer {
		layer[i] = i
	}
	return permute(layer, 0, func() bool { return orderHolds(layer, lo, hi, crease, senses) })
}

func permute(list []int, k int, ok func() bool) bool {
	if k == len(list) {
		return ok()
	}
	for i := k; i < len(list); i++ {
		list[k], list[i] = list[i], list[k]
		if permute(list, k+1, ok) {
			return true
		}
		list[k], list[i] = list[i], list[k]
	}
	return false
}

// orderHolds says whether layers (0 in front) respect the senses and cross nowhere. Panels with an even number lie face up.
func orderHolds(layer, lo, hi, crease []int, senses string) bool {
	for i, x := range crease {
		front, back := layer[i], layer[i+1]
		if i%2 == 1 {
			front, back = back, front // the face-up panel first
		}
		if (senses[i] == 'm') != (front < back) {
			return false
		}
		a, b := min(layer[i], layer[i+1]), max(layer[i], layer[i+1])
		for j := range lo {
			if j != i && j != i+1 && lo[j] < x && x < hi[j] && a < layer[j] && layer[j] < b {
				return false
			}
		}
		for k, y := range crease[:i] {
			sameSide := (hi[i] == x) == (hi[k] == y)
			if k+1 == i || y != x || !sameSide {
				continue
			}
			c, d := layer[k], layer[k+1]
			if (a < c && c < b) != (a < d && d < b) {
				return false
			}
		}
	}
	return true
}

// TestAccordion folds strips with far more choices than could be tried one by one.
func TestAccordion(t *testing.T) {
	for _, n := range []int{20, 40, 80} {
		widths := slices.Repeat([]int{15}, n)
		text := strip(widths, strings.Repeat("mv", n)[:n-1], nil)
		text = strings.Replace(text, "  closed folds \n", "", 1)
		c := shut(t, text)
		if !c.LiesFlat() {
			t.Fatalf("%d panels: %v", n, c.Status)
		}
		if c.Box.W() != 15*length.Millimetre {
			t.Errorf("%d panels: %s wide, want 15 mm", n, c.Box.W().Human(length.MM))
		}
	}
}
