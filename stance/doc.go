// Package stance says whether an open card stands, how far it may be tilted before it tips, and what ornament tips it.
//
// A card stands on the lowest points of its pose; it is taken as rigid, on a level table. Where it does not stand upright it
// leans, about the edge over which it falls, until more of it touches the table, as an easel does. It stands where the vertical
// through its centre of mass falls inside the polygon around those points, and tips towards a side once the table is
// tilted towards it so far that the vertical leaves the polygon.
//
//	y up                      z
//	|   /z towards you        |  ┌──────────┐  polygon of the contacts, from above
//	|  /                      |  │   +      │  + below the centre of mass
//	| /                       |  └──────────┘
//	+------ x to the right    +------------ x
//
// Words: a margin is how far the centre of mass lies inside the polygon, in millimetres, negative where it lies outside. A
// tip angle is the tilt of the table, in radians, at which the card tips. A weight is a mass in grams that is fixed to a
// point of the card.
//
// Masses are areas times grammage, for panels less their windows and for mats and toppers; a thick topper weighs what one
// layer of its stock weighs, since nobody says what holds it off, and stands off its panel by half its thickness. Glue weighs nothing.
// All is floating point. Source of the rule: statics of a rigid body on points, any handbook; the values of testdata/check
// are worked examples from outside the program.
//
// Not judged: bending under its own weight, wind, a sloping table whose surface lets the card slide.
package stance
