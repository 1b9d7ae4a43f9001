package score

import (
	"slices"

	"tieover/score/beat"
)

// Swells reports whether an entry's hairpin changes the loudness of the layer: it is for
// it, and in it the layer's player has two attacks at different moments or a sound that
// is held. A composite has what changes one of its layers, but only if it is for all.
func (e *PlanEntry) Swells(l *Layer) bool {
	if l.Of != nil {
		return e.For == nil && slices.ContainsFunc(l.Of, e.Swells)
	}
	return slices.Contains(e.swelled, l.Name)
}

// Heard returns an entry's hairpin; NoHairpin where it changes nobody's loudness, and so
// is neither printed nor heard.
func (e *PlanEntry) Heard() Hairpin {
	if len(e.swelled) == 0 {
		return NoHairpin
	}
	return e.Hairpin
}

// inHairpin is what a player plays inside a hairpin.
type inHairpin struct {
	attacked bool
	first    beat.Time // attack, if there is one
	swells   bool      // there is one at another moment, or a sound that is held
}

// hairpins settles whose loudness each hairpin changes, and warns of those that change
// nobody's.
func (st *settler) hairpins() {
	s := st.s
	played := map[string][]inHairpin{} // by player, then by plan entry
	for i, l := range s.Layers {
		player := l.PlayerName()
		if played[player] == nil {
			played[player] = make([]inHairpin, len(s.Plan))
		}
		s.addTo(played[player], i)
	}
	for k := range s.Plan {
		e := &s.Plan[k]
		e.swelled = nil
		for _, l := range s.Layers {
			if e.Hairpin != NoHairpin && e.Concerns(l) && played[l.PlayerName()][k].swells {
				e.swelled = append(e.swelled, l.Name)
			}
		}
		if e.Hairpin != e.Heard() {
			st.warn(e.At.Pos, "it needs two attacks, or a sound that is held", "the hairpin is over nothing that can grow; it is neither printed nor heard")
		}
	}
}

// addTo adds what a layer plays inside the hairpins that are for it to what its player
// does, by plan entry.
func (s *Section) addTo(played []inHairpin, layer int) {
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
			in := &played[k]
			begins := at >= s.Plan[k].Time
			in.swells = in.swells || l.Holds(a) || begins && in.attacked && in.first != at
			if begins && !in.attacked {
				in.attacked, in.first = true, at
			}
		}
	}
}
