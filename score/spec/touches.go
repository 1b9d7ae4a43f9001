package spec

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/instrument"
)

func touchWords() []string {
	return []string{"plain", "staccato", "tenuto", "marcato", "ghost", "accent"}
}

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
	for _, w := range words(s) {
		i := slices.Index(touchWords(), w.text)
		if i < 0 {
			hint := "touches are " + list(touchWords())
			if i := strings.IndexAny(w.text, ",;"); i > 0 {
				hint = "separate the words by blanks"
			} else if near := instrument.Nearest(w.text, touchWords()); len(near) > 0 {
				hint = "did you mean " + list(near) + "?"
			}
			r.slip(n, wrong(w.at, hint, "unknown touch %q", short(w.text)))
			continue
		}
		v.Touches = append(v.Touches, []score.Touch{score.Plain, score.Staccato, score.Tenuto, score.Marcato, score.Ghost, score.Accented}[i])
	}
	if len(words(s)) == 0 || len(v.Touches) > maxChords {
		r.wrong(r.at(n), "write one word an attack", "touches must have from 1 to %d words", maxChords)
	}
}
