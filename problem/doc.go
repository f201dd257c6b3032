// Package problem says what is wrong, where, and what would be right.
//
// A [Problem] is a plain value. Engine packages collect problems in a [List]; the command line, the page and the JSON
// all print the same ones, sorted by place. Rule is a stable id: a test applies each Try and sees the problem gone.
package problem
