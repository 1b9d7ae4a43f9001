package layout

import (
	"slices"

	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/source"
)

// apart divides what a player plays by the instrument, and what is on one instrument
// into layers of which some are there at once, or in one bar: what is never together
// is read as one line, whoever's it is. A player of one instrument stays whole where
// that has several staves, which are its hands, or no pitches: the hands and feet of a
// kit keep their sides; and where there is tablature, whose strings all share.
func apart(p *score.Piece, o *Options, player score.Player) []score.Player {
	ins := player.Instrument
	if !player.Doubles() && (ins.Staves > 1 || ins.IsUnpitched() || ins.Lines == 1 || tuningOf(p, player) != nil) {
		return []score.Player{player}
	}
	var all []score.Player
	for _, on := range player.Instruments {
		for _, names := range lines(p, o, player, on) {
			one := score.Player{Name: player.Name, Short: player.Short, Instrument: on, Layers: make([][]int, len(p.Sections))}
			for i, s := range p.Sections {
				one.Layers[i] = slices.DeleteFunc(slices.Clone(player.Layers[i]), func(j int) bool {
					return s.Layers[j].Instrument != on || !slices.Contains(names, s.Layers[j].Name)
				})
			}
			all = append(all, one)
		}
	}
	if len(all) == 1 {
		return []score.Player{player}
	}
	return all
}

// lines lists which of a player's layers on an instrument belong together.
func lines(p *score.Piece, o *Options, player score.Player, on *instrument.Instrument) (sets [][]string) {
	for i, s := range p.Sections {
		for _, j := range player.Layers[i] {
			l := s.Layers[j]
			if l.Instrument != on {
				continue
			}
			own := []string{l.Name}
			sets = slices.DeleteFunc(sets, func(names []string) bool {
				meets := slices.ContainsFunc(player.Layers[i], func(k int) bool {
					other := s.Layers[k]
					return slices.Contains(names, other.Name) && other.Instrument == on && (o.Barring.View != Common || shareBar(s, l, other))
				})
				if meets = meets || slices.Contains(names, l.Name); meets {
					own = append(names, own...)
				}
				return meets
			})
			sets = append(sets, own)
		}
	}
	return sets
}

// shareBar reports whether two layers are there in one bar.
func shareBar(s *score.Section, a, b *score.Layer) bool {
	if a.Enters > b.Enters {
		a, b = b, a
	}
	return a.Leaves > s.BarAt(b.Enters).Start
}

// first is the plan of what a player of one instrument has to play first.
func (pt *part) first() *partPlan {
	var first *score.Layer
	section := 0
	for i, l := range pt.p.LayersOf(pt.whole) {
		if first == nil || i == section && l.Enters < first.Enters {
			first, section = l, i
		}
	}
	return pt.planOf(first)
}

// inOneClef gives the plans of one instrument the clef that suits all of it.
func (pt *part) inOneClef(player score.Player) {
	whole := newPlan(pt.p, pt.o, player, &source.Problems{})
	for _, plan := range pt.plans {
		plan.Staves = whole.Staves
	}
}
