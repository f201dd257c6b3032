package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"foldwright/drawing"
	"foldwright/drawing/conform"
	"foldwright/internal/reader"
)

func sheets(t testing.TB, o SheetOptions, drawings ...*drawing.Drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Sheets(&b, drawings, o); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// strips returns the sample strips and, behind them, their templates.
func strips() []*drawing.Drawing {
	var all []*drawing.Drawing
	for _, s := range conform.Strips() {
		all = append(all, s.Drawing())
	}
	for _, s := range conform.Strips() {
		d := s.Drawing().Template()
		d.Title += ", template"
		all = append(all, d)
	}
	return all
}

// large needs tiles in both directions on any paper.
func large() *drawing.Drawing {
	d := drawing.New("sail", "sail")
	corners := []drawing.Point{{X: 0, Y: 0}, {X: 420, Y: 0}, {X: 420, Y: 560}, {X: 0, Y: 560}}
	d.Add(drawing.GroupPanel, drawing.Polygon{Fill: drawing.Outer(0), Outer: corners})
	d.Add(drawing.GroupCut, drawing.Polygon{Line: drawing.Cut, Outer: corners})
	d.Add(drawing.GroupText, drawing.Text{Role: drawing.TextPlain, Words: "sail", Size: 6, At: drawing.Point{X: 200, Y: 280}})
	d.Fit(2)
	return d
}

// TestConform judges the files by what pdftoppm (poppler) shows.
func TestConform(t *testing.T) {
	reader.Need(t, "pdftoppm")
	conform.Run(t, func(t testing.TB, d *drawing.Drawing) image.Image {
		return raster(t, conform.Bytes(t, Device{}, d), conform.DPI)[0]
	})
}

// raster returns pictures of all pages.
func raster(t testing.TB, file []byte, dpi int) []image.Image {
	t.Helper()
	path := reader.File(t, "d.pdf", file)
	stem := filepath.Join(filepath.Dir(path), "page")
	reader.Run(t, nil, "pdftoppm", "-r", strconv.Itoa(dpi), path, stem)
	names, err := filepath.Glob(stem + "*.ppm")
	if err != nil || len(names) == 0 {
		t.Fatalf("no pages were painted: %v", err)
	}
	slices.Sort(names)
	var out []image.Image
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, reader.Picture(t, data))
	}
	return out
}

var pageSize = regexp.MustCompile(`Page +\d+ size: +([\d.]+) x ([\d.]+) pts`)

// sizes returns the size of every page in points, as pdfinfo tells it.
func sizes(t testing.TB, file []byte) [][2]float64 {
	t.Helper()
	out := reader.Run(t, nil, "pdfinfo", "-f", "1", "-l", "-1", reader.File(t, "d.pdf", file))
	var all [][2]float64
	for _, m := range pageSize.FindAllStringSubmatch(string(out), -1) {
		w, _ := strconv.ParseFloat(m[1], 64)
		h, _ := strconv.ParseFloat(m[2], 64)
		all = append(all, [2]float64{w, h})
	}
	if len(all) == 0 {
		t.Fatalf("pdfinfo names no page:\n%s", out)
	}
	return all
}

// TestPageSize: A4 is 595.276 x 841.890 pt (210 x 297 mm at 72/25.4 pt), Letter 612 x 792 pt; a drawing's own page is as
// large as the drawing. To within 0.1 pt.
func TestPageSize(t *testing.T) {
	reader.Need(t, "pdfinfo")
	const tolerance = 0.1
	for _, c := range []struct {
		paper Paper
		w, h  float64
	}{{A4(), 595.276, 841.890}, {Letter(), 612, 792}} {
		all := sizes(t, sheets(t, SheetOptions{Paper: c.paper}, append(strips(), large())...))
		sideways := 0
		for i, s := range all {
			if s[0] > s[1] {
				sideways++
				s[0], s[1] = s[1], s[0]
			}
			if math.Abs(s[0]-c.w) > tolerance || math.Abs(s[1]-c.h) > tolerance {
				t.Errorf("%s, page %d is %v pt, want %g x %g", c.paper.Name, i+1, s, c.w, c.h)
			}
		}
		if sideways == 0 || sideways == len(all) {
			t.Errorf("%s: %d of %d pages lie on their side; the test should see both", c.paper.Name, sideways, len(all))
		}
	}
	d := conform.Strips()[2].Drawing()
	if s := sizes(t, conform.Bytes(t, Device{}, d)); len(s) != 1 || math.Abs(s[0][0]-d.W*72/25.4) > tolerance || math.Abs(s[0][1]-d.H*72/25.4) > tolerance {
		t.Errorf("a page of its own is %v pt, the drawing %g x %g mm", s, d.W, d.H)
	}
}

