// Package care says what the errors of a hand do to a card: how far glue joints miss, how the closed size varies, and which
// measurements want the most care.
//
// A person cuts and scores at marks, and misses each of them by a little. Every line of every copy of a piece is taken to
// be off by an error of its own, independent of all others, normally distributed, with the standard deviation of a cut or
// of a score (see [Hand]). The left and the lower edge are where the ruler starts and are off by nothing; all that lies on
// one line of a piece (a score, the ends of slits, corners) moves together.
//
//	card, Hand ──Study──> gap of every joint, closed size, chance that it fits, lines by their share
//
// Words: a gap is how far a glued panel lands from where its glue line wants it, where all joints glued before it are glued
// true (see [foldwright/flat.Misses]). Lengths of a spread are standard deviations in millimetres. A share is the part of the
// variance of all gaps together that comes from one line; for a card without loops, of the variance of the closed size.
//
// Exact for level and upright scores: gaps are sums of measurements with whole factors, so their variance is the sum of the
// squared factors times the variances (law of propagation of uncertainty, JCGM 100:2008, 5.1.2; from memory). For slanted
// scores the factors are those of small errors. The closed size is the largest of many such sums, so its spread and the
// chance that it fits are counted over seeded samples.
//
// Not judged: errors in placing glue, folds that do not follow their score, card that swells.
package care
