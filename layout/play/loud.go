package play

import (
	"slices"

	"tieover/score"
	"tieover/score/beat"
)

// velocities of dynamics: equal steps over the range of MIDI, common practice.
var velocities = map[string]int{
	"pppp": 8, "ppp": 16, "pp": 33, "p": 49, "mp": 64, "mf": 80, "f": 96, "ff": 112, "fff": 120, "ffff": 127,
}

// What a touch adds to the dynamic's velocity, and one step between dynamics;
// common practice.
const (
	accented   = 16
	marcato    = 24
	ghosted    = -32
	stepLouder = 16
)

// stretch is a time over which the loudness stays or goes evenly from one value
// to another.
type stretch struct {
	at, until beat.Time // until == at: it stays at `to`
	from, to  int
}

// curve is a layer's loudness over its section: stretches in order, the first
// at or before 0.
type curve []stretch

// loudness returns the curve of a layer from its own dynamic and the plan's
// dynamics and hairpins that are for it.
func loudness(s *score.Section, l *score.Layer) curve {
	now := velocities["mf"]
	if v, ok := velocities[l.Dynamic]; ok {
		now = v
	}
	c := curve{{from: now, to: now}}
	for i, e := range s.Plan {
		if !isFor(e, l) {
			continue
		}
		if v, ok := velocities[e.Dynamic]; ok {
			c = append(c, stretch{e.Time, e.Time, v, v})
		}
		if e.Hairpin != score.NoHairpin && e.ToTime > e.Time {
			from := c.at(e.Time)
			c = append(c, stretch{e.Time, e.ToTime, from, goal(s.Plan[i:], e, l, from)})
		}
	}
	return c
}

// goal is where a hairpin leads: to the dynamic that stands at its end, or one
// step away.
func goal(later []score.PlanEntry, hairpin score.PlanEntry, l *score.Layer, from int) int {
	for _, e := range later {
		if v, ok := velocities[e.Dynamic]; ok && e.Time == hairpin.ToTime && isFor(e, l) {
			return v
		}
	}
	if hairpin.Hairpin == score.Crescendo {
		return min(127, from+stepLouder)
	}
	return max(1, from-stepLouder)
}

func isFor(e score.PlanEntry, l *score.Layer) bool {
	return e.For == nil || slices.Contains(e.For, l.Name)
}

// at returns the loudness at a moment.
func (c curve) at(t beat.Time) int {
	i := len(c) - 1
	for i > 0 && c[i].at > t {
		i--
	}
	s := c[i]
	if t >= s.until {
		return s.to
	}
	return s.from + int(beat.Time(s.to-s.from)*(t-s.at)/(s.until-s.at))
}

// velocity is the loudness of one attack, accent and touch included.
func (c curve) velocity(t beat.Time, a *score.Attack) int {
	v := c.at(t)
	switch {
	case a.Touch == score.Marcato:
		v += marcato
	case a.Accent || a.Touch == score.Accented:
		v += accented
	case a.Touch == score.Ghost:
		v += ghosted
	}
	return min(127, max(1, v))
}
