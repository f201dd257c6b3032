package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"image"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"foldwright/drawing"
	"foldwright/drawing/conform"
	"foldwright/internal/golden"
	"foldwright/internal/reader"
)

// TestConform judges the files by what rsvg-convert (librsvg) shows.
func TestConform(t *testing.T) {
	reader.Need(t, "rsvg-convert")
	dpi := strconv.Itoa(conform.DPI)
	conform.Run(t, func(t testing.TB, d *drawing.Drawing) image.Image {
		file := reader.File(t, "d.svg", conform.Bytes(t, Device{}, d))
		return reader.Picture(t, reader.Run(t, nil, "rsvg-convert", "-d", dpi, "-p", dpi, "-b", "white", file))
	})
}

// golden files: everything that a drawing may hold, the strips, and each option.
func TestGolden(t *testing.T) {
	dir := golden.In(t, "testdata/golden")
	dir.Compare(t, "everything.svg", conform.Bytes(t, Device{}, conform.Everything()))
	for _, s := range conform.Strips() {
		dir.Compare(t, s.Name+".svg", conform.Bytes(t, Device{}, s.Drawing()))
	}
	wall := conform.Strips()[0].Drawing()
	dir.Compare(t, "wall-template.svg", conform.Bytes(t, Device{Template: true}, wall))
	dir.Compare(t, "wall-in-page.svg", conform.Bytes(t, Device{Template: true, Inline: true, Prefix: "p3-", Ground: true}, wall))
}

// element is a part of a file as encoding/xml reads it.
type element struct {
	name string
	attr map[string]string
	text string
}

// parse reads a whole file; it stops the test if the file is not well formed.
func parse(t testing.TB, data []byte) []element {
	t.Helper()
	var all []element
	var open []int
	dec := xml.NewDecoder(bytes.NewReader(data))
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well formed: %v", err)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			e := element{name: tok.Name.Local, attr: map[string]string{}}
			for _, a := range tok.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			open = append(open, len(all))
			all = append(all, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				all[open[len(open)-1]].text += string(tok)
			}
		}
	}
	if len(open) > 0 {
		t.Fatal("the file ends inside an element")
	}
	return all
}

func ids(elements []element) []string {
	var out []string
	for _, e := range elements {
		if id := e.attr["id"]; id != "" {
			out = append(out, id)
		}
	}
	return out
}

func TestStructure(t *testing.T) {
	d := conform.Strips()[0].Drawing()
	all := parse(t, conform.Bytes(t, Device{}, d))
	root := all[0]
	if root.attr["width"] != drawing.Number(d.W)+"mm" || root.attr["height"] != drawing.Number(d.H)+"mm" ||
		root.attr["viewBox"] != "0 0 "+drawing.Number(d.W)+" "+drawing.Number(d.H) {
		t.Errorf("one unit is not one millimetre: %v", root.attr)
	}
	if root.attr["role"] != "img" || root.attr["aria-labelledby"] != "title desc" {
		t.Errorf("the drawing is not described: %v", root.attr)
	}
	want := []string{"title", "desc", "panel", "glue", "score", "cut", "dimension", "text", "legend"}
	if got := ids(all); !slices.Equal(got, want) {
		t.Errorf("ids %v, want %v", got, want)
	}
	shapes := 0
	for _, e := range all {
		if e.name == "path" || e.name == "text" || e.name == "ellipse" {
			shapes++
			if e.attr["class"] == "" {
				t.Errorf("a %s has no class", e.name)
			}
		}
		if e.attr["style"] != "" {
			t.Errorf("a %s has a style attribute; attributes of their own are read by more programs", e.name)
		}
	}
	if want := len(d.Shapes()); shapes != want {
		t.Errorf("%d shapes are written, the drawing has %d", shapes, want)
	}
}

// TestTemplate: only the groups cut, score and mark, true to size.
func TestTemplate(t *testing.T) {
	all := parse(t, conform.Bytes(t, Device{Template: true}, conform.Strips()[0].Drawing()))
	if got, want := ids(all), []string{"title", "desc", "score", "cut"}; !slices.Equal(got, want) {
		t.Errorf("ids %v, want %v", got, want)
	}
	var cut string
	for _, e := range all {
		if e.attr["class"] == "cut" {
			cut = e.attr["d"]
		}
	}
	if want := "M1 73H253V1H1Z"; cut != want { // 252 x 72 mm with 1 mm around
		t.Errorf("the cut is %q, want %q", cut, want)
	}
}

