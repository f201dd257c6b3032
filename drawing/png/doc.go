// Package png paints a drawing as a PNG picture at a given number of dots per inch.
//
// The same roles give the same inks, widths and dashes as on the other devices; text is filled from the outlines of the
// Go fonts, unhinted, so that it is as wide as the layout measured it. The size in pixels is the size in mm times
// dpi / 25.4, rounded up to whole pixels; a millimetre is never stretched to fit. The file says its resolution (pHYs).
//
// Axes: y is turned over here, once. Exact: nothing; a picture is for looking at, not for cutting.
package png
