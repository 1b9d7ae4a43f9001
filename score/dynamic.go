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
// concerns it; else Unmarked, but only where its player comes from another one, at the
// end of the section before or of a repeat. After that it has all of the plan's that
// concern it.
func (s *Section) Dynamics(l *Layer) []Dynamic { return s.restate(l, s.signs(l)) }

// signs lists a layer's dynamics but for Unmarked.
func (s *Section) signs(l *Layer) []Dynamic {
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
	return later
}

// restate adds the dynamic with which a layer begins where no sign at its first attack
// says it, but the player comes there from another: out of the section before, or at the
// end of a repeat, which leaves the pickup out. An sf that only accents that attack
// puts it off to the next one. Where a hairpin has changed it before, no sign states it.
func (s *Section) restate(l *Layer, all []Dynamic) []Dynamic {
	at := max(l.Enters, 0)
	next := before(all, at)
	first := l.loudness(all[:next])
	for next < len(all) && all[next].Time == at && !all[next].states() {
		later, ok := s.attackAfter(l, at)
		if !ok {
			return all
		}
		at, next = later, before(all, later)
	}
	switch {
	case next < len(all) && all[next].Time == at, l.loudness(all[:next]) != first, at > l.Enters && s.swells(l, first.Time, at):
		return all
	case l.resumes, s.repeatsFrom(l, first.Text):
		return slices.Insert(all, next, Dynamic{at, first.Text})
	}
	return all
}

// resumes reports whether the layer's player comes to it from another dynamic than that
// of a layer without one: what the player had last ended in another. Where other layers
// of the player go on, each has its own.
func (st *settler) resumes(l *Layer) bool {
	now := st.s
	for _, s := range slices.Backward(st.piece.Sections[:slices.Index(st.piece.Sections, now)+1]) {
		until := s.Length
		if s == now {
			until = l.Enters
		}
		if last := s.lastOf(l, s.Opening(), until); last != nil {
			goesOn := func(o *Layer) bool { return s == now && o.Leaves > until }
			return !slices.ContainsFunc(last, goesOn) && s.anyEndsFrom(last, Unmarked)
		}
	}
	return false
}

// lastOf lists which layers of a layer's player, of those that are there between two
// moments, are there last; nil where none is.
func (s *Section) lastOf(l *Layer, from, until beat.Time) (last []*Layer) {
	end := from
	for _, o := range s.Layers {
		if o.PlayerName() != l.PlayerName() || o.Enters >= until {
			continue
		}
		switch left := min(o.Leaves, until); {
		case left > end:
			last, end = []*Layer{o}, left
		case left == end && last != nil:
			last = append(last, o)
		}
	}
	return last
}

// repeatsFrom reports whether a repeat, which leaves the pickup out, goes back to the
// layer from another dynamic.
func (s *Section) repeatsFrom(l *Layer, dynamic string) bool {
	switch {
	case s.End != Repeat:
		return false
	case l.Of != nil:
		return s.endsFrom(l, dynamic)
	}
	return l.Leaves > 0 && s.lastOf(l, 0, l.Enters) == nil && s.anyEndsFrom(s.lastOf(l, 0, s.Length), dynamic)
}

func (s *Section) anyEndsFrom(layers []*Layer, dynamic string) bool {
	return slices.ContainsFunc(layers, func(l *Layer) bool { return s.endsFrom(l, dynamic) })
}

// endsFrom reports whether the layer is last in another dynamic, or in one to which a
// hairpin has led and which no sign states.
func (s *Section) endsFrom(l *Layer, dynamic string) bool {
	all, end := s.signs(l), min(l.Leaves, s.Length)
	last := l.loudness(all[:before(all, end)])
	return last.Text != dynamic || s.swells(l, last.Time, end)
}

// before counts the dynamics before a moment.
func before(all []Dynamic, t beat.Time) int {
	n := slices.IndexFunc(all, func(d Dynamic) bool { return d.Time >= t })
	if n < 0 {
		return len(all)
	}
	return n
}

// loudness returns the last of some dynamics that states how loud to go on, reduced to
// that statement; without any that of an unmarked entry.
func (l *Layer) loudness(all []Dynamic) Dynamic {
	for _, d := range slices.Backward(all) {
		if d.states() {
			return Dynamic{d.Time, GoesOn(d.Text)}
		}
	}
	return Dynamic{l.Enters, Unmarked}
}

// states reports whether the sign says how loud to go on.
func (d Dynamic) states() bool {
	_, ok := Velocity(GoesOn(d.Text))
	return ok
}

// swells reports whether a hairpin that begins before a moment changes the layer's
// loudness after another.
func (s *Section) swells(l *Layer, after, before beat.Time) bool {
	return slices.ContainsFunc(s.Plan, func(e PlanEntry) bool {
		return e.Swells(l) && e.Time < before && e.ToTime > after
	})
}

// attackAfter returns the layer's first attack after a moment; ok is false after the last.
func (s *Section) attackAfter(l *Layer, t beat.Time) (at beat.Time, ok bool) {
	for at := range s.Attacks(slices.Index(s.Layers, l)) {
		if at > t {
			return at, true
		}
	}
	return 0, false
}

// GoesOn returns the dynamic in which a sign lets the music go on: the p of fp, else
// the sign itself.
func GoesOn(dynamic string) string {
	if dynamic == "fp" {
		return "p"
	}
	return dynamic
}

// dynamics settles whose loudness each hairpin changes and which players come to a layer
// from another dynamic. It warns where a layer enters with a dynamic of its own and the
// plan has another for all.
func (st *settler) dynamics() {
	s := st.s
	st.hairpins()
	for _, l := range s.Layers {
		l.resumes = st.resumes(l)
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
