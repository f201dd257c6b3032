// Package conform holds sample drawings and the test that every device must pass: what a drawing says is drawn, in its
// place, in its ink, and nothing is dropped. For tests only.
//
// A device is judged by a picture of what it wrote, made by a reader of other hands (rsvg-convert for SVG, pdftoppm for
// PDF): places that must show an ink, places that must stay bare.
package conform
