package play

import (
	"sort"

	"tieover/score"
	"tieover/score/beat"
)

// velocities are those of the attack at a dynamic and after it: fp is struck forte; sf
// and sfz accent one attack and change nothing after it.
func velocities(dynamic string, now int) (struck, then int, ok bool) {
	if accentsOne(dynamic) {
		return now + score.MarcatoLouder, now, true
	}
	then, ok = score.Velocity(score.GoesOn(dynamic))
	if dynamic == "fp" {
		return score.Forte, then, ok
	}
	return then, then, ok
}

// accentsOne reports whether a dynamic is for one attack and changes nothing
// after it.
func accentsOne(dynamic string) bool { return dynamic == "sf" || dynamic == "sfz" }

// stretch is a time over which the loudness stays or goes evenly from one value
// to another.
type stretch struct {
	at, until beat.Time // until == at: it stays at `to`
	from, to  int
	struck    int // what an attack exactly at its beginning has
}

// curve is a layer's loudness over its section: that with which it enters, then
// the stretches of the plan after that, in time order.
type curve []stretch

// loudness returns the curve of a layer from its own dynamic and the plan's
// dynamics and hairpins that are for it.
func loudness(s *score.Section, l *score.Layer) curve {
	unmarked, _ := score.Velocity(score.Unmarked)
	struck, now := unmarked, unmarked
	if signs := s.Dynamics(l); len(signs) > 0 && signs[0].Time == l.Enters {
		if first, then, ok := velocities(signs[0].Text, unmarked); ok {
			struck, now = first, then
		}
	}
	c := curve{{at: l.Enters, until: l.Enters, from: now, to: now, struck: struck}}
	for i, e := range s.Plan {
		if !e.Concerns(l) {
			continue
		}
		if struck, then, ok := velocities(e.Dynamic, c.at(e.Time)); ok && e.Time > l.Enters {
			now := stretch{e.Time, e.Time, then, then, struck}
			if under := c.holding(e.Time); accentsOne(e.Dynamic) && e.Time < under.until {
				now.until, now.to = under.until, under.to // the hairpin goes on
			}
			c = append(c, now)
		}
		if at := max(e.Time, l.Enters); e.Swells(l) && e.ToTime > at {
			from := c.at(at)
			c = append(c, stretch{at, e.ToTime, from, hairpinGoal(s.Plan[i:], e, l, from), c.struck(at)})
		}
	}
	return c
}

// hairpinGoal is where a hairpin leads: to the dynamic that stands at its end, or one
// step away.
func hairpinGoal(later []score.PlanEntry, hairpin score.PlanEntry, l *score.Layer, from int) int {
	for _, e := range later {
		if _, v, ok := velocities(e.Dynamic, from); ok && e.Time == hairpin.ToTime && e.Concerns(l) {
			return v
		}
	}
	if hairpin.Hairpin == score.Crescendo {
		return score.Audible(from + score.LoudnessStep)
	}
	return score.Audible(from - score.LoudnessStep)
}

// holding returns the stretch that a moment is in: the last one of the plan that
// has begun, else the layer's own.
func (c curve) holding(t beat.Time) stretch {
	plan := c[1:]
	return c[sort.Search(len(plan), func(i int) bool { return plan[i].at > t })]
}

// struck is the loudness of an attack at a moment, before its touch.
func (c curve) struck(t beat.Time) int {
	if s := c.holding(t); s.at == t {
		return s.struck
	}
	return c.at(t)
}

// at returns the loudness that holds at a moment.
func (c curve) at(t beat.Time) int {
	s := c.holding(t)
	if t >= s.until || t < s.at { // before a layer enters, its first stretch holds
		return s.to
	}
	return s.from + int(beat.Time(s.to-s.from)*(t-s.at)/(s.until-s.at))
}

// velocity is the loudness of one attack, accent and touch included.
func (c curve) velocity(t beat.Time, a *score.Attack) int {
	v := c.struck(t)
	switch {
	case a.Touch.Has(score.Marcato):
		v += score.MarcatoLouder
	case a.Accent || a.Touch.Has(score.Accented):
		v += score.AccentLouder
	case a.Touch.Has(score.Ghost):
		v += score.GhostLouder
	}
	return score.Audible(v)
}
