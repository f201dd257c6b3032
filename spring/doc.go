// Package spring says what the folds of a card do: how stiff its stock is and how strongly its folds push.
//
// Two bench tests turn what anybody can read with a ruler into the numbers of a stock line: [DroopTest] (a strip over
// the edge of a table) gives the bending stiffness per width in mN·m, [FlapTest] (a known weight on a folded strip) the
// stiffness of a crease per length in N/rad and the fold angle that it remembers. Every result carries one standard
// deviation, from the errors of reading (see [Measured]).
//
// Words and units: bending stiffness B is torque per width and curvature, in mN·m, which is N·mm; crease stiffness κ is
// torque per length of crease and radian, in N/rad, which is N·mm per mm and radian; energies are in mJ, which is N·mm;
// angles are radians inside, and a fold angle is 0 on a flat sheet and π where it is folded shut.
//
// [Assumptions.Mechanics] gives the numbers of a stock: what its line of the recipe says, and for the rest what
// data/mechanics.csv assumes for its caliper, with its range and how weak the source is.
//
// [New] makes a card that can be posed springy. Its energy is quadratic in the fold angles: each crease stores ½ k (θ -
// rest)², k its stiffness per length times its scored length, and panels bend as plates across their creases.
// [Model.Rest] finds where the card stays by itself, [Model.Held] what it pushes with when two of its panels are held,
// [Model.Opening] how energy and force go from closed to rest, and [Model.Others] where else the card could stay.
//
// [Build] does it from a card, [Model.Report] says all of it at once, [Model.Feel] in a word with the thresholds beside it,
// [Model.Cures] what to change and what that does, [Model.Tune] turns one thing until a wish is met.
//
//	       card ──New──> Model ──Rest──> pose, energy, size
//	stock line ──Assumptions──┘  └──Held──> force
//
// Panels that bend: a panel of width w and stiffness B has two end turns a, b against its chord and stores 2 B h/w (a²
// + ab + b²) (slope-deflection; Maney 1915, from memory); a fold is the turn of the chords plus the end turns beside
// it. All that is quadratic, so the end turns are eliminated once, and what is left is a stiffness over the fold angles
// of the chords. Panels that glue holds together are one body whose stiffnesses add; where creases that are not
// parallel meet in a body it counts as rigid (see [Model.Rigid]).
//
// Formulas and their sources: the sagging strip is the exact elastica, integrated ([Sag]; Peirce's classic formula of
// 1930, [Peirce], is there for comparison and reads 6 % too stiff at the usual 41.5 degrees); the strip with a load at
// its tip is that of Bisshopp and Drucker 1945 ([TipLoaded]); the flap is a balance of torques, derived at
// [FlapTest.Crease].
//
// Approximate: a bent panel's force is within 0.4 % of the exact curve for pleats with κ w/B up to 0.3 and within 4 %
// at 4.5 (testdata/check, *_curve.csv). A body that more than two creases meet is taken to rest on its outermost ones,
// forces across it at the others left out; windows count by their area alone; mats and toppers do not stiffen what they
// lie on. Weight is left out.
//
// Panels lean against each other where the edge of one would go through the face of another; card gives way there a
// little, as card does (package fold). A row of springs can stand straight and yet on a ridge: a nudge would let it lean
// to one side until leaves touch, which gains a few hundredths of the energy. Creases lose more than that to their own
// friction (they answer differently on the way open and shut), so the straight way is what is followed and reported, with
// the steps on a ridge marked ([Step.Ridge]), and [Model.Lean] says where a nudge leads. Folds that mirror each other are
// kept alike on that way (alike.go). Where leaves lean on the wall and push the halves of a spring unequally, those are
// kept alike all the same and the pose is marked ([Rest.Helped]): its forces are those of a card that somebody guides. The way is followed from rest
// to closed, in balance at every step: what is said of a card that flips ([Push.Snaps]) holds for the way that it was
// followed, and the flip of the way open may come later. The last hundredths before closed are continued, not followed.
// All is floating point, good to about nine digits; what
// limits it is the card. Sheets are taken to bend in proportion to the torque, and creases to be linear near where they
// were read, which paper is only roughly: creases creep with the logarithm of time and answer differently on the way
// open and on the way shut (Farain 2020, Phys. Rev. Applied 13:014031; Jules, Lechenault and Adda-Bedia 2019).
package spring
