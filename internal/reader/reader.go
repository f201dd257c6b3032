package reader

import (
	"bytes"
	"image"
	_ "image/png" // pdftoppm and rsvg-convert write PNG
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
	"xmllint":      "libxml2-utils",
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

// Picture decodes a PNG.
func Picture(t testing.TB, data []byte) image.Image {
	t.Helper()
	im, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatalf("read picture: %v", err)
	}
	return im
}
