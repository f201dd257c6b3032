package cutlist

import (
	"strings"
	"testing"
)

// Files that are no text are refused as what they are (first bytes: the signatures in the formats' own specifications);
// text in any other form is not.
func TestNotText(t *testing.T) {
	list := "Wall 10 x 3 in, score at 2 and 4\nRoof 25 x 8 cm, score at 5 cm\nTail 90 x 20 mm, score at 30 mm\n"
	for _, test := range []struct{ text, rule, what string }{
		{"%PDF-1.7\n" + list, "not-text", "the file is a PDF"},
		{"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR", "not-text", "the file is a PNG picture"},
		{"\xff\xd8\xff\xe0\x00\x10JFIF", "not-text", "the file is a JPEG picture"},
		{"PK\x03\x04\x14\x00\x06\x00" + list, "not-text", "the file is a zip archive, as the documents of office programs are"},
		{`{\rtf1\ansi ` + list + "}", "not-text", "the file is a document with typefaces (RTF)"},
		{strings.Repeat("\x00\x9c", 100), "not-text", "the file is no text: more than a tenth of its characters cannot be read"},
		{list + "\xe9t\xe9", "encoding", "the text is not UTF-8"},
		{"\ufeff" + list, "", ""},
		{"<html><body>" + list + "</body></html>", "", ""},
		{"<!DOCTYPE html>\n" + list, "", ""},
	} {
		r := read(t, test.text, nil)
		switch {
		case test.rule == "" && (r.Card == nil || len(r.Card.Pieces) != 3 || r.Problems.HasErrors()):
			t.Errorf("%.30q: %v", test.text, r.Problems)
		case test.rule != "" && (r.Found != 1 || len(r.Problems) != 1 || r.Problems[0].Rule != test.rule || r.Problems[0].What != test.what):
			t.Errorf("%.30q: %d found, %v", test.text, r.Found, r.Problems)
		}
	}
}

// All problems are counted, also those beyond what a person reads.
func TestFound(t *testing.T) {
	r := read(t, strings.Repeat("Score at 5 mm.\n", 1234), nil)
	if r.Found != 1234 || len(r.Problems) != 101 {
		t.Errorf("%d found, %d told", r.Found, len(r.Problems))
	}
}
