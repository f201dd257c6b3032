// Package foldwright is the root of a program for people who design dimensional cards of scored, folded and glued card
// stock. A maker writes a recipe; the program proves that the card lies flat and opens, and draws true-to-size templates.
//
// The root holds no code. The program is cmd/foldwright; the folders beside this file are its packages, from exact
// lengths (package length) upwards. ARCHITECTURE.md tells what each turns into what, deps_test.go holds the order in
// which they may import each other, and GLOSSARY.md says what the words mean.
package foldwright