func TestOptions(t *testing.T) {
	d := conform.Strips()[0].Drawing()
	file := conform.Bytes(t, Device{Inline: true, Prefix: "p3-", Ground: true}, d)
	if !bytes.HasPrefix(file, []byte("<svg ")) {
		t.Errorf("an inline drawing begins with %.20q", file)
	}
	all := parse(t, file)
	for _, id := range ids(all) {
		if !strings.HasPrefix(id, "p3-") {
			t.Errorf("the id %q has no prefix", id)
		}
	}
	if all[0].attr["aria-labelledby"] != "p3-title p3-desc" {
		t.Errorf("labelled by %q", all[0].attr["aria-labelledby"])
	}
	if !strings.Contains(string(file), `class="ground"`) {
		t.Error("there is no ground")
	}
}

// TestPixels: librsvg shows a drawing in its true size: mm times dpi / 25.4.
func TestPixels(t *testing.T) {
	reader.Need(t, "rsvg-convert")
	for _, s := range conform.Strips() {
		d := s.Drawing()
		file := reader.File(t, "d.svg", conform.Bytes(t, Device{}, d))
		for _, dpi := range []float64{96, 254} {
			n := strconv.Itoa(int(dpi))
			got := reader.Picture(t, reader.Run(t, nil, "rsvg-convert", "-d", n, "-p", n, file)).Bounds().Size()
			if w, h := d.W*dpi/25.4, d.H*dpi/25.4; math.Abs(float64(got.X)-w) > 1 || math.Abs(float64(got.Y)-h) > 1 {
				t.Errorf("%s at %g dpi is %v pixels, want %.1f x %.1f", s.Name, dpi, got, w, h)
			}
		}
	}
}

func TestRepeatable(t *testing.T) {
	for _, s := range conform.Strips() {
		if !bytes.Equal(conform.Bytes(t, Device{}, s.Drawing()), conform.Bytes(t, Device{}, s.Drawing())) {
			t.Errorf("%s: two files differ", s.Name)
		}
	}
}

func TestRefuses(t *testing.T) {
	var b bytes.Buffer
	var refused *drawing.NotDrawableError
	if err := (Device{}).Write(&b, drawing.New("x", "x")); !errors.As(err, &refused) || b.Len() != 0 {
		t.Errorf("a drawing without a size: %v, %d bytes written", err, b.Len())
	}
	if err := (Device{}).Write(brokenWriter{}, conform.Everything()); err == nil {
		t.Error("an error of the writer is lost")
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("no room") }

// FuzzWords: whatever a text says, the file is well formed and says it, but for characters that XML cannot hold.
func FuzzWords(f *testing.F) {
	for _, s := range []string{"10½", "<b>", "a & b", "]]>", "\"'", "\x00\x1f", "\xff\xfe", "鷗 🕊", "", "\u2028\r\n\t", "\ufeff"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, words string) {
		d := drawing.New("x", words)
		d.Desc = words
		d.Add(drawing.GroupText, drawing.Text{Role: drawing.TextPlain, Words: words, Size: 3})
		d.W, d.H = 10, 10
		var texts []string
		for _, e := range parse(t, conform.Bytes(t, Device{}, d)) {
			if e.name == "text" || e.name == "title" {
				texts = append(texts, e.text)
			}
		}
		want := holdable(words)
		if !slices.Equal(texts, []string{want, want}) {
			t.Errorf("%q is read back as %q", words, texts)
		}
	})
}

// holdable replaces what XML 1.0 cannot hold (section 2.2) by U+FFFD.
func holdable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\n' || r == '\r', r >= 0x20 && r <= 0xd7ff, r >= 0xe000 && r <= 0xfffd, r >= 0x10000 && r <= 0x10ffff:
			return r
		}
		return '\ufffd'
	}, s)
}

func ExampleDevice() {
	d := drawing.New("square", "a square")
	d.Add(drawing.GroupCut, drawing.Rect(drawing.Style{}, drawing.Cut, drawing.Point{X: 1, Y: 1}, drawing.Point{X: 11, Y: 11}))
	d.W, d.H = 12, 12
	if err := (Device{}).Write(os.Stdout, d); err != nil {
		fmt.Println(err)
	}
	// Output:
	// <?xml version="1.0" encoding="UTF-8"?>
	// <svg xmlns="http://www.w3.org/2000/svg" width="12mm" height="12mm" viewBox="0 0 12 12" role="img" aria-labelledby="title">
	// <title id="title">a square</title>
	// <g id="cut">
	// <path class="cut" d="M1 11H11V1H1Z" fill="none" stroke="#1f2a33" stroke-width="0.5" stroke-linejoin="round"/>
	// </g>
	// </svg>
}
