// Package verify compares music that was read from a score with the music that
// a section spec means, note by note, and says in words where they differ.
package verify

import (
	"cmp"
	"fmt"
	"slices"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/heard"
)

// Options says what is compared.
type Options struct {
	RhythmOnly bool                // pitches and drum sounds do not matter
	Parts      map[string][]string // part name or id: the layers it holds; parts not named here go by name
}

// Kind is a kind of difference.
type Kind int

const (
	Missing    Kind = iota // the spec has a note that the score lacks
	Extra                  // the score has a note that the spec lacks
	OtherPitch             // a note sounds something else
	Moved                  // a note sounds earlier or later
	MovedRun               // so do many in a row, by the same amount
	OtherLength
	BadBar // a bar does not add up
	BadTie // a tie lacks an end
	LostMark
	MovedMark
	NoPart     // a layer has no part, or a part no layer
	Transposed // many notes in a row sound higher or lower by one amount
	Exchanged  // two neighbors changed places
)

// Difference is one thing to put right.
type Difference struct {
	Kind  Kind
	At    beat.Span // from the start of the piece
	Where heard.Where
	Layer string // or the part, for bars and ties
	Want  string // what the spec says
	Got   string // what the score has
	Count int    // notes of a MovedRun or of what is Transposed
	text  string
}

// String says the difference in words.
func (d Difference) String() string { return d.text }

// Result is what came of a comparison.
type Result struct {
	Differences []Difference // in order of time, those without a place first
	Compared    []string     // names of the layers that were compared
	Notes       int          // notes that the spec wants of them
	Remarks     []string     // what the reader left out
}

// Compare looks for every difference between the spec and the score. Of a
// file that is one player's part, by its own word or by the options', only that
// part's layers are compared. It fails when no part of the score can be matched
// with a layer.
func Compare(p *score.Piece, s *heard.Score, o Options) (*Result, error) {
	pairs, unmatched, err := match(p, s, o)
	if err != nil {
		return nil, err
	}
	r := &Result{Differences: unmatched}
	for _, pair := range pairs {
		c := comparison{piece: p, part: pair.part, options: o, composite: pair.composite}
		r.Notes += c.run(pair.layers)
		r.Differences = append(r.Differences, c.found...)
		r.Compared = append(r.Compared, c.names...)
	}
	r.Differences = append(r.Differences, marks(p, s)...)
	for _, remark := range s.Remarks {
		if remark.Kind == heard.LeftOut {
			r.Remarks = append(r.Remarks, remark.Part+": "+remark.Text)
			continue
		}
		if !slices.ContainsFunc(pairs, func(q pair) bool { return q.part.Name == remark.Part }) {
			continue
		}
		r.Differences = append(r.Differences, broken(remark, s))
	}
	slices.SortStableFunc(r.Differences, func(a, b Difference) int {
		return cmp.Or(cmp.Compare(hasPlace(a), hasPlace(b)), a.At.Cmp(b.At))
	})
	return r, nil
}

func hasPlace(d Difference) int {
	if d.Kind == NoPart {
		return 0
	}
	return 1
}

// broken turns a remark of the reader into a difference.
func broken(remark heard.Remark, s *heard.Score) Difference {
	d := Difference{Kind: BadBar, Layer: remark.Part, Got: remark.Text, text: remark.Part + ": " + remark.Text}
	if remark.Kind == heard.Loose {
		d.Kind = BadTie
	}
	if part, ok := s.Find(remark.Part); ok {
		for _, bar := range part.Bars {
			if bar.Number == remark.Bar {
				d.At = bar.Start
				d.Where = heard.Where{Bar: bar.Number, Pass: bar.Pass, Beat: 1}
				break
			}
		}
	}
	return d
}

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
		if len(part.Bars) == 0 && len(part.Attacks) == 0 { // it stands in the list of parts alone
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
		unmatched = append(unmatched, lost(p, players, used)...)
	}
	return pairs, unmatched, nil
}

// lost tells which parts of a full score are missing; of a part that is there,
// which layers are in none.
func lost(p *score.Piece, players []score.Player, used map[string]bool) []Difference {
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

func partNames(s *heard.Score) string {
	text := ""
	for i, part := range s.Parts {
		if i > 0 {
			text += ", "
		}
		text += part.Name
	}
	return text
}

func layersOf(p *score.Piece, players []score.Player, part *heard.Part, o Options) ([]layer, error) {
	wanted, told := o.Parts[part.Name]
	if !told {
		wanted, told = o.Parts[part.ID]
	}
	if told {
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
	for _, player := range players {
		if player.Name == part.Name {
			return layersOfPlayer(p, player), nil
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

// String names the kind for programs.
func (k Kind) String() string {
	return [...]string{"missing", "extra", "pitch", "moved", "moved-run", "length", "bar", "tie", "mark-missing", "mark-moved", "no-part", "transposed", "exchanged"}[k]
}
