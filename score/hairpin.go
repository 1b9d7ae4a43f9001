package score

import (
	"cmp"
	"slices"

	"tieover/score/beat"
)

// Swells reports whether an entry's hairpin changes the loudness of the layer: it is for
// it, and in it the layer's player has something that can grow, two attacks or a sound
// that is held. Without that it is neither printed nor heard.
func (e *PlanEntry) Swells(l *Layer) bool {
	return e.Hairpin != NoHairpin && e.Concerns(l) && !slices.Contains(e.level, l.Name)
}

// seat is who plays the layer: its player, or nobody but the layer.
func (l *Layer) seat() string { return cmp.Or(l.Player, l.Name) }

// growth is what a player has inside a hairpin.
type growth struct {
	struck bool
	first  beat.Time // attack, if struck
	grows  bool      // there is another, or a sound that is held
}

// hairpins settles for whom each hairpin changes nothing.
func (st *settler) hairpins() {
	s := st.s
	found := map[string][]growth{} // by player, then by plan entry
	for i, l := range s.Layers {
		if found[l.seat()] == nil {
			found[l.seat()] = make([]growth, len(s.Plan))
		}
		s.grow(i, found[l.seat()])
	}
	for k := range s.Plan {
		e := &s.Plan[k]
		if e.level = nil; e.Hairpin == NoHairpin {
			continue
		}
		anyone := false
		for _, l := range s.Layers {
			if e.Concerns(l) && !found[l.seat()][k].grows {
				e.level = append(e.level, l.Name)
			}
			anyone = anyone || e.Swells(l)
		}
		if !anyone {
			st.warn(e.At.Pos, "it needs two attacks, or a sound that is held", "the hairpin is over nothing that can grow; it is neither printed nor heard")
		}
	}
}

// grow takes what a layer plays into the hairpins that are for it.
func (s *Section) grow(layer int, found []growth) {
	l := s.Layers[layer]
	var coming, open []int // plan entries, in order
	for k := range s.Plan {
		if e := &s.Plan[k]; e.Hairpin != NoHairpin && e.Concerns(l) {
			coming = append(coming, k)
		}
	}
	if coming == nil {
		return
	}
	for at, a := range s.Attacks(layer) {
		for len(coming) > 0 && s.Plan[coming[0]].Time < at+a.Length {
			open, coming = append(open, coming[0]), coming[1:]
		}
		open = slices.DeleteFunc(open, func(k int) bool { return s.Plan[k].ToTime <= at })
		if len(coming)+len(open) == 0 {
			return
		}
		for _, k := range open {
			f := &found[k]
			struck := at >= s.Plan[k].Time
			f.grows = f.grows || l.Holds(a) || struck && f.struck && f.first != at
			if struck && !f.struck {
				f.struck, f.first = true, at
			}
		}
	}
}
