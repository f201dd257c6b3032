package spring

import (
	"context"
	"fmt"
	"math"
)

// Report is what there is to say about how a card springs, ready to be printed as JSON.
type Report struct {
	// Status is "solved", "stopped" (ctx ended it) or "no rest" (nothing balances). Notes say what else there is to know.
	Status string   `json:"status"`
	Notes  []string `json:"notes,omitempty"`
	Rest   RestSaid `json:"rest"`
	// Leans is where a nudge lets the card go from its rest pose; nil where it stays, or where that is not known.
	Leans  *RestSaid  `json:"leans,omitempty"`
	Others []RestSaid `json:"others"`
	// HoldShutN is what an envelope feels, in N; 0 where not known.
	HoldShutN     float64 `json:"hold_shut_N"`
	OpensByItself bool    `json:"opens_by_itself"`
	// OpeningS is the time to nine tenths of the way, in seconds (see Model.OpeningTime); 0 where not known.
	OpeningS float64     `json:"opening_s"`
	Feel     Feel        `json:"feel"`
	Almost   bool        `json:"almost_too_strong"`
	Pull     float64     `json:"pull"`
	Lift     float64     `json:"lift"`
	OwnDepth float64     `json:"own_depth_mm"`
	Springs  []string    `json:"springs"`
	Curve    []CurveSaid `json:"curve"`
	Snaps    []int       `json:"snaps,omitempty"`
	Crosses  []int       `json:"crosses,omitempty"`
	// RigidDepthMM is the depth with panels that do not bend, SoftShare by what share bending changes it.
	RigidDepthMM float64 `json:"rigid_depth_mm"`
	SoftShare    float64 `json:"soft_share"`
	Cures        []Cure  `json:"cures"`
}

// RestSaid is one rest pose. Angles are fold angles in degrees by score, positive for a mountain, by the name of the copy.
type RestSaid struct {
	DepthMM  float64              `json:"depth_mm"`
	WidthMM  float64              `json:"width_mm"`
	HeightMM float64              `json:"height_mm"`
	EnergyMJ float64              `json:"energy_mJ"`
	Angles   map[string][]float64 `json:"angles_deg"`
	// Leaning lists pairs of panels that touch.
	Leaning [][2]string `json:"touching,omitempty"`
}

// CurveSaid is one step of the way from closed to rest.
type CurveSaid struct {
	DepthMM  float64 `json:"depth_mm"`
	ForceN   float64 `json:"force_N"`
	EnergyMJ float64 `json:"energy_mJ"`
	// Ridge says that a nudge would let the card lean there.
	Ridge bool `json:"ridge,omitempty"`
}

// Ask says how much of a Report is wanted.
type Ask struct {
	// Steps of the curve (60 if 0), starts of the search for other poses (none if 0) and their seed.
	Steps, Starts int
	Seed          uint64
	Cures         bool
}

// softShare is the share of the depth above which bending panels are worth a note.
const softShare = 0.05

// Report works out all there is to say.
func (s *Model) Report(ctx context.Context, ask Ask, a *Assumptions) Report {
	r := Report{Status: "solved", Others: []RestSaid{}, Curve: []CurveSaid{}, Cures: []Cure{}, Springs: []string{}}
	if ask.Steps == 0 {
		ask.Steps = 60
	}
	rest := s.Rest(ctx)
	if rest.Found {
		s.tell(ctx, &r, rest, ask, a)
	} else {
		r.Status = "no rest"
		r.note("no pose was found in which the folds balance: the card may be locked, or its springs may not fit")
		r.Springs = append(r.Springs, s.Springs()...)
		if ask.Cures {
			cures, _ := s.Cures(ctx, Felt{Springs: r.Springs}, a)
			r.Cures = append(r.Cures, cures...)
		}
	}
	if ctx.Err() != nil {
		r.Status = "stopped"
	}
	return r
}

