package score

import (
	"cmp"
	"iter"

	"tieover/score/beat"
	"tieover/score/instrument"
)

// Player is one person's part through the whole piece.
type Player struct {
	Name, Short string
	Instrument  *instrument.Instrument
	Layers      [][]int // per section: indexes of the layers, nil where silent
}

// Players returns the parts in order of first appearance. Layers of one
// `player:` share a part, in all sections; others go by their own name.
func (p *Piece) Players() []Player {
	var players []Player
	byName := map[string]int{}
	for i, s := range p.Sections {
		for j, l := range s.Layers {
			name := cmp.Or(l.Player, l.Name)
			k, known := byName[name]
			if !known {
				k = len(players)
				byName[name] = k
				short := l.Short
				if l.Player != "" && l.Player != l.Name {
					short = ""
				}
				players = append(players, Player{Name: name, Short: short, Instrument: l.Instrument,
					Layers: make([][]int, len(p.Sections))})
			}
			players[k].Layers[i] = append(players[k].Layers[i], j)
		}
	}
	return players
}

// Strike is one moment of a composite: who sounds an attack there.
type StrikeAt struct {
	Time   beat.Time
	Layers []int // indexes, rising; only good until the next moment
}

// Composite merges the attacks of the given layers, all when nil, into one
// rhythm in time order.
func (s *Section) Composite(layers []int) iter.Seq[StrikeAt] {
	if layers == nil {
		for i := range s.Layers {
			layers = append(layers, i)
		}
	}
	return func(yield func(StrikeAt) bool) {
		heads := make([]beat.Time, len(layers)) // the next attack of each
		pulls := make([]func() (beat.Time, *Attack, bool), len(layers))
		for i, l := range layers {
			next, stop := iter.Pull2(s.Attacks(l))
			defer stop()
			pulls[i] = next
			heads[i] = pull(next)
		}
		at := StrikeAt{}
		for {
			at.Time = never
			for _, h := range heads {
				at.Time = min(at.Time, h)
			}
			if at.Time == never {
				return
			}
			at.Layers = at.Layers[:0]
			for i, h := range heads {
				if h == at.Time {
					at.Layers = append(at.Layers, layers[i])
					heads[i] = pull(pulls[i])
				}
			}
			if !yield(at) {
				return
			}
		}
	}
}

// never is later than every moment of a piece.
const never = beat.Time(1) << 60

func pull(next func() (beat.Time, *Attack, bool)) beat.Time {
	if t, _, ok := next(); ok {
		return t
	}
	return never
}

// LayerLetter returns the letter by which tables and lists call the nth layer,
// from 0: a … z, aa, ab …
func LayerLetter(n int) string {
	if n < 26 {
		return string(rune('a' + n))
	}
	return LayerLetter(n/26-1) + LayerLetter(n%26)
}
