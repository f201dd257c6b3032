// Package svg writes a drawing as a true-to-size SVG file: width and height in mm and a viewBox in mm, so that one unit
// of the file is one millimetre (CSS: 1 in = 96 px = 25.4 mm).
//
// Every group of the drawing is a plain <g> whose id is the group's name, cut, score and mark among them; each shape has
// its role as class and its ink, width and dashes as attributes, so that the file needs no style sheet and a style
// sheet may still change it. Colours, layers and units are plain SVG 1.1; nothing is scaled, clipped or nested, so that
// any program that reads paths gets the lines as they are.
//
// Axes: a drawing has y up, an SVG y down; y is turned over here, once, and printed with 0.001 mm ([drawing.Number]).
//
// Text is set in the reader's own sans-serif; its width may differ from the layout's by the reserve of
// [drawing.TextRoom]. No other device's fonts are embedded.
package svg
