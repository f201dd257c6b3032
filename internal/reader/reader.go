package reader

import (
	"bytes"
	"fmt"
	"image"
	_ "image/png" // rsvg-convert writes PNG
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// packages names the Debian package that holds a program.
var packages = map[string]string{
	"pdfinfo":      "poppler-utils",
	"pdftoppm":     "poppler-utils",
	"pdftotext":    "poppler-utils",
	"qpdf":         "qpdf",
	"rsvg-convert": "librsvg2-bin",
}

// Need returns the path of a program. Where it is not installed the test is skipped, or fails if CI is "true".
func Need(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	const why = "%s is not installed (Debian: apt-get install %s), so what it would read is not checked"
	if os.Getenv("CI") == "true" {
		t.Fatalf(why, name, packages[name])
	}
	t.Skipf(why, name, packages[name])
	return ""
}

// Run runs a program that must end well and returns what it printed. in is given on its standard input.
func Run(t testing.TB, in []byte, name string, args ...string) []byte {
	t.Helper()
	cmd := exec.Command(Need(t, name), args...)
	cmd.Stdin = bytes.NewReader(in)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	if err := cmd.Run(); err != nil {
		t.Fatalf("%s %v: %v\n%s%s", name, args, err, out.Bytes(), errs.Bytes())
	}
	return out.Bytes()
}

// File writes data to a file in the test's own directory and returns its path.
func File(t testing.TB, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// Picture decodes a PNG or a PPM with 8 bits a colour ("P6", what pdftoppm writes fastest).
func Picture(t testing.TB, data []byte) image.Image {
	t.Helper()
	if bytes.HasPrefix(data, []byte("P6")) {
		return ppm(t, data)
	}
	im, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("read picture: %v", err)
	}
	return im
}

// ppm decodes a portable pixmap. Source: netpbm, ppm(5).
func ppm(t testing.TB, data []byte) image.Image {
	t.Helper()
	var w, h, most int
	if _, err := fmt.Sscanf(string(data[:min(len(data), 40)]), "P6\n%d %d\n%d", &w, &h, &most); err != nil || most != 255 {
		t.Fatalf("read pixmap: %d x %d, up to %d: %v", w, h, most, err)
	}
	pixels := data[max(0, len(data)-3*w*h):]
	im := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range len(pixels) / 3 {
		copy(im.Pix[4*i:], pixels[3*i:3*i+3])
		im.Pix[4*i+3] = 0xff
	}
	return im
}
