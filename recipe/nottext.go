package recipe

import (
	"bytes"
	"unicode"
	"unicode/utf8"
)

// fileKinds are the first bytes of files that people may hand over in place of a recipe (the signatures of the formats'
// own specifications).
var fileKinds = [...]struct{ begins, what string }{
	{"%PDF-", "a PDF"},
	{"\x89PNG\r\n\x1a\n", "a PNG picture"},
	{"\xff\xd8\xff", "a JPEG picture"},
	{"GIF8", "a GIF picture"},
	{"PK\x03\x04", "a zip archive, as the documents of office programs are"},
	{"\x1f\x8b", "a gzip archive"},
	{"{\\rtf", "a document with typefaces (RTF)"},
	{"<svg", "an SVG drawing"},
	{"<?xml", "an XML file, as SVG drawings are"},
	{"<!DOCTYPE", "a web page"},
	{"<html", "a web page"},
}

// NotText says what a file is that is no plain text, in words such as "a PDF"; "" for one that may be. Everything that reads
// a text that people hand over asks it, so that all say the same.
func NotText(text []byte) string {
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	for _, k := range fileKinds {
		if bytes.HasPrefix(text, []byte(k.begins)) {
			return k.what
		}
	}
	const looked, tenth = 4096, 10
	head := text[:min(len(text), looked)]
	odd, all := 0, 0
	for i := 0; i < len(head); all++ {
		r, n := utf8.DecodeRune(head[i:])
		if r == utf8.RuneError && n == 1 || unicode.IsControl(r) && !unicode.IsSpace(r) {
			odd++
		}
		i += n
	}
	if all >= 2*tenth && odd*tenth > all { // a few such bytes in a text are told where they stand
		return "no text: more than a tenth of its characters cannot be read"
	}
	return ""
}
