// Package plane is exact geometry in the flat: points on whole nanometres, the side of a line, the eight turns and
// flips that keep a ruler grid, and the subdivision of the plane by line segments into faces.
//
// Axes: x to the right (across), y up. Turning is counter-clockwise.
//
//	y
//	^    left of a→b
//	|   b
//	|  /
//	| a        right of a→b
//	+--------> x
//
// Exact: [Side], [Grid] and everything built from lengths up to [length.Max]. Rounded to the nearest nanometre, once:
// the crossing of two slanted segments ([Subdivide]).
package plane
