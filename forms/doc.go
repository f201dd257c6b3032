// Package forms is the catalogue: card recipes, each another mechanism, each proven by a test (package proof) and drawn.
//
// A new form is one text file in this folder, no Go. The cards are those of a two-person studio on a harbour.
package forms
