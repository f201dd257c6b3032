package pdf

import (
	"fmt"
	"image"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/drawing"
	"foldwright/internal/reader"
)

func sized(name string, w, h float64) *drawing.Drawing {
	d := drawing.New("d", name)
	d.W, d.H = w, h
	return d
}

func TestNewPlan(t *testing.T) {
	for _, c := range []struct {
		name     string
		paper    Paper
		drawings []*drawing.Drawing
		want     string // a page a line: sideways or upright; drawing, t for turned, tile
	}{
		{"one", A4(), []*drawing.Drawing{sized("a", 100, 100)}, "upright 0\n"},
		{"two share", A4(), []*drawing.Drawing{sized("a", 90, 100), sized("b", 90, 100)}, "upright 0 1\n"},
		{"one below the other", A4(), []*drawing.Drawing{sized("a", 180, 100), sized("b", 180, 100)}, "upright 0 1\n"},
		{"no room for three", A4(), []*drawing.Drawing{sized("a", 180, 110), sized("b", 180, 110), sized("c", 180, 110)}, "upright 0 1\nupright 2\n"},
		{"a small one goes back", A4(), []*drawing.Drawing{sized("a", 180, 180), sized("b", 180, 180), sized("c", 50, 50)}, "upright 0 2\nupright 1\n"},
		{"a wall lies sideways", A4(), []*drawing.Drawing{sized("a", 262, 100)}, "sideways 0\n"},
		{"sideways on letter", Letter(), []*drawing.Drawing{sized("a", 259, 100)}, "sideways 0\n"},
		{"turned, not tiled", A4(), []*drawing.Drawing{sized("a", 248, 188)}, "upright 0t\n"},
		{"turned, sideways", A4(), []*drawing.Drawing{sized("a", 150, 270)}, "sideways 0t\n"},
		{"a wall is tiled on letter", Letter(), []*drawing.Drawing{sized("a", 262, 100)}, "upright 0 (1,1 of 1x2)\nupright 0 (1,2 of 1x2)\n"},
		{"four tiles", A4(), []*drawing.Drawing{sized("a", 300, 400)},
			"upright 0 (1,1 of 2x2)\nupright 0 (1,2 of 2x2)\nupright 0 (2,1 of 2x2)\nupright 0 (2,2 of 2x2)\n"},
	} {
		got := ""
		for _, p := range NewPlan(c.drawings, c.paper).Pages {
			got += map[bool]string{false: "upright", true: "sideways"}[p.Sideways]
			for _, q := range p.Places {
				got += fmt.Sprintf(" %d", q.Drawing)
				if q.Turned {
					got += "t"
				}
				if q.Tiled() {
					got += fmt.Sprintf(" (%d,%d of %dx%d)", q.Row, q.Column, q.Rows, q.Columns)
				}
			}
			got += "\n"
		}
		if got != c.want {
			t.Errorf("%s: got\n%swant\n%s", c.name, got, c.want)
		}
	}
}

// TestPlan asserts for any drawings: (1) each is there, whole or in all its tiles; (2) every window lies within the room of
// its page; (3) no two on a page overlap; (4) tiles cover the drawing and overlap by exactly 10 mm; (5) what fits without
// turning is not turned, and what fits at all is not tiled.
func TestPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		paper := rapid.SampledFrom([]Paper{A4(), Letter()}).Draw(t, "paper")
		var ds []*drawing.Drawing
		for i := range rapid.IntRange(1, 8).Draw(t, "drawings") {
			side := rapid.Float64Range(1, 700)
			ds = append(ds, sized(fmt.Sprint(i), side.Draw(t, "w"), side.Draw(t, "h")))
		}
		plan := NewPlan(ds, paper)
		for _, p := range plan.Pages {
			checkPage(t, paper, p)
		}
		for i, d := range ds {
			checkDrawing(t, plan, i, d)
		}
	})
}

func checkPage(t *rapid.T, paper Paper, p Page) {
	left, top, w, h := paper.sheet(p.Sideways).room()
	var boxes []drawing.Box
	for _, q := range p.Places {
		b := drawing.Box{
			Min: drawing.Point{X: q.Left, Y: q.Top},
			Max: drawing.Point{X: q.Left + q.Window.W(), Y: q.Top + q.Window.H()},
		}
		if b.Min.X < left-0.02 || b.Min.Y < top-0.02 || b.Max.X > left+w+0.02 || b.Max.Y > top+h+0.02 {
			t.Errorf("%+v lies outside the room of its page", b)
		}
		for _, o := range boxes {
			if b.Min.X < o.Max.X && o.Min.X < b.Max.X && b.Min.Y < o.Max.Y && o.Min.Y < b.Max.Y {
				t.Errorf("%+v overlaps %+v", b, o)
			}
		}
		boxes = append(boxes, b)
	}
}

