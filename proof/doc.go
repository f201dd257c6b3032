// Package proof runs every check on a card and says the outcome in one report.
//
// It turns the text of a recipe into a [Report]: what was read, the closed card (package flat), the way it opens (package
// fold), and all problems of all stages, sorted by place. A report prints itself for people ([Report.Print]) and encodes
// itself as JSON ([Report.JSON]); both say the same.
//
// A card is proven if it was read without an error, lies flat, opens, and stays within the size that it is to fit.
//
// Rules that it adds to those of the stages: gap, layer-clash, no-way-flat, flat-stopped, fits, likely-slip,
// opens-not,
// opens-short, opens-straight, panels-cross, mat-size, mat-window, vertex.
package proof