// TestBars measures the check bars of every page in a picture of 600 dots per inch: 50 mm and 2 in (50.8 mm), to within
// 0.2 mm.
func TestBars(t *testing.T) {
	reader.Need(t, "pdftoppm")
	const dpi, tolerance = 600, 0.2
	for _, paper := range []Paper{A4(), Letter()} {
		drawings := append(strips(), large())
		path := reader.File(t, "d.pdf", sheets(t, SheetOptions{Paper: paper, Title: "Harbour light"}, drawings...))
		for i, p := range NewPlan(drawings, paper).Pages {
			middle := int((paper.sheet(p.Sideways).h - margin - barHigh/2) * dpi / 25.4)
			page := strconv.Itoa(i + 1)
			row := reader.Picture(t, reader.Run(t, nil, "pdftoppm", "-r", strconv.Itoa(dpi), // one row of pixels
				"-f", page, "-l", page, "-x", "0", "-y", strconv.Itoa(middle), "-W", "7100", "-H", "1", path))
			var got []float64
			for _, run := range darkRuns(row, 0, dpi) {
				got = append(got, run[1]-run[0])
			}
			if len(got) < 2 || math.Abs(got[0]-50) > tolerance || math.Abs(got[1]-50.8) > tolerance {
				t.Errorf("%s, page %d: the bars are %.3f mm long, want 50 and 50.8", paper.Name, i+1, got)
			}
		}
	}
}

// darkRuns returns where a row of a picture is dark, in mm; gaps of less than 0.5 mm do not part a run.
func darkRuns(im image.Image, y int, dpi float64) [][2]float64 {
	var runs [][2]float64
	b := im.Bounds()
	for x := b.Min.X; x < b.Max.X; x++ {
		r, g, bl, _ := im.At(x, y).RGBA()
		if (r+g+bl)/3 > 0x8000 {
			continue
		}
		from, to := float64(x-b.Min.X)*25.4/dpi, float64(x+1-b.Min.X)*25.4/dpi
		if n := len(runs); n > 0 && from-runs[n-1][1] < 0.5 {
			runs[n-1][1] = to
			continue
		}
		runs = append(runs, [2]float64{from, to})
	}
	return runs
}

// TestWords reads the words back page by page.
func TestWords(t *testing.T) {
	reader.Need(t, "pdftotext")
	drawings := append(strips(), large())
	o := SheetOptions{Paper: Letter(), Title: "Harbour light"}
	plan := NewPlan(drawings, o.Paper)
	text := string(reader.Run(t, nil, "pdftotext", "-layout", reader.File(t, "d.pdf", sheets(t, o, drawings...)), "-"))
	pages := strings.Split(strings.TrimSuffix(text, "\f"), "\f")
	if len(pages) != len(plan.Pages) {
		t.Fatalf("%d pages, the plan has %d", len(pages), len(plan.Pages))
	}
	for i, page := range pages {
		want := []string{"Harbour light", "50 mm", "2 in", fmt.Sprintf("page %d of %d", i+1, len(pages)), "outer face towards you"}
		for _, p := range plan.Pages[i].Places {
			want = append(want, drawings[p.Drawing].Title)
			if p.Tiled() {
				want = append(want, fmt.Sprintf("row %d of %d, column %d of %d", p.Row, p.Rows, p.Column, p.Columns))
			}
		}
		for _, w := range want {
			if !strings.Contains(page, w) {
				t.Errorf("page %d lacks %q", i+1, w)
			}
		}
		for _, w := range []string{"print at 100 %,", "then measure this bar"} {
			if n := strings.Count(page, w); n != 2 {
				t.Errorf("page %d says %q %d times, want twice", i+1, w, n)
			}
		}
	}
	for _, w := range []string{"10½", "44.45 mm", "≈ 1⅝ in", "mountain: folds away from you", "valley: folds towards you"} {
		if !strings.Contains(text, w) {
			t.Errorf("the file lacks %q", w)
		}
	}
}

