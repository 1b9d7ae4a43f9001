package score

import (
	"iter"

	"tieover/score/beat"
	"tieover/score/instrument"
)

// Player is one person's part through the whole piece.
type Player struct {
	Name, Short string
	Instrument  *instrument.Instrument   // of the first layer
	Instruments []*instrument.Instrument // all, in order of first appearance
	Layers      [][]int                  // per section: indexes of the layers, nil where silent
}

// Players returns the parts in order of first appearance. Layers of one
// `player:` share a part, in all sections; others go by their own name.
func (p *Piece) Players() []Player {
	var players []Player
	byName := map[string]int{}
	for i, s := range p.Sections {
		for j, l := range s.Layers {
			name := l.PlayerName()
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
			players[k].takes(l)
		}
	}
	return players
}

// LayersOf yields the player's layers, section by section, each with the index of its
// section.
func (p *Piece) LayersOf(player Player) iter.Seq2[int, *Layer] {
	return func(yield func(int, *Layer) bool) {
		for i, s := range p.Sections {
			for _, j := range player.Layers[i] {
				if !yield(i, s.Layers[j]) {
					return
				}
			}
		}
	}
}

// never is later than every moment of a piece.
const never = beat.Time(1) << 60

// LayerLetter returns the letter by which tables and lists call the nth layer,
// from 0: a … z, aa, ab …
func LayerLetter(n int) string {
	if n < 26 {
		return string(rune('a' + n))
	}
	return LayerLetter(n/26-1) + LayerLetter(n%26)
}
