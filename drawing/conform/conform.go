package conform

import (
	"bytes"
	"fmt"
	"image"
	"math"
	"testing"

	"foldwright/drawing"
)

// DPI is the resolution at which devices are judged: ten pixels to a millimetre.
const DPI = 254

// Raster returns a picture, on white, of what a device makes of a drawing, DPI dots per inch.
type Raster func(t testing.TB, d *drawing.Drawing) image.Image

// Bytes returns the file that a device makes of a drawing.
func Bytes(t testing.TB, o drawing.Device, d *drawing.Drawing) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := o.Write(&b, d); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Run judges a device by its pictures.
func Run(t *testing.T, raster Raster) {
	all := Cases()
	if len(all) < 40 {
		t.Fatalf("only %d cases", len(all))
	}
	for _, c := range all {
		t.Run(c.Name, func(t *testing.T) {
			if len(c.Ink)+len(c.Filled) == 0 {
				t.Fatal("the case asks for nothing")
			}
			p := picture{raster(t, c.Drawing), c.Drawing}
			for _, f := range p.faults(c) {
				t.Error(f)
			}
		})
	}
}

// Case is a drawing and what its picture must show.
type Case struct {
	Name    string
	Drawing *drawing.Drawing
	// Ink are places that must show a colour, Bare places that must be white.
	Ink  []Probe
	Bare []drawing.Point
	// Filled are areas of which at least a part must be dark; outside all of them the picture must be white.
	Filled []Area
}

// Probe is a place and its colour.
type Probe struct {
	At     drawing.Point
	Colour drawing.Colour
}

// Area is a box in which a text stands; Dark is the least part of it that ink covers.
type Area struct {
	Box  drawing.Box
	Dark float64
}

// picture is a raster of a drawing.
type picture struct {
	im image.Image
	d  *drawing.Drawing
}

const perMM = DPI / 25.4

// at returns the colour at a place of the drawing.
func (p picture) at(q drawing.Point) drawing.Colour {
	b := p.im.Bounds()
	x := b.Min.X + int(math.Floor(q.X*perMM))
	y := b.Min.Y + int(math.Floor((p.d.H-q.Y)*perMM))
	return p.pixel(x, y)
}

func (p picture) pixel(x, y int) drawing.Colour {
	r, g, b, _ := p.im.At(x, y).RGBA()
	return drawing.Colour{R: uint8(r >> 8), G: uint8(g >> 8), B: uint8(b >> 8)}
}

// colourSlack is how far each channel may be off: readers round and smooth differently.
const colourSlack = 14

func same(a, b drawing.Colour) bool {
	off := func(a, b uint8) bool { return math.Abs(float64(a)-float64(b)) > colourSlack }
	return !off(a.R, b.R) && !off(a.G, b.G) && !off(a.B, b.B)
}

func (p picture) faults(c Case) []string {
	var out []string
	size := p.im.Bounds().Size()
	if w, h := int(math.Round(c.Drawing.W*perMM)), int(math.Round(c.Drawing.H*perMM)); abs(size.X-w) > 1 || abs(size.Y-h) > 1 {
		out = append(out, fmt.Sprintf("the picture is %d x %d pixels, want %d x %d", size.X, size.Y, w, h))
	}
	for _, q := range c.Ink {
		if got := p.at(q.At); !same(got, q.Colour) {
			out = append(out, fmt.Sprintf("at (%g,%g) mm is %s, want %s", q.At.X, q.At.Y, got.Hex(), q.Colour.Hex()))
		}
	}
	for _, q := range c.Bare {
		if got := p.at(q); !same(got, drawing.White()) {
			out = append(out, fmt.Sprintf("at (%g,%g) mm is %s, want nothing", q.X, q.Y, got.Hex()))
		}
	}
	if len(c.Filled) > 0 {
		out = append(out, p.areaFaults(c.Filled)...)
	}
	return out
}

// areaFaults counts dark pixels in the areas and looks for any outside of them.
func (p picture) areaFaults(areas []Area) []string {
	var out []string
	dark := make([]int, len(areas))
	b := p.im.Bounds()
	stray := 0
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if p.pixel(x, y).Luminance() > 0.5 {
				continue
			}
			q := drawing.Point{X: (float64(x-b.Min.X) + 0.5) / perMM, Y: p.d.H - (float64(y-b.Min.Y)+0.5)/perMM}
			found := false
			for i, a := range areas {
				if a.Box.Min.X <= q.X && q.X <= a.Box.Max.X && a.Box.Min.Y <= q.Y && q.Y <= a.Box.Max.Y {
					dark[i]++
					found = true
				}
			}
			if !found {
				stray++
			}
		}
	}
	if stray > 0 {
		out = append(out, fmt.Sprintf("%d dark pixels lie outside the places for words", stray))
	}
	for i, a := range areas {
		if part := float64(dark[i]) / (a.Box.W() * a.Box.H() * perMM * perMM); part < a.Dark {
			out = append(out, fmt.Sprintf("only %.3f of the box %+v is dark, want %.3f", part, a.Box, a.Dark))
		}
	}
	return out
}

func abs(n int) int {
	if n < 0 {
		return -n
	}
	return n
}
