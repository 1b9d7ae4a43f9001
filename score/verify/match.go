package verify

import (
	"fmt"
	"iter"
	"slices"
	"strings"

	"tieover/score"
	"tieover/score/heard"
)

// pair is a part of the score and the layers it is to hold.
type pair struct {
	part      *heard.Part
	layers    []layer
	composite bool // the layers are heard as one rhythm
}

// composite is what the part of all layers together is called.
const composite = "Composite"

// layer is a layer through all sections.
type layer struct {
	name string
	at   []int // index into the layers of each section, -1 where it is silent
}

// in yields the layer in each section that has it.
func (l layer) in(p *score.Piece) iter.Seq[*score.Layer] {
	return func(yield func(*score.Layer) bool) {
		for i, s := range p.Sections {
			if l.at[i] >= 0 && !yield(s.Layers[l.at[i]]) {
				return
			}
		}
	}
}

func names(layers []layer) []string {
	all := make([]string, len(layers))
	for i, l := range layers {
		all[i] = l.name
	}
	return all
}

// match finds the layers of each part: as the options say, else those of the
// player with the part's name, else the layer with that name; all of them for a
// composite.
func match(p *score.Piece, s *heard.Score, o Options) ([]pair, []Difference, error) {
	players := p.Players()
	var pairs []pair
	var unmatched []Difference
	used := map[string]bool{}
	for name := range o.Parts {
		if _, ok := s.Find(name); !ok {
			return nil, nil, fmt.Errorf("the score has no part %q; its parts are %s", name, partNames(s))
		}
	}
	for _, part := range s.Parts {
		if len(part.Bars) == 0 && len(part.Attacks) == 0 { // it is in the part list only
			continue
		}
		layers, err := layersOf(p, players, part, o)
		if err != nil {
			return nil, nil, err
		}
		if len(layers) == 0 {
			unmatched = append(unmatched, Difference{Kind: NoPart, Layer: part.Name, Got: part.Name,
				text: fmt.Sprintf("the spec has no layer for the part %s", part.Name)})
			continue
		}
		for _, l := range layers {
			used[l.name] = true
		}
		_, taken := layerNamed(p, composite)
		pairs = append(pairs, pair{part, layers, part.Name == composite && !taken})
	}
	if len(pairs) == 0 {
		return nil, nil, fmt.Errorf("no part of the score goes by the name of a layer; its parts are %s; say which is which with --part NAME=LAYER", partNames(s))
	}
	if !s.Extract && (len(s.Parts) > 1 || len(o.Parts) == 0) {
		missing := missingParts(p, players, used)
		if len(missing) == 1 && len(unmatched) == 1 {
			unmatched[0].text += hintPart(p, players, unmatched[0].Got, missing[0].Want)
		}
		unmatched = append(unmatched, missing...)
	}
	return pairs, unmatched, nil
}

// missingParts lists which parts of a full score are missing; of a part that is there,
// which layers are in none.
func missingParts(p *score.Piece, players []score.Player, used map[string]bool) []Difference {
	var all []Difference
	for _, player := range players {
		layers := layersOfPlayer(p, player)
		missing := slices.DeleteFunc(slices.Clone(layers), func(l layer) bool { return used[l.name] })
		if len(missing) == len(layers) {
			all = append(all, Difference{Kind: NoPart, Layer: player.Name, Want: player.Name, text: "part " + player.Name + " is missing"})
			continue
		}
		for _, l := range missing {
			all = append(all, Difference{Kind: NoPart, Layer: l.name, Want: l.name, text: fmt.Sprintf("layer %s of part %s is missing", l.name, player.Name)})
		}
	}
	return all
}

// hintPart says how to tell that a part is the one missing player's.
func hintPart(p *score.Piece, players []score.Player, part, missing string) string {
	i := slices.IndexFunc(players, func(p score.Player) bool { return p.Name == missing })
	if i < 0 {
		return ""
	}
	return fmt.Sprintf("; if it is %s, say --part %q", missing, part+"="+strings.Join(names(layersOfPlayer(p, players[i])), ","))
}

func partNames(s *heard.Score) string {
	var all []string
	for _, part := range s.Parts {
		all = append(all, part.Name)
	}
	return strings.Join(all, ", ")
}

func layersOf(p *score.Piece, players []score.Player, part *heard.Part, o Options) ([]layer, error) {
	wanted, stated := o.Parts[part.Name]
	if !stated {
		wanted, stated = o.Parts[part.ID]
	}
	if stated {
		var layers []layer
		for _, name := range wanted {
			l, ok := layerNamed(p, name)
			if !ok {
				return nil, fmt.Errorf("the spec has no layer %q", name)
			}
			layers = append(layers, l)
		}
		return layers, nil
	}
	for _, same := range []func(a, b string) bool{func(a, b string) bool { return a == b }, alikeNames} {
		for _, player := range players {
			if same(player.Name, part.Name) {
				return layersOfPlayer(p, player), nil
			}
		}
	}
	if l, ok := layerNamed(p, part.Name); ok {
		return []layer{l}, nil
	}
	var layers []layer
	if part.Name == composite {
		for _, player := range players {
			layers = append(layers, layersOfPlayer(p, player)...)
		}
	}
	return layers, nil
}

// alikeNames reports whether names differ only in capitals and blanks.
func alikeNames(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}

func layersOfPlayer(p *score.Piece, player score.Player) []layer {
	var layers []layer
	for i, s := range p.Sections {
		for _, j := range player.Layers[i] {
			name := s.Layers[j].Name
			if !slices.ContainsFunc(layers, func(l layer) bool { return l.name == name }) {
				l, _ := layerNamed(p, name)
				layers = append(layers, l)
			}
		}
	}
	return layers
}

func layerNamed(p *score.Piece, name string) (l layer, ok bool) {
	l.name = name
	for _, s := range p.Sections {
		at := slices.IndexFunc(s.Layers, func(l *score.Layer) bool { return l.Name == name })
		l.at = append(l.at, at)
		ok = ok || at >= 0
	}
	return l, ok
}