func checkDrawing(t *rapid.T, plan Plan, n int, d *drawing.Drawing) {
	var places []Place
	sideways := map[int]bool{}
	for _, p := range plan.Pages {
		for _, q := range p.Places {
			if q.Drawing == n {
				sideways[len(places)] = p.Sideways
				places = append(places, q)
			}
		}
	}
	if len(places) == 0 || len(places) != places[0].Rows*places[0].Columns || len(places) != plan.Tiles(n) {
		t.Fatalf("drawing %d has %d places", n, len(places))
	}
	fits := func(w, h float64) bool {
		return plan.Paper.sheet(false).fits(w, h) || plan.Paper.sheet(true).fits(w, h)
	}
	first := places[0]
	if first.Tiled() && (fits(d.W, d.H) || fits(d.H, d.W)) {
		t.Errorf("drawing %d is tiled but fits", n)
	}
	if first.Turned && !first.Tiled() && fits(d.W, d.H) {
		t.Errorf("drawing %d is turned but fits as it is", n)
	}
	w, h := turnedSize(d, first.Turned)
	for _, q := range places {
		if q.Column == 1 && math.Abs(q.Window.Min.X) > 1e-9 || q.Column == q.Columns && math.Abs(q.Window.Max.X-w) > 1e-9 ||
			q.Row == q.Rows && math.Abs(q.Window.Min.Y) > 1e-9 || q.Row == 1 && math.Abs(q.Window.Max.Y-h) > 1e-9 {
			t.Errorf("drawing %d, tile %d,%d does not reach the edge: %+v", n, q.Row, q.Column, q.Window)
		}
		for _, r := range places {
			if r.Row == q.Row && r.Column == q.Column+1 && math.Abs(q.Window.Max.X-r.Window.Min.X-overlap) > 1e-9 {
				t.Errorf("drawing %d: columns %d and %d overlap by %g", n, q.Column, r.Column, q.Window.Max.X-r.Window.Min.X)
			}
			if r.Column == q.Column && r.Row == q.Row+1 && math.Abs(r.Window.Max.Y-q.Window.Min.Y-overlap) > 1e-9 {
				t.Errorf("drawing %d: rows %d and %d overlap by %g", n, q.Row, r.Row, r.Window.Max.Y-q.Window.Min.Y)
			}
		}
	}
}

// TestSeams: every cross lies in exactly the windows of the tiles that meet there, at least 3 mm inside, each number once.
func TestSeams(t *testing.T) {
	d := large()
	plan := NewPlan([]*drawing.Drawing{d}, A4())
	first := plan.Pages[0].Places[0]
	numbers := map[int]bool{}
	for _, s := range seams(d, first.Turned, first.grid) {
		for _, c := range s.crosses {
			if numbers[c.number] {
				t.Errorf("the number %d stands twice", c.number)
			}
			numbers[c.number] = true
			inside := 0
			for _, p := range plan.Pages {
				if b := p.Places[0].Window.Grown(-3); b.Min.X < c.at.X && c.at.X < b.Max.X && b.Min.Y < c.at.Y && c.at.Y < b.Max.Y {
					inside++
				}
			}
			if inside < 2 {
				t.Errorf("cross %d at %v is on %d tiles, want two", c.number, c.at, inside)
			}
		}
	}
	want := 2 * (first.Rows*(first.Columns-1) + first.Columns*(first.Rows-1))
	if len(numbers) != want || want == 0 {
		t.Errorf("%d crosses on %d x %d tiles, want %d", len(numbers), first.Rows, first.Columns, want)
	}
}

// TestSeams_BesideWords: a cross moves along its seam to leave a word alone.
func TestSeams_BesideWords(t *testing.T) {
	d := sized("wall", 262, 100)
	g := newGrid(d, false, 150, 200)
	at := seams(d, false, g)[0].crosses[0].at
	d.Add(drawing.GroupText, drawing.Text{Role: drawing.TextPlain, Words: "120", Size: 3, At: at})
	moved := seams(d, false, g)[0].crosses[0].at
	if moved.X != at.X || moved.Y == at.Y {
		t.Errorf("the cross stays at %v on the word at %v", moved, at)
	}
}

// TestTiles_TrueToSize puts the pictures of all tiles of a drawing together and finds every cut edge where it belongs:
// tiles meet to within 0.1 mm. Read by pdftoppm.
func TestTiles_TrueToSize(t *testing.T) {
	reader.Need(t, "pdftoppm")
	const dpi = 254 // ten pixels to a millimetre
	d := large()
	plan := NewPlan([]*drawing.Drawing{d}, A4())
	pages := raster(t, sheets(t, SheetOptions{}, d), dpi)
	if len(pages) != len(plan.Pages) || len(pages) < 4 {
		t.Fatalf("%d pages, the plan has %d", len(pages), len(plan.Pages))
	}
	cut := d.Group(drawing.GroupCut)[0].Bounds()
	edges := 0
	for i, p := range plan.Pages {
		q := p.Places[0]
		if q.Turned {
			t.Fatal("this test reads tiles that are not turned")
		}
		mid := q.Window.Centre()
		for _, x := range []float64{cut.Min.X, cut.Max.X} {
			if q.Window.Min.X < x && x < q.Window.Max.X {
				edges++
				wantDark(t, pages[i], q, drawing.Point{X: x, Y: mid.Y + 11})
			}
		}
		for _, y := range []float64{cut.Min.Y, cut.Max.Y} {
			if q.Window.Min.Y < y && y < q.Window.Max.Y {
				edges++
				wantDark(t, pages[i], q, drawing.Point{X: mid.X + 11, Y: y})
			}
		}
	}
	if edges < 8 {
		t.Errorf("only %d edges were looked for", edges)
	}
}

