package spec

import (
	"go.yaml.in/yaml/v3"

	"tieover/score/beat"
	"tieover/score/spec/grammar"
)

func readTouches(r *reader, n *yaml.Node, v *voice) {
	if n.Kind == yaml.SequenceNode {
		r.wrong(r.at(n), "write the words one after another: staccato plain", "touches cannot be a list")
		return
	}
	s, ok := r.text(n, "touches")
	if !ok {
		return
	}
	v.Touches = nil
	for _, w := range grammar.Words(s) {
		touch, slip := grammar.Touches(w)
		if slip != nil {
			r.slip(n, slip)
			continue
		}
		if touch.Has(grammar.StrokeTouches) {
			v.section.need(r, n, "1/32 for rolls and grace notes", beat.Of(1, 32))
		}
		v.Touches = append(v.Touches, touch)
	}
	if len(grammar.Words(s)) == 0 || len(v.Touches) > grammar.MaxChords {
		r.wrong(r.at(n), "write one word an attack", "touches must have from 1 to %d words", grammar.MaxChords)
	}
}
