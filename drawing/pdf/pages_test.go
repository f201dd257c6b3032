package pdf

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"foldwright/internal/reader"
)

// TestPages reads the words back page by page: each drawing has a page of its own, whole, however large it is.
func TestPages(t *testing.T) {
	reader.Need(t, "pdftotext")
	drawings := append(strips(), large())
	var b bytes.Buffer
	if err := Pages(&b, drawings, SheetOptions{Paper: Letter(), Title: "Cutting plan"}); err != nil {
		t.Fatal(err)
	}
	path := reader.File(t, "d.pdf", b.Bytes())
	text := string(reader.Run(t, nil, "pdftotext", "-layout", path, "-"))
	pages := strings.Split(strings.TrimSuffix(text, "\f"), "\f")
	if len(pages) != len(drawings) {
		t.Fatalf("%d pages for %d drawings", len(pages), len(drawings))
	}
	for i, page := range pages {
		for _, w := range []string{"Cutting plan", fmt.Sprintf("page %d of %d", i+1, len(pages))} {
			if !strings.Contains(page, w) {
				t.Errorf("page %d lacks %q", i+1, w)
			}
		}
	}
	if err := Pages(&b, nil, SheetOptions{}); !errors.Is(err, ErrNothing) {
		t.Errorf("no drawings: %v", err)
	}
}