func TestSound(t *testing.T) {
	reader.Need(t, "qpdf")
	for name, file := range map[string][]byte{
		"sheets":     sheets(t, SheetOptions{Title: "Harbour light"}, append(strips(), large())...),
		"plain":      sheets(t, SheetOptions{Plain: true}, strips()...),
		"everything": conform.Bytes(t, Device{}, conform.Everything()),
	} {
		out := string(reader.Run(t, nil, "qpdf", "--check", reader.File(t, "d.pdf", file)))
		if !strings.Contains(out, "No syntax or stream encoding errors found") {
			t.Errorf("%s: %s", name, out)
		}
	}
}

// TestInfo reads title, dates and producer back, and that the fonts are embedded.
func TestInfo(t *testing.T) {
	reader.Need(t, "pdfinfo")
	file := reader.File(t, "d.pdf", sheets(t, SheetOptions{Title: "Möwe 10½", Created: time.Date(2026, 5, 4, 3, 2, 1, 0, time.UTC)}, strips()...))
	out := string(reader.Run(t, nil, "pdfinfo", "-isodates", file))
	for _, w := range []string{"Möwe 10½", "2026-05-04T03:02:01", "Producer:        Foldwright"} {
		if !strings.Contains(out, w) {
			t.Errorf("pdfinfo lacks %q:\n%s", w, out)
		}
	}
}

func TestRepeatable(t *testing.T) {
	made := func() [][]byte {
		return [][]byte{
			sheets(t, SheetOptions{Title: "x"}, append(strips(), large())...),
			conform.Bytes(t, Device{}, conform.Everything()),
		}
	}
	first := made()
	for range 3 {
		for i, file := range made() {
			if !bytes.Equal(file, first[i]) {
				t.Errorf("file %d differs from the one made before", i)
			}
		}
	}
	if bytes.Equal(conform.Bytes(t, Device{Created: time.Unix(1e9, 0)}, conform.Everything()), first[1]) {
		t.Error("the date given is not in the file")
	}
}

func TestRefuses(t *testing.T) {
	var b bytes.Buffer
	var refused *drawing.NotDrawableError
	var large *TooLargeError
	huge := drawing.New("huge", "huge")
	huge.W, huge.H = 6000, 10
	for name, c := range map[string]struct {
		err  error
		want func(error) bool
	}{
		"no size":           {Device{}.Write(&b, drawing.New("x", "x")), func(e error) bool { return errors.As(e, &refused) }},
		"no size, sheets":   {Sheets(&b, []*drawing.Drawing{drawing.New("x", "x")}, SheetOptions{}), func(e error) bool { return errors.As(e, &refused) }},
		"too long a page":   {Device{}.Write(&b, huge), func(e error) bool { return errors.As(e, &large) }},
		"nothing to print":  {Sheets(&b, nil, SheetOptions{}), func(e error) bool { return errors.Is(e, ErrNothing) }},
		"a broken writer":   {Device{}.Write(brokenWriter{}, conform.Everything()), func(e error) bool { return e != nil }},
		"a broken writer 2": {Sheets(brokenWriter{}, strips(), SheetOptions{}), func(e error) bool { return e != nil }},
	} {
		if !c.want(c.err) {
			t.Errorf("%s: got %v", name, c.err)
		}
	}
	if b.Len() > 0 {
		t.Errorf("%d bytes were written all the same", b.Len())
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("no room") }
