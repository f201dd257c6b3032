// Package fold poses a card in space: from the closed card that package flat proved to the open one.
//
// Every hinge has one angle. A spanning tree of hinges and glue joints hangs every panel on the first; each further hinge
// or joint is a loop that must meet itself, and the poses are the angles at which all loops do.
//
// Words and signs: the fold angle is 0 where the sheet is flat and π where it is folded shut; a mountain is positive, a
// valley negative. A panel's frame takes points of its pattern (x across, y up, z out of the outer face, millimetres)
// into space. The room's axes are those of the closed card: x across, y up, z towards whoever looks at its front; the panel
// at the front of the card faces z in every pose.
//
//	      z (towards you)          fold angle θ of a hinge seen along From→To
//	      |   y (up)               ______ θ = 0
//	      |  /                           \ θ > 0: mountain, bends away from the outer face
//	      | /
//	------+------ x (across)
//
// Method: least squares with damping (Levenberg 1944, Marquardt 1963) on three points per loop, with the Jacobian written
// out: a hinge moves a point p behind it by axis × (p - o). Angles are bounded by the sense of their score. The path is
// followed with warm starts. Mobility is the number of angles less the rank of the loop Jacobian at a general pose.
//
// [Model.Minimise] finds the pose in which springy folds balance, for an energy that somebody else names (package spring):
// an augmented Lagrangian with Newton steps, second derivatives of the loops written out. A [Seeker] follows such poses along
// a way, does not let panels through each other, and can press the card between two plates.
//
// Approximate: poses are floats; the loop error of each is reported and is below a millionth of a millimetre where a pose
// counts as found. Panels are rigid and without thickness. Forces and the true rest pose are the business of package
// spring: what is called open here, for a card that opens by itself, is the pose in which every fold stands as near as
// the loops let it to the angle that its stock remembers, all creases alike.
package fold
