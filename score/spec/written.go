package spec

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"tieover/score"
	"tieover/score/instrument"
	"tieover/score/spec/grammar"
)

// writing reads how a layer is written on paper.
func (r *reader) writing(n *yaml.Node) (score.Written, bool) {
	s, ok := r.text(n, "written")
	if !ok {
		return score.AsNotes, false
	}
	i := slices.Index(score.WrittenNames(), s)
	if i < 0 {
		hint := cmp.Or(grammar.DidYouMean(s, score.WrittenNames()), "write one of these")
		r.wrong(r.at(n), hint, "written has notes, rhythm, slashes or repeats")
		return score.AsNotes, false
	}
	return score.Written(i), true
}

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

var slurWords = map[string]score.SlursBy{"none": score.SlurNone, "group": score.SlurGroup, "cycle": score.SlurCycle}

func readSlurs(r *reader, n *yaml.Node, v *voice) {
	s, ok := r.text(n, "slurs")
	if !ok {
		return
	}
	if by, ok := slurWords[s]; ok {
		v.Slurring.By = by
		return
	}
	v.Slurring.By = score.SlurCounts
	for _, count := range strings.Split(s, "+") {
		k, err := strconv.ParseUint(strings.TrimSpace(count), 10, 16)
		if err != nil || k == 0 {
			r.wrong(r.at(n), "write 3+1+2, group, cycle or none", "slurs count attacks; write whole numbers from 1")
			return
		}
		v.Slurring.Counts = append(v.Slurring.Counts, int(k))
	}
}

// checkSlurs refuses slurs that no player could read.
func (r *reader) checkSlurs(n *yaml.Node, l *score.Layer) {
	if n == nil || l.Instrument == nil {
		return
	}
	switch {
	case l.Instrument.IsUnpitched():
		r.wrong(r.at(n), "remove it, or leave "+l.Name+" out of for", "%s has no pitches to slur", l.Name)
	case l.Tails == score.CutTails:
		r.wrong(r.at(n), "write tails: tied, or no slurs", "%s is cut at barlines (tails), so it cannot be slurred", l.Name)
	}
}