// wantDark looks for the middle of a cut line, 0.5 mm wide: dark at the place, light 0.4 mm to either side of it.
func wantDark(t *testing.T, im image.Image, q Place, at drawing.Point) {
	t.Helper()
	dark := func(dx, dy float64) bool {
		x := q.Left + at.X + dx - q.Window.Min.X
		y := q.Top + q.Window.Max.Y - at.Y - dy
		r, _, _, _ := im.At(int(x*10), int(y*10)).RGBA()
		return r < 0x6000
	}
	if !dark(0, 0) {
		t.Errorf("tile %d,%d: no cut line at %v", q.Row, q.Column, at)
	}
	if dark(0.4, 0.4) || dark(-0.4, -0.4) {
		t.Errorf("tile %d,%d: the cut line at %v is too wide or off its place", q.Row, q.Column, at)
	}
}

// TestTurned: a drawing that is turned a quarter shows its right side at the top of the page, and its words read upwards.
func TestTurned(t *testing.T) {
	reader.Need(t, "pdftoppm")
	d := sized("long", 248, 188)
	words := drawing.Text{Role: drawing.TextPlain, Bold: true, Words: "HHHHHHHHHH", Size: 8, At: drawing.Point{X: 100, Y: 90}}
	d.Add(drawing.GroupMark, drawing.Rect(drawing.Solid.Fill(), drawing.None, drawing.Point{X: 244, Y: 0}, drawing.Point{X: 248, Y: 4}))
	d.Add(drawing.GroupText, words)
	q := NewPlan([]*drawing.Drawing{d}, A4()).Pages[0].Places[0]
	if !q.Turned {
		t.Fatal("the drawing is not turned; this test needs another")
	}
	im := raster(t, sheets(t, SheetOptions{}, d), 254)[0]
	// (x, y) of the drawing becomes (height - y, x), counted from the lower left corner of the place.
	dark := func(x, y float64) bool {
		r, _, _, _ := im.At(int((q.Left+d.H-y)*10), int((q.Top+d.W-x)*10)).RGBA()
		return r < 0x6000
	}
	if !dark(246, 2) {
		t.Error("the square is not at the upper right of the page")
	}
	// Along the middle of the capitals every letter H is dark; behind the line's end, and before its start, nothing is.
	inked := 0
	for x := 100.0; x < 100+words.Width(); x += 0.1 {
		if dark(x, 90+capMiddle*8) {
			inked++
		}
	}
	if part := float64(inked) * 0.1 / words.Width(); part < 0.5 {
		t.Errorf("the words cover %.2f of their line on the turned page", part)
	}
	for x := 60.0; x < 99.5; x += 0.1 {
		if dark(x, 90+capMiddle*8) {
			t.Fatalf("something dark stands before the words, at %g", x)
		}
	}
}

// capMiddle is half the height of the capitals as a part of the size: where the bar of an H runs.
const capMiddle = drawing.CapHeight/2 + 0.02

// TestPlan_Captions: what names a drawing has room beside its neighbours, up to the margin of the page, however small the
// drawing is; at the end of a row it takes more lines. Every word can be read back.
func TestPlan_Captions(t *testing.T) {
	const long = "slat, make 3 of smooth white, 240 gsm, 0.31 mm"
	ds := []*drawing.Drawing{sized(long, 60, 60), sized("hand, make 1 of sand card", 40, 60), sized(long, 20, 50)}
	page := NewPlan(ds, A4()).Pages[0]
	if len(page.Places) != 3 || len(page.Places[2].caption) < 2 || page.Places[2].Left == page.Places[0].Left {
		t.Fatalf("the page holds %+v, want three drawings in a row, the last with a caption of two lines", page.Places)
	}
	for i, p := range page.Places {
		end := 0.0
		for _, words := range p.caption {
			end = max(end, p.Left+drawing.TextWidth(words, drawing.NoteSize, true))
		}
		if end > A4().W-margin {
			t.Errorf("caption %d ends at %g, beyond the margin", i, end)
		}
		for k, q := range page.Places {
			if q.Left > p.Left && q.Left < end+2 {
				t.Errorf("caption %d ends at %g, drawing %d begins at %g", i, end, k, q.Left)
			}
		}
	}
	reader.Need(t, "pdftotext")
	text := string(reader.Run(t, nil, "pdftotext", "-raw", reader.File(t, "d.pdf", sheets(t, SheetOptions{}, ds...)), "-"))
	for _, d := range ds {
		if words := strings.Join(strings.Fields(text), " "); !strings.Contains(words, d.Title) {
			t.Errorf("the page lacks %q, it says %q", d.Title, words)
		}
	}
}
