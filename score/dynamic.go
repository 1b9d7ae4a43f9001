package score

import (
	"slices"

	"tieover/score/beat"
)

// Dynamic is a dynamic sign from a moment of the section on.
type Dynamic struct {
	Time beat.Time
	Text string
}

// Dynamics lists a layer's dynamics in order. With the first it enters: the
// plan's for it at that moment, else its own, else the plan's last one that
// concerns it; none if there is none. After that it has all of the plan's that
// concern it.
func (s *Section) Dynamics(l *Layer) []Dynamic {
	var later []Dynamic
	last, own := "", l.Dynamic
	for i := range s.Plan {
		switch e := &s.Plan[i]; {
		case e.Dynamic == "" || !e.Concerns(l):
		case e.Time > l.Enters:
			later = append(later, Dynamic{e.Time, e.Dynamic})
		case e.Time == l.Enters && e.For != nil:
			own = e.Dynamic
		default:
			last = e.Dynamic
		}
	}
	if own == "" {
		own = last
	}
	if own != "" {
		later = append([]Dynamic{{l.Enters, own}}, later...)
	}
	return s.repeatDynamic(l, later)
}

// repeatDynamic adds the dynamic of the pickup once more at bar 1 where a repeat goes
// back there from another loudness, unless a hairpin has changed it since: then no
// sign states it.
func (s *Section) repeatDynamic(l *Layer, all []Dynamic) []Dynamic {
	next := slices.IndexFunc(all, func(d Dynamic) bool { return d.Time >= 0 })
	if !s.repeatsWithoutPickup() || next < 1 || all[next].Time == 0 {
		return all
	}
	first, last := lastLoudness(all[:next]), lastLoudness(all)
	if first.Text == "" || s.swells(l, first.Time, 0) || first.Text == last.Text && !s.swells(l, last.Time, s.Length) {
		return all
	}
	return slices.Insert(all, next, Dynamic{0, first.Text})
}

// lastLoudness returns the last of some dynamics that states how loud to go on, reduced
// to that statement; its text is empty if there is none.
func lastLoudness(all []Dynamic) Dynamic {
	for _, d := range slices.Backward(all) {
		d.Text = GoesOn(d.Text)
		if _, ok := Velocity(d.Text); ok {
			return d
		}
	}
	return Dynamic{}
}

// GoesOn returns the dynamic in which a sign lets the music go on: the p of fp, else
// the sign itself.
func GoesOn(dynamic string) string {
	if dynamic == "fp" {
		return "p"
	}
	return dynamic
}

// swells reports whether a hairpin that begins before a moment changes the layer's
// loudness after another.
func (s *Section) swells(l *Layer, after, before beat.Time) bool {
	return slices.ContainsFunc(s.Plan, func(e PlanEntry) bool {
		return e.Hairpin != NoHairpin && e.Concerns(l) && e.Time < before && e.ToTime > after
	})
}

// dynamics warns where a layer enters with a dynamic of its own just where the
// plan has another for all.
func (st *settler) dynamics() {
	s := st.s
	for _, l := range s.Layers {
		for i := range s.Plan {
			e := &s.Plan[i]
			if e.Dynamic == "" || e.For != nil || e.Time != l.Enters || l.Dynamic == "" || l.Dynamic == e.Dynamic || s.Dynamics(l)[0].Text != l.Dynamic {
				continue
			}
			st.warn(e.At.Pos, "write for: ["+l.Name+"] with a dynamic that is meant for it", "bar %d: %s enters with its own %s; the plan's %s there is for all",
				s.FirstBar+s.barring.at(e.Time).N-1, l.Name, l.Dynamic, e.Dynamic)
		}
	}
}

// The loudness of dynamics is our choice. It rests on one figure of the MusicXML
// standard: 100 % is MIDI velocity 90, its forte; two dynamics are a tenth of that apart.
const (
	Forte        = 90 // a MIDI velocity
	LoudnessStep = Forte / 10

	// What one attack has more than its dynamic.
	AccentLouder  = LoudnessStep
	MarcatoLouder = 2 * LoudnessStep // sf and sfz too
	GhostLouder   = -3 * LoudnessStep

	// Unmarked is the dynamic of a layer that has none.
	Unmarked = "mf"
)

// Dynamics returns the signs that say how loud to go on, softest first.
func Dynamics() []string {
	return []string{"pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "ffff"}
}

var velocities = func() map[string]int {
	const forteAt = 6 // its place among Dynamics
	v := map[string]int{}
	for i, d := range Dynamics() {
		v[d] = Forte + (i-forteAt)*LoudnessStep
	}
	return v
}()

// Velocity returns the MIDI velocity of a dynamic, 1 to 127; false if the sign
// does not say how loud to go on.
func Velocity(dynamic string) (int, bool) {
	v, ok := velocities[dynamic]
	return v, ok
}

// Audible holds a velocity within MIDI's 1 to 127.
func Audible(velocity int) int { return min(127, max(1, velocity)) }