// tell fills in what follows from the rest pose.
func (s *Model) tell(ctx context.Context, r *Report, rest Rest, ask Ask, a *Assumptions) {
	r.Rest = s.say(rest)
	push := s.Opening(ctx, rest, ask.Steps)
	r.HoldShutN, r.OpensByItself, r.Snaps, r.Crosses = push.HoldShut, push.ByItself, push.Snaps, push.Crosses
	for _, st := range push.Steps {
		r.Curve = append(r.Curve, CurveSaid{st.Apart, st.Force, st.Energy, st.Ridge})
	}
	r.OpeningS, _ = s.OpeningTime(push, 0)
	f := s.Feel(ctx, rest, push, a)
	r.Feel, r.Almost, r.Pull, r.Lift, r.OwnDepth = f.Feel, f.Almost, f.Pull, f.Lift, f.OwnDepth
	r.Springs = append(r.Springs, f.Springs...)
	r.RigidDepthMM, r.SoftShare = s.Soft(ctx, rest)
	if lean, found := s.Lean(ctx, rest); found {
		said := s.say(lean)
		r.Leans = &said
	}
	s.remark(r, rest, push)
	if ask.Starts > 0 {
		others, _ := s.Others(ctx, rest, ask.Starts, ask.Seed)
		for _, o := range others {
			r.Others = append(r.Others, s.say(o))
		}
	}
	if ask.Cures && (f.Feel == TooStrong || f.Feel == Limp || f.Almost) {
		cures, _ := s.Cures(ctx, f, a)
		r.Cures = append(r.Cures, cures...)
	}
}

// remark adds what somebody who builds the card should know besides.
func (s *Model) remark(r *Report, rest Rest, push Push) {
	if len(r.Springs) == 0 {
		r.note("the card has no springs: no piece but the outer one has folds both ways")
	}
	if rest.Standing.Depth < 1 && len(s.Stiffness) > 0 {
		r.note(fmt.Sprintf("the card stays shut: at rest it is %.1f mm deep", rest.Standing.Depth))
	}
	if !rest.Stable {
		r.note("a nudge lets it lean to one side: press folds evenly and open it straight")
	}
	if rest.Helped {
		r.note("it stands straight only while the two halves of each spring are kept alike")
	}
	if !push.Complete {
		r.note("the way to the closed card could not be followed to its end")
	}
	if len(push.Snaps) > 0 {
		r.note("on its way it flips instead of moving on")
	}
	if len(push.Crosses) > 0 {
		r.note("panels pass through each other on the way that was found: a real card goes another way")
	}
	if math.Abs(r.SoftShare) > softShare {
		r.note(fmt.Sprintf("its panels bend: that changes the depth by %.0f %%, so measure the stiffness of the card", 100*r.SoftShare))
	}
}

func (r *Report) note(text string) { r.Notes = append(r.Notes, text) }

// say writes a rest pose.
func (s *Model) say(r Rest) RestSaid {
	a := s.Fold.Assembly
	out := RestSaid{DepthMM: r.Standing.Depth, WidthMM: r.Standing.Width, HeightMM: r.Standing.Height, EnergyMJ: r.Energy, Angles: map[string][]float64{}}
	for i, h := range a.Hinges {
		name := a.Copies[h.Copy].Name
		out.Angles[name] = append(out.Angles[name], r.Angles[i]*180/math.Pi)
	}
	for _, t := range r.Touching {
		out.Leaning = append(out.Leaning, [2]string{a.Panels[t[0]].Ref, a.Panels[t[1]].Ref})
	}
	return out
}

// Soft returns the depth at rest of the same card with panels that do not bend, and by what share bending changes the depth;
// both 0 where there is no such pose.
func (s *Model) Soft(ctx context.Context, rest Rest) (rigid, share float64) {
	stiff := *s
	stiff.energy(func(int, float64, float64) float64 { return math.Inf(1) })
	r := stiff.Rest(ctx)
	if !r.Found || r.Standing.Depth <= 0 {
		return 0, 0
	}
	return r.Standing.Depth, rest.Standing.Depth/r.Standing.Depth - 1
}
