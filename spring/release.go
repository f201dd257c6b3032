package spring

import "math"

// assumedDamping is a damping ratio: 1 is what comes to rest soonest without swinging beyond it. Assumed: paper that moves broadside through air, and creases that work, damp a card so far that it hardly swings. No
// source; read a film of the card's own opening where the time matters.
const assumedDamping = 0.7

// OpeningTime returns how long a card that is let go from closed takes to nine tenths of its way, in seconds, and how fast its
// parts move at most, in mm/s; 0 where the way is not known.
//
// Assumed: the card follows the way of p, slowly as it is there; half of its mass moves with the plate or panel that
// parts, as the middle of a zigzag moves half as fast and has a third of the energy; damping is in proportion to the speed,
// with the given ratio (0 takes 0.7) for the stiffness of the whole way; air and weight beyond that are left out.
func (s *Model) OpeningTime(p Push, ratio float64) (seconds, fastest float64) {
	n := len(p.Steps)
	if !p.Complete || n < 5 {
		return 0, 0
	}
	if !(ratio > 0) {
		ratio = assumedDamping
	}
	mass := s.weight() / gravity / 2 // kg
	from, to := p.Steps[0].Apart, p.Steps[n-1].Apart
	way := (to - from) / 1000
	if !(way > 0 && mass > 0 && p.Steps[1].Force > 0) {
		return 0, 0
	}
	drag := 2 * ratio * math.Sqrt(p.Steps[1].Force/way*mass) // N·s/m
	const step, longest = 2e-5, 3.0                          // seconds
	x, v, t := 0.0, 0.0, 0.0
	for x < 0.9*way && t < longest {
		v += (p.at(from+1000*x) - drag*v) / mass * step
		x += v * step
		t += step
		fastest = max(fastest, v)
	}
	if t >= longest || math.IsNaN(x) {
		return 0, 0
	}
	return t, 1000 * fastest
}

// at returns the force at a distance, between the steps in proportion.
func (p *Push) at(apart float64) float64 {
	for i := 1; i < len(p.Steps); i++ {
		a, b := p.Steps[i-1], p.Steps[i]
		if apart <= b.Apart {
			fa, fb := a.Force, b.Force
			if i == 1 && fa == 0 {
				fa = fb // the closed card's own force may not be known
			}
			return fa + (fb-fa)*max(0, apart-a.Apart)/(b.Apart-a.Apart)
		}
	}
	return 0
}
