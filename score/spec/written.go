package spec

import (
	"slices"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/beat"
	"tieover/score/instrument"
)

// writing reads how a layer stands on paper.
func (r *reader) writing(n *yaml.Node) (score.Written, bool) {
	s, ok := r.text(n, "written")
	if !ok {
		return score.AsNotes, false
	}
	i := slices.Index(score.WrittenNames(), s)
	if i < 0 {
		hint := "write one of these"
		if near := instrument.Nearest(s, score.WrittenNames()); len(near) > 0 {
			hint = "did you mean " + beat.Listed(near, "or") + "?"
		}
		r.wrong(r.at(n), hint, "written has notes, rhythm, slashes or repeats")
		return score.AsNotes, false
	}
	return score.Written(i), true
}
