package spec

import (
	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/instrument"
)

// clef reads the name of a clef; nil if it is none.
func (r *reader) clef(n *yaml.Node) *instrument.Clef {
	i, ok := r.choice(n, "clef", instrument.Clefs())
	if !ok {
		return nil
	}
	c := instrument.ClefOf(instrument.Clefs()[i])
	return &c
}

// checkClef refuses a clef that the layer's instrument cannot be read in.
func (r *reader) checkClef(n *yaml.Node, c *instrument.Clef, l *score.Layer) {
	if n == nil || c == nil || l.Instrument == nil {
		return
	}
	switch i := l.Instrument; {
	case i.IsUnpitched():
		r.wrong(r.at(n), "remove it, or leave "+l.Name+" out of for", "%s reads no pitches, so it has no clef to choose", l.Name)
	case i.Staves > 1:
		r.wrong(r.at(n), "remove it, or leave "+l.Name+" out of for", "%s has two staves; a clef is for one", l.Name)
	case c.Octave < 0 && i.Octave < 0:
		r.wrong(r.at(n), "write treble", "a %s is written an octave higher already, without an 8", i.Name)
	}
}
