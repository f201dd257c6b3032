// Package reader runs programs of other hands that read what we write: a PDF or a picture is right when somebody else's
// reader says so. For tests only.
//
// The programs come with the Debian packages poppler-utils (pdfinfo, pdftoppm, pdftotext), qpdf and librsvg2-bin
// (rsvg-convert). Where one is missing the test is skipped with a line that says so; where the environment says CI=true
// it fails, so that no check can vanish unseen.
package reader
