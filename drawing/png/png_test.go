package png

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/png"
	"testing"

	"foldwright/drawing"
	"foldwright/drawing/conform"
)

func decode(t testing.TB, data []byte) image.Image {
	t.Helper()
	im, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return im
}

func TestConform(t *testing.T) {
	conform.Run(t, func(t testing.TB, d *drawing.Drawing) image.Image {
		return decode(t, conform.Bytes(t, Device{DPI: conform.DPI}, d))
	})
}

func TestSize(t *testing.T) {
	d := drawing.New("x", "x")
	d.Add(drawing.GroupCut, drawing.Rect(drawing.Style{}, drawing.Cut, drawing.Point{}, drawing.Point{X: 50, Y: 20}))
	for _, c := range []struct {
		w, h, dpi    float64
		wantW, wantH int
		perMetre     uint32
	}{
		{50.8, 25.4, 0, 300, 150, 5906}, // 2 in and 1 in at the usual 150
		{50.8, 25.4, 300, 600, 300, 11811},
		{254, 127, 96, 960, 480, 3780},
		{10.1, 10, 254, 101, 100, 10000},
		{10.11, 10, 254, 102, 100, 10000}, // a part of a pixel is a pixel
		{50.8, 25.4, -3, 300, 150, 5906},
	} {
		d.W, d.H = c.w, c.h
		data := conform.Bytes(t, Device{DPI: c.dpi}, d)
		if got := decode(t, data).Bounds().Size(); got.X != c.wantW || got.Y != c.wantH {
			t.Errorf("%g x %g mm at %g dpi is %v pixels, want %d x %d", c.w, c.h, c.dpi, got, c.wantW, c.wantH)
		}
		at := bytes.Index(data, []byte("pHYs"))
		if at < 0 {
			t.Fatal("the file does not say its resolution")
		}
		x, y := binary.BigEndian.Uint32(data[at+4:]), binary.BigEndian.Uint32(data[at+8:])
		if x != c.perMetre || y != c.perMetre || data[at+12] != 1 {
			t.Errorf("the file says %d x %d pixels per unit %d, want %d per metre", x, y, data[at+12], c.perMetre)
		}
	}
}

func TestGround(t *testing.T) {
	d := drawing.New("x", "x")
	d.Add(drawing.GroupMark, drawing.Circle(drawing.Solid.Fill(), drawing.None, drawing.Point{X: 5, Y: 5}, 1))
	d.W, d.H = 10, 10
	for ground, want := range map[Ground][4]uint32{White: {255, 255, 255, 255}, PaperTone: {251, 249, 243, 255}, Clear: {0, 0, 0, 0}} {
		r, g, b, a := decode(t, conform.Bytes(t, Device{Ground: ground}, d)).At(2, 2).RGBA()
		if got := [4]uint32{r >> 8, g >> 8, b >> 8, a >> 8}; got != want {
			t.Errorf("ground %d is %v, want %v", ground, got, want)
		}
	}
}

func TestRepeatable(t *testing.T) {
	for _, s := range conform.Strips() {
		if !bytes.Equal(conform.Bytes(t, Device{}, s.Drawing()), conform.Bytes(t, Device{}, s.Drawing())) {
			t.Errorf("%s: two pictures differ", s.Name)
		}
	}
}

func TestRefuses(t *testing.T) {
	d := drawing.New("huge", "huge")
	d.W, d.H = 10_000, 10_000
	var b bytes.Buffer
	var large *TooLargeError
	if err := (Device{DPI: 300}).Write(&b, d); !errors.As(err, &large) || b.Len() != 0 {
		t.Errorf("10 x 10 m at 300 dpi: %v, %d bytes written", err, b.Len())
	}
	var refused *drawing.NotDrawableError
	if err := (Device{}).Write(&b, drawing.New("x", "x")); !errors.As(err, &refused) || b.Len() != 0 {
		t.Errorf("a drawing without a size: %v, %d bytes written", err, b.Len())
	}
	if err := (Device{}).Write(brokenWriter{}, small()); err == nil {
		t.Error("an error of the writer is lost")
	}
}

func small() *drawing.Drawing {
	d := drawing.New("x", "x")
	d.W, d.H = 1, 1
	return d
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("no room") }
