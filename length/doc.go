// Package length holds the measurements that a person will cut and score: exact, in whole nanometres.
//
// It turns what a maker writes ("10 1/2 in", "10½", "267 mm") into a [Length] and back, and puts lengths on ruler
// marks. One inch is 25 400 000 nm (international yard, 1959: 0.9144 m exactly), so 1/64 in = 396 875 nm and every
// mark of a metric or an inch ruler is a whole number of nanometres.
//
// Exact: reading, adding, printing with [Length.Exact]. What cannot be held exactly is refused by [Parse] with its two
// neighbours. Approximate, and marked "≈": printing in the other unit with [Length.Human].
//
// It does not do areas or angles, and no float is ever a measurement: [Length.MM] is for poses and drawings only.
package length
